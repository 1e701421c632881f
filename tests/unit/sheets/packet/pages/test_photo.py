from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from fitwright.assess import Assessment, assess
from fitwright.job import load_job
from fitwright.job.beside import Beside
from fitwright.sheets.drawing import LETTER
from fitwright.sheets.packet.contents import head_of
from fitwright.sheets.packet.pages.photo import photo_page
from fitwright.sheets.packet.typesetting import typeset
from fitwright.shop import default_shop
from tests.unit.sheets.packet.jobs import plain, texts

RACK = Path(__file__).parents[5] / "examples" / "drying-rack" / "job.yaml"
DAY = date(2027, 1, 5)


@cache
def rack(there: bool = True) -> Assessment:
    return assess(load_job(RACK), default_shop("inch"), beside=Beside(RACK.parent) if there else None)


def test_no_photo_is_no_page() -> None:
    assert photo_page(plain()) is None


def test_every_measure_and_dim_is_told_with_its_plus_or_minus() -> None:
    page, answer = photo_page(rack()), rack().photo
    assert page is not None
    assert answer is not None
    assert answer.solved is not None
    assert answer.dims is not None
    style = rack().job.style
    rows = {row[1][0]: row for row in page.content["measures"]["rows"]}
    assert list(rows) == ["courses", *(one.name for one in answer.solved.measures)]
    for one in answer.solved.measures:
        assert rows[one.name][2][0] == style.length(one.value or 0.0)
        assert rows[one.name][2][1].startswith("± ")
    dims = {row[0][0]: row for row in page.content["dims"]["rows"]}
    assert dims["height"][3:] == ['74"', '74"']
    assert dims["width"][0][1] == "held"
    assert dims["frame.od"][0][1] == "nearest stock size"


def test_both_pictures_are_on_it_and_it_is_one_page() -> None:
    page = photo_page(rack())
    assert page is not None
    assert list(page.shots) == ["marked", "piece"]
    for shot, wide in page.shots.values():
        assert shot.svg.startswith("<svg")
        assert 60 < wide < 95
    assert page.shots["marked"][0].svg.count(">8</text>") == 1  # the number of the last measure
    told = texts(typeset(head_of(rack(), LETTER, DAY), [page], DAY))
    assert len(told) == 1
    assert "the new piece over it, made 1.20 times as large" in told[0].replace("\n", " ")


def test_without_the_picture_the_numbers_are_told_and_what_lacks() -> None:
    page = photo_page(rack(there=False))
    assert page is not None
    assert page.shots == {}
    assert any("old-rack.jpg is not beside the job file" in note for note in page.content["notes"])


def test_a_dim_out_of_proportion_is_signed() -> None:
    job = rack().job
    low = replace(job, dims={**job.dims, "height": replace(job.dims["height"], value=66 * 25.4)})
    page = photo_page(assess(low, default_shop("inch")))
    assert page is not None
    (height,) = [row for row in page.content["dims"]["rows"] if row[0][0] == "height"]
    assert height[4] == '66" (!)'


def test_marks_without_an_answer_are_no_page() -> None:
    job = rack().job
    assert job.photo is not None
    bare = replace(job, photo=replace(job.photo, edges=(), measures={}, known={}, planes={}, dims={}))
    assert photo_page(assess(bare, default_shop("inch"))) is None


@pytest.mark.parametrize("there", [True, False])
def test_it_can_be_typeset(there: bool) -> None:
    page = photo_page(rack(there))
    assert page is not None
    assert typeset(head_of(rack(there), LETTER, DAY), [page], DAY).startswith(b"%PDF")
