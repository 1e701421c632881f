from __future__ import annotations

import pytest

from fitwright.job import JobFileError, parse_job
from fitwright.job.marks import Arc, EdgeMark, Height, Length, LensMark, Photo, PlaneMark, Spacing, Spot, Tube
from fitwright.job.resolve.photo import MOST_SPOTS

FILE = """job: {{name: Test, unit: {unit}}}
dims: {{width: 31 1/2}}
stock: {{tube: square bar 30 mm}}
parts: {{post: {{stock: tube, path: [[0, 0, 0], [0, 0, 100]]}}}}
photo:
  spots: {{a: [10, 20], b: {{at: [30.5, 40], is: [0, width, 2], click: 0.5}}, c: [5, 6], d: [7, 8]}}
  edges: [{{along: brace, marks: [a, b]}}]
  planes: {{front: {{across: y, marks: [a, b]}}}}
"""


def photo(more: str = "", unit: str = "inch") -> Photo:
    found = parse_job(FILE.format(unit=unit) + more).photo
    assert found is not None
    return found


def told(more: str) -> str:
    with pytest.raises(JobFileError) as error:
        photo(more)
    return "; ".join(f"{mistake.where}: {mistake.what} ({mistake.nearest})" for mistake in error.value.mistakes)


def test_spots() -> None:
    spots = photo().spots
    assert spots["a"] == Spot(10, 20)
    assert spots["b"] == Spot(30.5, 40, click=0.5, place=(0, 800.1, 50.8))


def test_edges_and_planes_with_spots_written_in_place() -> None:
    found = photo("  measures: {w: {from: a, to: [1, 2.5], along: X}}\n")
    assert found.edges == (EdgeMark("brace", ("a", "b")),)
    assert found.planes == {"front": PlaneMark("y", ("a", "b"))}
    assert found.measures["w"] == Length("a", "[1, 2.5]", along="x")
    assert found.spots["[1, 2.5]"] == Spot(1, 2.5)


def test_every_measure() -> None:
    measures = photo(
        "  measures:\n"
        "    one: {from: a, to: b, along: brace}\n"
        "    two: {from: a, to: b, across: z}\n"
        "    tall: {height: a, foot: c}\n"
        "    pitch: {spacing: [a, b, c], along: z}\n"
        "    bend: {arc: [a, b, c, d, [1, 1]], plane: front}\n"
        "    tube: {sides: [[a, b], [c, d]], along: z, through: a}\n"
    ).measures
    assert list(measures.values()) == [
        Length("a", "b", along="brace"),
        Length("a", "b", across="z"),
        Height("a", "c"),
        Spacing(("a", "b", "c"), "z"),
        Arc(("a", "b", "c", "d", "[1, 1]"), "front"),
        Tube((("a", "b"), ("c", "d")), "z", "a"),
    ]


def test_what_is_known_in_the_job_s_unit_and_arithmetic() -> None:
    known = photo("  known: {w: {from: a, to: b, is: width / 2, within: 1/8}, h: {height: a, foot: c, is: 3}}\n").known
    assert known["w"].value == pytest.approx(31.5 * 12.7)
    assert known["w"].sigma == pytest.approx(25.4 / 8 / 1.96)
    assert known["h"].sigma == pytest.approx(25.4 / 16 / 1.96)
    assert photo("  known: {h: {height: a, foot: c, is: 30}}\n", unit="mm").known["h"].sigma == pytest.approx(1 / 1.96)


def test_lens_picture_and_click() -> None:
    found = photo(
        "  picture: old rack.jpg\n  size: [640, 480]\n  click: 0.7\n  cropped: yes\n"
        "  lens: {focal: 500, centre: [3, 4], barrel: -0.1}\n"
    )
    assert (found.picture, found.size, found.click, found.cropped) == ("old rack.jpg", (640, 480), 0.7, True)
    assert found.lens == LensMark(focal=500, centre=(3, 4), barrel=-0.1)
    assert photo("  lens: {focal_35mm: 28}\n").lens == LensMark(focal_35mm=28)


def test_no_photo() -> None:
    assert parse_job(FILE.format(unit="mm").split("photo:")[0]).photo is None


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (
            "  measures: {w: {from: a, to: bb}}\n",
            '"bb" is not the name of a spot; write [u, v] for a place on the picture (b)',
        ),
        ("  measures: {w: {from: a, to: a}}\n", "from one spot to another one"),
        (
            "  measures: {w: {from: a, to: b, along: brase}}\n",
            '"brase" is not a direction along which an edge is marked (brace)',
        ),
        ("  measures: {w: {from: a, to: b, along: x, across: y}}\n", "along says the direction already"),
        ("  measures: {w: {arc: [a, b, c, d, [1, 1]], plane: fromt}}\n", '"fromt" is not the name of a plane (front)'),
        ("  measures: {w: {from: a}}\n", "to is missing"),
        ("  measures: {w: {from: a, too: b}}\n", '"too" is not a key here (to)'),
        ("  measures: {w: {spacing: [a, b, c], along: brace}}\n", '"brace" is not a word for this'),
        ("  measures: {w: {sides: [[a, b]], along: z, through: a}}\n", "the two sides of a tube belongs here"),
        ("  measures: {w: {from: [1, 2, 3], to: b}}\n", "a place on the picture [u, v] belongs here: a list of 2"),
        ("  known: {w: {from: a, to: b}}\n", "is is missing"),
        ("  known: {w: {from: a, to: b, is: 0}}\n", "more than 0"),
        ("  lens: {focal: 500, focal_35mm: 28}\n", "focal says it already"),
        ("  lens: {barrel: 3}\n", "-0.5 to 0.25 is accepted"),
        ("  click: 0\n", "0.01 to 100 is accepted"),
        ("  marks: []\n", '"marks" is not a key here'),
        ("  picture: [a]\n", "one value belongs here, not a list"),
    ],
)
def test_what_it_cannot_say(more: str, says: str) -> None:
    assert says in told(more)


def test_more_spots_than_any_photo_has() -> None:
    marks = ", ".join(f"[{k}, 1]" for k in range(MOST_SPOTS + 1))
    assert f"at most {MOST_SPOTS} spots" in told(f"  measures: {{w: {{spacing: [{marks}], along: z}}}}\n")
