"""The verb `fitwright readings`."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner

from fitwright.cli import main
from tests.demos import EXAMPLES


def folder(tmp_path: Path, readings: str) -> str:
    text = (EXAMPLES / "coat-rail" / "job.yaml").read_text(encoding="utf-8")
    (tmp_path / "job.yaml").write_text(f"{text}\n{readings}", encoding="utf-8")
    return str(tmp_path)


def test_without_readings_it_says_how_to_begin(tmp_path: Path) -> None:
    answer = CliRunner().invoke(main, ["readings", folder(tmp_path, "")])
    assert answer.exit_code == 0
    assert "no readings yet" in answer.output


def test_what_follows_as_text_and_as_json(tmp_path: Path) -> None:
    job = folder(tmp_path, "readings:\n  - {of: bend 1 of rail, is: 13.3}\n")
    answer = CliRunner().invoke(main, ["readings", "--quick", job])
    assert answer.exit_code == 0
    assert "bend 1 of rail" in answer.output
    told = json.loads(CliRunner().invoke(main, ["readings", "--json", job]).output)
    assert told["readings"][0]["read_deg"] == 13.3
    assert told["corrections"][0]["kind"] == "bend"


def test_a_reading_of_nothing_on_the_piece_is_named_once(tmp_path: Path) -> None:
    job = folder(tmp_path, "readings:\n  - {of: bend 9 of rail, is: 90}\n")
    said = " ".join(CliRunner().invoke(main, ["readings", "--quick", job]).output.split())
    assert "? bend 9 of rail: bends 1 to 4 are there" in said
