from __future__ import annotations

import pytest

from fitwright.job import JobFileError, parse_job
from fitwright.job.marks import DimMark

FILE = """job: {name: Test, unit: inch}
dims: {width: 31 1/2, high: 60, count: 3}
stock: {tube: round tube 1 1/8 x 16 ga}
parts: {post: {stock: tube, path: [[0, 0, 0], [0, 0, high]], repeat: {x: {every: width, count: count}}}}
photo:
  spots: {a: [10, 20], b: [30, 40]}
  edges: [{along: x, marks: [a, b]}]
  measures: {w: {from: a, to: b, along: x}, full height: {from: a, to: b}}
  dims:
"""


def dims(more: str) -> dict[str, DimMark]:
    photo = parse_job(FILE + more).photo
    assert photo is not None
    return dict(photo.dims)


def test_a_dim_from_a_measure() -> None:
    found = dims("    width: w\n    high: full height\n    tube.od: w / 9\n")
    assert [one.text for one in found.values()] == ["w", "full height", "w / 9"]
    assert not found["width"].held


def test_all_that_can_be_said() -> None:
    (one,) = dims(
        "    high: {from: w * 2, weight: 4, least: width, most: 80, fits: height, step: 1/2, held: yes}\n"
    ).values()
    assert (one.least, one.most, one.step) == pytest.approx((31.5 * 25.4, 80 * 25.4, 12.7))
    assert (one.weight, one.fits, one.held) == (4, "height", True)
    assert dims("    high: {from: w, keep: width}\n    width: w\n")["high"].keep == "width"


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ("    deep: w\n", '"deep" is not a dim'),
        ("    tube.odd: w\n", "no size called"),
        ("    width: wide\n", '"wide" is not measured on the photo'),
        ("    width: w * w\n", "an area; a length off the photo belongs here"),
        ("    width: w +\n", "photo.dims.width"),
        ("    width: {from: w, keep: high}\n", "not another dim that is proposed"),
        ("    width: {from: w, keep: width}\n", "not another dim that is proposed"),
        ("    width: {from: w, least: 9, most: 8}\n", "the least is more than the most"),
        ("    width: {from: w, fits: length}\n", "is not a word for this"),
        ("    width: {held: yes}\n", "from"),
    ],
)
def test_what_cannot_be_meant(more: str, said: str) -> None:
    with pytest.raises(JobFileError) as error:
        dims(more)
    assert said in str(error.value)
