"""Threads against ASME B1.1, FED-STD-H28/2B, ASME B18.2.8, ISO 273, ISO 898-1 and tap drill charts.

Percent of thread: charts of an open hardware table, 1.299 / n. Stress areas: ASME B1.1 tables and ISO 898-1. Limits of
1/4-20 and M6: ASME B1.1 and ISO 965-1 tables (from memory). 1/4-20 in a 0.120 wall: FED-STD-H28/2B areas.
"""

from __future__ import annotations

import pytest

from fitwright.checks.stripping import full_strength_depth, screw_shear_area, turns
from fitwright.checks.threads import clearance_hole, limits, parse_thread, percent_thread, tap_drill
from fitwright.units import INCH


@pytest.mark.parametrize(
    ("thread", "drill", "percent"),
    [
        ("1/4-20", 0.201 * INCH, 75.4),
        ("1/4-20", 7 / 32 * INCH, 48.1),
        ("3/8-16", 5 / 16 * INCH, 77.0),
        ("1/2-13", 27 / 64 * INCH, 78.2),
        ("#10-24", 0.1495 * INCH, 74.8),
        ("M6x1", 5.0, 77.0),
        ("M8x1.25", 6.8, 73.9),
        ("M5x0.8", 4.2, 77.0),
    ],
)
def test_percent_of_thread(thread: str, drill: float, percent: float) -> None:
    assert percent_thread(parse_thread(thread), drill) == pytest.approx(percent, abs=0.1)


@pytest.mark.parametrize(
    ("thread", "area"),
    [("1/4-20", 0.0318), ("1/4-28", 0.0364), ("5/16-18", 0.0524), ("3/8-16", 0.0775), ("1/2-13", 0.1419)],
)
def test_inch_stress_areas(thread: str, area: float) -> None:
    assert parse_thread(thread).stress_area / INCH**2 == pytest.approx(area, abs=1e-4)


@pytest.mark.parametrize(("thread", "area"), [("M6", 20.1), ("M8", 36.6), ("M10", 58.0)])
def test_metric_stress_areas(thread: str, area: float) -> None:
    assert parse_thread(thread).stress_area == pytest.approx(area, abs=0.05)


def test_limits_of_a_quarter_twenty() -> None:
    size = limits(parse_thread("1/4-20"))
    found = [size.minor_hole_max, size.pitch_screw_min, size.pitch_hole_max, size.major_screw_min]
    assert [value / INCH for value in found] == pytest.approx([0.207, 0.2127, 0.2224, 0.2408], abs=1e-4)


def test_limits_of_m6() -> None:
    size = limits(parse_thread("M6"))
    found = [size.minor_hole_max, size.pitch_screw_min, size.pitch_hole_max, size.major_screw_min]
    assert found == pytest.approx([5.153, 5.212, 5.500, 5.794], abs=0.007)


@pytest.mark.parametrize(("wall", "count"), [(0.065, 1.3), (0.120, 2.4)])
def test_turns_of_a_quarter_twenty_in_a_wall(wall: float, count: float) -> None:
    assert turns(parse_thread("1/4-20"), wall * INCH) == pytest.approx(count, abs=0.001)


def test_shear_area_in_a_thin_wall_and_the_depth_that_breaks_the_screw() -> None:
    thread = parse_thread("1/4-20")
    assert screw_shear_area(thread, 0.120 * INCH) / INCH**2 == pytest.approx(0.0442, abs=1e-4)
    assert full_strength_depth(thread) / INCH == pytest.approx(0.173, abs=1e-3)


@pytest.mark.parametrize(
    ("thread", "close", "normal", "loose"),
    [
        ("#10-24", "#5 (0.2055)", "#2 (0.221)", "B (0.238)"),
        ("1/4-20", "17/64", "9/32", "19/64"),
        ("3/8-16", "25/64", "13/32", "27/64"),
        ("1/2-13", "17/32", "9/16", "39/64"),
        ("M5", "5.3 mm", "5.5 mm", "5.8 mm"),
        ("M6", "6.4 mm", "6.6 mm", "7 mm"),
        ("M8", "8.4 mm", "9 mm", "10 mm"),
    ],
)
def test_clearance_holes(thread: str, close: str, normal: str, loose: str) -> None:
    found = [clearance_hole(parse_thread(thread), fit) for fit in ("close", "normal", "loose")]
    assert found == [close, normal, loose]


@pytest.mark.parametrize(
    ("thread", "drill"), [("1/4-20", "#7"), ("3/8-16", "5/16"), ("1/2-13", "27/64"), ("#10-24", "#25")]
)
def test_tap_drills(thread: str, drill: str) -> None:
    found = tap_drill(parse_thread(thread))
    assert found is not None
    assert found[0] == drill
    assert 68 < percent_thread(parse_thread(thread), found[1]) < 81
