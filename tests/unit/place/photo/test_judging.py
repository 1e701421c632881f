from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from fitwright.findings import Finding, Verdict
from fitwright.job import Job, load_job
from fitwright.place.photo.answering import photo_answer
from fitwright.place.photo.judging import photo_findings
from fitwright.shop import default_shop

RACK = Path(__file__).parents[4] / "examples" / "drying-rack" / "job.yaml"


@pytest.fixture(scope="module")
def job() -> Job:
    return load_job(RACK)


def found(job: Job) -> list[Finding]:
    return photo_findings(photo_answer(job, default_shop("inch"), None), job.style)


def test_each_dim_that_is_not_held_is_judged(job: Job) -> None:
    proportions = [one for one in found(job) if one.check == "proportion of the old piece"]
    assert {one.subject for one in proportions} == {"height", "lowest", "pitch", "rail_height", "frame.od"}
    assert {one.verdict for one in proportions} == {Verdict.HOLDS}


def test_a_dim_out_of_proportion_is_tight_and_says_what_to_take(job: Job) -> None:
    low = replace(job, dims={**job.dims, "height": replace(job.dims["height"], value=66 * 25.4)})
    (one,) = [one for one in found(low) if one.verdict is Verdict.TIGHT and one.subject == "height"]
    assert '66"' in one.advice
    assert 'take 74"' in one.advice
    assert one.margin is not None
    assert one.margin < 0


def test_a_view_that_tells_little_is_told(job: Job) -> None:
    assert "view: wide" in {one.check for one in found(job) if one.verdict is Verdict.TIGHT}


def test_marks_that_give_no_answer_need_input(job: Job) -> None:
    assert job.photo is not None
    (one,) = found(replace(job, photo=replace(job.photo, edges=(), measures={}, known={}, planes={}, dims={})))
    assert one.verdict is Verdict.NEEDS_INPUT
    assert "nothing is marked" in one.advice
