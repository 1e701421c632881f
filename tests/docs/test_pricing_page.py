"""docs/pricing.md is kept true: its commands run, its kinds are those that there are, its numbers are right."""

from __future__ import annotations

import re
import shlex
from decimal import Decimal
from pathlib import Path

import pytest
from click.testing import CliRunner

from fitwright.cli import main
from fitwright.pricing import Kind, price_at
from fitwright.pricing.exploring import read_vary
from fitwright.units import Style
from tests.demos import EXAMPLES
from tests.stand import SHOP

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "pricing.md").read_text(encoding="utf-8")
COMMANDS = [
    line for block in re.findall(r"```sh\n(.*?)```", PAGE, re.DOTALL) for line in block.replace("\\\n", "").splitlines()
]
RACK = (EXAMPLES / "drying-rack" / "job.yaml").read_text(encoding="utf-8")


def shortened(command: str) -> str:
    """Fewer ways to try, so that the test is quick; that each is read is tested below."""
    return command.replace(":3", ":2")


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_runs(command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    words = shlex.split(shortened(command).replace("examples/", f"{EXAMPLES}/"))
    assert words[0] == "fitwright"
    done = CliRunner().invoke(main, words[1:])
    assert done.exit_code == 0, done.output
    for file in re.findall(r"--to (\S+)", command):
        assert (tmp_path / file).stat().st_size > 0


def test_its_kinds_are_those_of_the_cost() -> None:
    rows = re.findall(r"^\| ([a-z ]+) \|", PAGE.split("## From cost")[0], re.MULTILINE)
    assert rows[1:] == [str(kind) for kind in Kind]


def test_a_cost_of_100_is_a_price_of_125() -> None:
    assert "cost of\n100 at a margin of 20 % is a price of 125" in PAGE
    assert price_at(Decimal(100), Decimal("0.2"), SHOP.prices.pricing).net == 125


def test_what_to_vary_is_read_as_it_says() -> None:
    table = re.findall(r"^\| `([^`]+)` \|", PAGE, re.MULTILINE)
    found = [read_vary(said.replace("\\|", "|"), RACK, Style.inch()).values for said in table]
    assert [len(values) for values in found] == [4, 2, 0, 2]
    assert found[0] == ("22", "24", "26", "28")


def test_the_place_of_every_link_is_there() -> None:
    for file, _, anchor in (link.partition("#") for link in re.findall(r"\]\(([^)]+)\)", PAGE)):
        text = (ROOT / "docs" / file).read_text(encoding="utf-8")
        assert not anchor or f"## {anchor}" in text
