"""The page on records is run as written: its verbs, its answers, the order of where records are."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from fitwright.cli import main
from fitwright.shop.records import ENVIRONMENT, OnHand, Trial, Where, open_records, where
from tests.demos import EXAMPLES

PAGE = (Path(__file__).parents[2] / "docs" / "records.md").read_text(encoding="utf-8")
COMMANDS = re.findall(r"^fitwright .*$", PAGE, re.M)
TUBE = "round tube 1 1/8 x 14 ga"


def test_every_command_of_the_page_works_in_its_order(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "kept" / "records.db"
    monkeypatch.setenv(ENVIRONMENT, str(file))
    monkeypatch.chdir(tmp_path)
    shutil.copytree(EXAMPLES / "drying-rack", tmp_path / "drying-rack")
    (tmp_path / "rack.csv").write_text(f'label,length,count,place\n{TUBE},"44 1/2",2,second arm\n')
    said = []
    for command in COMMANDS:
        done = CliRunner().invoke(main, shlex.split(command)[1:], catch_exceptions=False)
        assert done.exit_code == 0, f"{command}: {done.output}"
        said.append(done.output)
    (answer,) = re.findall(r"^For 90.*$", PAGE, re.M)
    assert said[0].splitlines()[0] == answer
    assert "Take-up" in said[1]
    assert len(COMMANDS) == 7
    with open_records(Where(file)) as records:
        assert len(records.all(Trial)) == 2
        assert any(one.place == "second arm" for one in records.all(OnHand))


def test_where_records_are_is_told_in_the_order_that_holds(monkeypatch: pytest.MonkeyPatch) -> None:
    (told,) = re.findall(r"in this order: (.*?), else the file", PAGE, re.S)
    order = re.findall(r"`([^`]+)`", told)
    assert order == ["--records", ENVIRONMENT, "records:"]
    monkeypatch.setenv(ENVIRONMENT, "/b.db")
    assert [where("/a.db", "/c.db").file, where("", "/c.db").file] == [Path("/a.db"), Path("/b.db")]
    monkeypatch.delenv(ENVIRONMENT)
    assert where("", "/c.db").file == Path("/c.db")


def test_every_verb_for_records_is_on_the_page() -> None:
    for verb in ("trial", "built", "remember", "records"):
        assert re.search(rf"fitwright {verb}\b", PAGE), verb
    for name in ("backup", "restore", "import", "export"):
        assert f"records {name}" in PAGE
    for option in ("--die", "--stock", "--set", "--got", "--heat", "--blank", "--legs", "--mark", "--records"):
        assert option in PAGE, option
