from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from fitwright.findings import Verdict
from fitwright.job import Job, load_job
from fitwright.job.beside import Beside
from fitwright.place.photo_wanted import photo_input_findings

RACK = Path(__file__).parents[3] / "examples" / "drying-rack" / "job.yaml"


@pytest.fixture(scope="module")
def job() -> Job:
    return load_job(RACK)


def test_nothing_is_missing_from_the_example(job: Job) -> None:
    assert photo_input_findings(job, Beside(RACK.parent)) == []
    assert photo_input_findings(replace(job, photo=None), None) == []


def test_a_picture_that_is_not_there(job: Job, tmp_path: Path) -> None:
    (one,) = photo_input_findings(job, Beside(tmp_path))
    assert one.verdict is Verdict.NEEDS_INPUT
    assert one.advice.startswith("put old-rack.jpg beside the job file")


def test_no_known_length(job: Job) -> None:
    assert job.photo is not None
    bare = replace(job, photo=replace(job.photo, known={}))
    assert [one.check for one in photo_input_findings(bare, None)] == ["known length"]
    empty = replace(job, photo=replace(job.photo, edges=(), measures={}))
    assert [one.check for one in photo_input_findings(empty, None)] == ["marks on the photo"]
