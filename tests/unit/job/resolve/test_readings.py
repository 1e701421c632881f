"""The readings section worked out: values in mm and rad, and every mistake with its line and the right words."""

from __future__ import annotations

import math
from datetime import date

import pytest

from fitwright.job import JobFileError, parse_job
from fitwright.job.readings import Reading

JOB = """\
job: {{name: Frame, unit: {unit}}}
stock: {{tube: round tube 25 x 2}}
parts:
  hoop: {{stock: tube, path: [[0, 0, 0], [0, 0, 900], [600, 0, 900], [600, 0, 0]], radius: 80}}
readings:
  - {{{entry}}}
"""


def read(entry: str, unit: str = "mm") -> Reading:
    return parse_job(JOB.format(entry=entry, unit=unit)).readings[0]


def told(entry: str) -> str:
    with pytest.raises(JobFileError) as error:
        read(entry)
    return str(error.value)


def test_an_angle_a_length_and_a_film() -> None:
    bend = read("of: bend 2 of A1, is: 91.2, within: 0.3, when: 2027-02-03, step: bend A1, note: cold")
    assert bend.value == pytest.approx(math.radians(91.2))
    assert bend.within == pytest.approx(math.radians(0.3))
    assert (bend.when, bend.step, bend.note, bend.line) == (date(2027, 2, 3), "bend A1", "cold", 6)
    assert read("of: width of the piece, is: 31 5/8 in").value == pytest.approx(803.275)
    assert read("of: paint thickness, is: 3 mil").value == pytest.approx(0.0762)  # a mil is 0.001 in, exactly
    assert read("of: twist of hoop, is: -1.5").value == -1.5


@pytest.mark.parametrize(
    ("entry", "says"),
    [
        ("of: bend 1 of hop, is: 90", '"hop" is neither the name of a part nor a mark such as A1; did you mean hoop?'),
        ("of: wdth of the piece, is: 9", "is not something that is read; did you mean width along the left of hoop 1?"),
        ("of: bend 1 of A1, is: abc", "is not an angle"),
        ("of: bend 1 of A1, is: 500", "at most 400°"),
        ("of: width of the piece, is: -3", "at least 0.0 mm belongs here"),
        ("of: width of the piece, is: 3, within: 0", "more than 0 belongs here"),
        ("of: paint thickness, is: 80", "is not a thickness of paint: write 80 µm or 3 mil"),
        ("of: width of the piece, is: 3, when: yesterday", "is not a date"),
        ("of: width of the piece", "readings[1]: is is missing"),
    ],
)
def test_what_a_reading_cannot_say(entry: str, says: str) -> None:
    message = told(entry)
    assert says in message
    assert "line 6" in message
