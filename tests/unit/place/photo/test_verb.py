"""The verb on the command line: `fitwright photo JOB`."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from PIL import Image

from fitwright.cli import main

JOB = """job: {name: Test, unit: inch}
stock: {bar: square bar 1}
parts: {post: {stock: bar, path: [[0, 0, 0], [0, 0, 30]]}}
photo:
  picture: board.png
  spots: {a: [100, 100], b: [500, 110], c: [480, 380], d: [120, 390]}
  edges:
    - {along: x, marks: [a, b], snap: true}
    - {along: x, marks: [d, c]}
    - {along: z, marks: [a, d]}
    - {along: z, marks: [b, c]}
  known: {top: {from: a, to: b, is: 24}}
  measures: {side: {from: a, to: d}}
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "job.yaml").write_text(JOB, encoding="utf-8")
    grey = np.full((480, 640), 60, dtype=np.uint8)
    v, u = np.mgrid[:480, :640]
    grey[v > 100 + (u - 100) / 40] = 190
    Image.fromarray(grey).save(tmp_path / "board.png")
    return tmp_path


def run(*words: str) -> tuple[int, str]:
    result = CliRunner().invoke(main, ["photo", *words])
    return result.exit_code, result.output


def test_lines(folder: Path) -> None:
    code, lines = run(str(folder))
    assert code == 0
    assert lines.startswith("camera: sees as")
    assert "side  " in lines
    assert "would help side: " in lines


def test_plain_data(folder: Path) -> None:
    data = json.loads(run(str(folder / "job.yaml"), "--json")[1])
    assert data["size_px"] == [640, 480]
    assert data["not_found"] == []
    assert data["measures"]["side"]["value_mm"] > 200


def test_without_the_picture(folder: Path) -> None:
    (folder / "board.png").unlink()
    code, said = run(str(folder))
    assert code == 2
    assert "board.png is not at hand" in said


def test_a_picture_outside_the_job_s_folder(folder: Path) -> None:
    inner = folder / "inner"
    inner.mkdir()
    (inner / "job.yaml").write_text(JOB.replace("board.png", "../board.png"), encoding="utf-8")
    code, said = run(str(inner))
    assert code == 2
    assert "not in the job's own folder" in said


def test_a_job_without_a_photo(folder: Path) -> None:
    (folder / "job.yaml").write_text(JOB.split("photo:")[0], encoding="utf-8")
    code, said = run(str(folder))
    assert code == 2
    assert "no photo section" in said
