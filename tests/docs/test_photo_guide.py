"""The guide to measuring from a photo: what it prints is what the program says; its pieces are the example's."""

from __future__ import annotations

import re
from pathlib import Path

from click.testing import CliRunner

from fitwright.cli import main

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "photo.md").read_text(encoding="utf-8")
RACK = ROOT / "examples" / "drying-rack"


def test_what_it_prints_is_what_the_program_says() -> None:
    (told,) = re.findall(r"```\n(camera: .*?)\n```", PAGE, re.DOTALL)
    answer = CliRunner().invoke(main, ["photo", str(RACK)], catch_exceptions=False)
    assert answer.exit_code == 0
    assert told.splitlines() == answer.output.rstrip("\n").splitlines()


def test_its_pieces_of_the_file_are_those_of_the_example() -> None:
    job = (RACK / "job.yaml").read_text(encoding="utf-8")
    for block in re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL):
        for line in block.splitlines():
            assert line in job, line


def test_the_picture_is_there() -> None:
    name = re.search(r"`(old-rack\.jpg)`", PAGE)
    assert name is not None
    assert (RACK / name[1]).stat().st_size < 400_000
