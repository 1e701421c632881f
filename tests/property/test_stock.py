"""What holds for any stock: labels that read back, sections that scale, sleeves that go in."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from fitwright.stock import Angle, Flat, RectTube, RoundTube, Section, StockError, fits_inside, parse_stock, sleeves_for
from fitwright.stock.reading import inch_words, mm_words

sixty_fourths = st.integers(32, 256).map(lambda n: n / 64 * 25.4)


@st.composite
def sections(draw: st.DrawFn) -> Section:
    size = st.floats(5, 100)
    part = st.floats(0.02, 0.98)
    kind = draw(st.sampled_from(["round", "rect", "flat", "angle"]))
    a, b = sorted((draw(size), draw(size)), reverse=True)
    if kind == "round":
        return RoundTube(a, a / 2 * draw(part))
    if kind == "rect":
        return RectTube(a, b, b / 2 * draw(part), b / 2 * draw(st.floats(0, 1)))
    if kind == "flat":
        return Flat(a, b)
    t = b * draw(st.floats(0.05, 0.4))
    return Angle(a, b, t, (b - t) / 2 * draw(st.floats(0, 0.9)), min(t, (b - t) / 2) * draw(st.floats(0, 1)))


def scaled(section: Section, by: float) -> Section:
    sizes = {
        name: value * by
        for name, value in vars(section).items()
        if isinstance(value, float) and name in fields(section)
    }
    return type(section)(**sizes)


def fields(section: Section) -> tuple[str, ...]:
    return tuple(section.__dataclass_fields__)


@settings(max_examples=60)
@given(sections(), st.floats(0.2, 5))
def test_properties_scale_with_the_section(section: Section, by: float) -> None:
    other = scaled(section, by)
    assert other.area == pytest.approx(section.area * by**2, rel=1e-9)
    assert other.i_u == pytest.approx(section.i_u * by**4, rel=1e-9)
    assert other.j == pytest.approx(section.j * by**4, rel=1e-9)
    assert other.z_plastic_u == pytest.approx(section.z_plastic_u * by**3, rel=1e-6)


@settings(max_examples=60)
@given(sections())
def test_bounds_that_no_section_escapes(section: Section) -> None:
    assert 0 < section.area <= section.metal_area * (1 + 1e-9)
    assert section.principal[1] > 0
    assert section.j <= (section.i_u + section.i_v) * (1 + 1e-9)
    assert section.s_u <= section.z_plastic_u * (1 + 1e-6)
    assert section.s_v <= section.z_plastic_v * (1 + 1e-6)


@settings(max_examples=60)
@given(sections(), st.lists(st.tuples(st.floats(-150, 150), st.floats(-150, 150)), min_size=2, max_size=8))
def test_distance_never_changes_faster_than_the_point_moves(
    section: Section, points: list[tuple[float, float]]
) -> None:
    at = np.array(points)
    gaps = section.distance(at)
    for k in range(1, len(at)):
        assert abs(gaps[k] - gaps[0]) <= np.linalg.norm(at[k] - at[0]) + 1e-6


@given(sixty_fourths, st.sampled_from([11, 14, 16, 18]))
def test_inch_labels_read_back(od: float, gauge: int) -> None:
    stock = parse_stock(f"round tube {inch_words(od)} in x {gauge} ga")
    again = parse_stock(stock.label, unit="mm")
    assert again.label == stock.label
    assert again.section == stock.section


@given(st.integers(100, 1000), st.integers(5, 40))
def test_metric_labels_read_back(tenths: int, wall_tenths: int) -> None:
    od, wall = tenths / 10, wall_tenths / 10
    assume(wall < od / 2)
    stock = parse_stock(f"round tube {mm_words(od)} x {mm_words(wall)}")
    assert stock.section == RoundTube(od, wall)
    again = parse_stock(stock.label, unit="inch")
    assert again == stock


@given(
    st.text(max_size=60) | st.from_regex(r"(round tube|angle|lumber|pipe|plywood) [0-9/x. a-z]{0,20}", fullmatch=True)
)
def test_any_text_is_stock_or_refused_in_words(text: str) -> None:
    try:
        stock = parse_stock(text)
    except StockError:
        return
    assert stock.label


@settings(max_examples=40)
@given(st.integers(20, 60), st.sampled_from([1.0, 1.5, 2.0, 3.0]))
def test_sleeves_go_in(od: int, wall: float) -> None:
    tube = parse_stock(f"round tube {od} x {wall} mm")
    for sleeve in sleeves_for(tube):
        inner = sleeve.stock.section
        assert inner.extents[1] * 2 < od - 2 * wall
        assert sleeve.over_bead == pytest.approx(od - 2 * wall - inner.extents[1] * 2)
        assert fits_inside(inner, tube.section) == pytest.approx(sleeve.clearance)
