from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.job import Job, JobFileError, load_job, parse_job
from fitwright.job.model import Drawn, MemberSpec

TEXT = """job:   {name: Drying rack, unit: inch}
dims:  {width: 31 1/2, depth: 19, height: 74, shelves: 4, pitch: (height - 22) / shelves}
stock: {frame: round tube 1 1/8 x 14 ga, ledge: angle 1 1/4 x 1 1/4 x 1/8}
parts:
  hoop:                       # one bent member, made twice
    stock: frame
    outside: [[0, 0, 6], [0, 0, height], [width, 0, height], [width, 0, 6]]
    radius: 4
    repeat: {y: [0, depth]}
"""


def test_the_file_and_its_text_give_the_same_job(tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    path.write_text(TEXT, encoding="utf-8")
    job = load_job(path)
    assert isinstance(job, Job)
    assert job == parse_job(TEXT) == load_job(str(path))


def test_lengths_come_out_in_mm() -> None:
    (hoop,) = parse_job(TEXT).parts
    assert isinstance(hoop, MemberSpec)
    assert hoop.drawn is Drawn.OUTSIDE
    assert hoop.points[2] == (800.1, 0, 1879.6)
    assert hoop.radii == (0, 101.6, 101.6, 0)
    assert hoop.where.line == 5


def test_an_error_names_the_file(tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    path.write_text(TEXT.replace("radius: 4", "radius: x"), encoding="utf-8")
    with pytest.raises(JobFileError) as error:
        load_job(path)
    assert str(error.value).startswith(f"{path} has 1 mistake:\n  line 8, column 13: parts.hoop.radius: ")


def test_a_text_is_called_job_yaml_unless_named() -> None:
    with pytest.raises(JobFileError, match=r"^job.yaml has"):
        parse_job("")
    with pytest.raises(JobFileError, match=r"^shelf has"):
        parse_job("", "shelf")
