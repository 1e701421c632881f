"""The tutorial is run as written: its job file, its change, and the numbers that it names."""

from __future__ import annotations

import json
import re
from pathlib import Path

from click.testing import CliRunner

from fitwright.cli import main

PAGE = (Path(__file__).parents[2] / "docs" / "tutorial.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL)
INCH = 25.4


def told(folder: Path, *words: str) -> tuple[int, str]:
    outcome = CliRunner().invoke(main, [*words, str(folder)], catch_exceptions=False)
    return outcome.exit_code, outcome.output


def seat_verdicts(folder: Path) -> dict[str, str]:
    findings = json.loads(told(folder, "report")[1])["findings"]
    return {f["check"]: f["verdict"] for f in findings if "seat" in f["subject"]}


def written(folder: Path, text: str) -> Path:
    folder.mkdir()
    (folder / "job.yaml").write_text(text, encoding="utf-8")
    return folder


def test_the_first_file_loads_and_its_seat_sags(tmp_path: Path) -> None:
    folder = written(tmp_path / "hall-bench", BLOCKS[0])
    members = {row["part"]: row for row in json.loads(told(folder, "report")[1])["members"]}
    assert round(members["rail"]["cut_length_mm"] / INCH, 3) == 41.0
    assert "fails" in seat_verdicts(folder).values()
    assert told(folder, "check")[0] == 1


def test_two_inch_boards_cure_the_seat_and_lower_the_frame(tmp_path: Path) -> None:
    thin = next(line for line in BLOCKS[0].splitlines() if line.startswith("  slat:"))
    folder = written(tmp_path / "hall-bench", BLOCKS[0].replace(thin, BLOCKS[1].rstrip("\n")))
    assert "fails" not in seat_verdicts(folder).values()
    piece = json.loads(told(folder, "report")[1])["piece"]
    assert round(piece["envelope_mm"]["high"][2] / INCH, 3) == 17.5


def test_every_command_of_the_page_exists() -> None:
    verbs = set(re.findall(r"^    fitwright (\w+)", PAGE, re.MULTILINE))
    assert verbs <= set(main.commands)
    assert verbs
