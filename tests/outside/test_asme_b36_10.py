"""Pipe against ASME B36.10M.

Source: outside diameters and walls as in an open pipe table; plain-end weight 10.69 (D - t) t [lb/ft] is the formula of
ASME B36.10M (from memory), and agrees with the AISC Shapes Database v16.0.
"""

from __future__ import annotations

import pytest

from fitwright.stock import parse_stock, pipe_size
from fitwright.units import FOOT, INCH, POUND

# size, schedule: outside diameter and wall [in], weight [lb/ft]
PIPE = [
    ("1/2", "40", 0.840, 0.109, 0.852),
    ("1/2", "80", 0.840, 0.147, 1.089),
    ("3/4", "40", 1.050, 0.113, 1.132),
    ("3/4", "80", 1.050, 0.154, 1.475),
    ("1", "40", 1.315, 0.133, 1.681),
    ("1", "80", 1.315, 0.179, 2.174),
    ("1-1/4", "40", 1.660, 0.140, 2.275),
    ("1-1/4", "80", 1.660, 0.191, 2.999),
    ("1-1/2", "40", 1.900, 0.145, 2.720),
    ("1-1/2", "80", 1.900, 0.200, 3.635),
    ("2", "40", 2.375, 0.154, 3.656),
    ("2", "80", 2.375, 0.218, 5.027),
]
WEIGHT = 0.005


@pytest.mark.parametrize(("nps", "schedule", "od", "wall", "weight"), PIPE)
def test_pipe(nps: str, schedule: str, od: float, wall: float, weight: float) -> None:
    pipe = pipe_size(nps, schedule)
    assert pipe.od / INCH == pytest.approx(od, abs=1e-9)
    assert pipe.wall / INCH == pytest.approx(wall, abs=1e-9)
    mass = parse_stock(f"pipe {nps} sch {schedule}").mass_per_m
    assert mass / POUND * FOOT / 1000 == pytest.approx(weight, rel=WEIGHT)
    assert mass / POUND * FOOT / 1000 == pytest.approx(10.69 * (od - wall) * wall, rel=WEIGHT)
