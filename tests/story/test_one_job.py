"""The page docs/one-job.md, run from top to bottom: trials, a wide hoop, hours, and the quote after it."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from fitwright.cli import main
from tests.demos import EXAMPLES

PAGE = (EXAMPLES.parent / "docs" / "one-job.md").read_text(encoding="utf-8")
BLOCK = re.compile(r"^```(console|yaml)\n(.*?)^```", re.MULTILINE | re.DOTALL)


def said(command: str) -> str:
    """What a command of the page answers."""
    program, *words = shlex.split(command)
    if program == "cp":
        shutil.copytree(EXAMPLES.parent / words[1], words[2])
        return ""
    assert program == "fitwright"
    answer = CliRunner().invoke(main, words)
    assert answer.exit_code == 0, answer.output
    return answer.output


def squeezed(text: str) -> str:
    """Without the spaces by which a table is set."""
    return " ".join(text.split())


def run(block: str) -> list[tuple[str, str]]:
    """Lines shown after a command that it did not say, each with what it said instead."""
    answer, missing = "", []
    for line in block.splitlines():
        if line.startswith("$ "):
            answer = squeezed(said(line.removeprefix("$ ")))
        elif squeezed(line) not in answer:
            missing.append((line, answer))
    return missing


def test_the_page_is_what_happens(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("FITWRIGHT_RECORDS", str(tmp_path / "records.db"))
    monkeypatch.setenv("COLUMNS", "200")
    kinds = [kind for kind, _ in BLOCK.findall(PAGE)]
    assert kinds == ["console", "console", "yaml", "console", "yaml", "console", "console"]
    for kind, block in BLOCK.findall(PAGE):
        if kind == "yaml":
            with (tmp_path / "rack" / "job.yaml").open("a", encoding="utf-8") as file:
                file.write(f"\n{block}")
        else:
            assert run(block) == []
