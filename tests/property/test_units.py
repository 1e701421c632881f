"""Whatever a shop prints, it can read back, within the printed step."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.units import LengthError, Style, UnitError, parse_angle, parse_length, parse_load, parse_mass

STEPS = [Fraction(1, 16), Fraction(1, 32), Fraction(1, 64)]
STYLES = [*(Style.inch(step) for step in STEPS), Style.metric(), Style.metric(Fraction(1, 10))]
STYLES += [Style("cm", Fraction(1, 2)), Style("cm", Fraction(1, 10))]

any_length = st.floats(allow_nan=False, allow_infinity=False)
shop_length = st.floats(-5000, 5000)


@given(any_length | shop_length, st.sampled_from(STYLES), st.booleans())
def test_what_is_printed_reads_back_within_the_step(mm: float, style: Style, feet: bool) -> None:
    back = parse_length(style.length(mm, feet))
    assert abs(Fraction(back) - Fraction(mm)) <= Fraction(style.step_mm) / 2 + abs(Fraction(mm)) / 2**52


@given(shop_length, st.sampled_from(STYLES))
def test_bare_numbers_read_back_in_the_jobs_unit(mm: float, style: Style) -> None:
    assert parse_length(style.bare(mm), style.unit) == style.round_length(mm)


@given(shop_length, st.sampled_from(STYLES))
def test_rounding_again_changes_nothing(mm: float, style: Style) -> None:
    once = style.round_length(mm)
    assert style.round_length(once) == once
    assert not style.bare(once).endswith(("+", "-"))


@given(st.floats(-5000, 5000), st.sampled_from(STEPS))
def test_the_mark_tells_the_side_and_is_there_beyond_a_quarter_step(mm: float, step: Fraction) -> None:
    style = Style.inch(step)
    off = Fraction(mm) - Fraction(254, 10) * step * round(Fraction(style.round_length(mm)) / (Fraction(254, 10) * step))
    text = style.bare(mm)
    beyond = abs(off) > Fraction(254, 10) * step / 4
    if beyond and abs(Fraction(mm)) <= Fraction(254, 10) * step / 2:
        assert text not in ("0+", "0-")  # what would round to nothing is printed finer
        assert text.startswith("-") == (mm < 0)
        assert parse_length(text, "inch") != 0
    else:
        assert text.endswith(("+", "-")) == beyond
        assert not beyond or text.endswith("+" if off > 0 else "-")


@given(st.text(max_size=60))
@pytest.mark.parametrize("read", [parse_length, parse_angle, parse_mass, parse_load])
def test_any_text_is_read_or_refused_in_words(read: object, text: str) -> None:
    assert callable(read)
    try:
        value = read(text)
    except UnitError as wrong:
        value = str(wrong)
    assert isinstance(value, float) or "write" in value


@given(st.text(alphabet="0123456789/'\"-+ .efintm", max_size=40))
def test_texts_that_nearly_are_lengths_are_read_or_refused(text: str) -> None:
    try:
        value = parse_length(text)
    except LengthError:
        return
    assert value == value  # never nan


@given(st.floats(0.01, 5000), st.sampled_from([Style.inch(), Style.metric()]))
def test_weights_and_forces_read_back_within_half_a_percent(size: float, style: Style) -> None:
    assert parse_mass(style.weight(size)) == pytest.approx(size, rel=0.0051, abs=0.0006)
    assert parse_load(style.force(size)) == pytest.approx(size, rel=0.0051, abs=0.006)


@given(st.floats(-10, 10))
def test_angles_read_back_within_half_a_tenth(rad: float) -> None:
    assert abs(parse_angle(Style.metric().angle(rad)) - rad) <= 0.0501 * 3.14159265 / 180


@given(st.integers(-60, 60), st.integers(0, 11), st.integers(1, 63))
def test_the_same_length_in_every_spelling(feet: int, inches: int, part: int) -> None:
    sign = "-" if feet < 0 else ""
    total = (abs(feet) * 12 + inches + Fraction(part, 64)) * (-1 if feet < 0 else 1)
    spellings = [
        f"{sign}{abs(feet)}' {inches} {part}/64\"",
        f"{sign}{abs(feet)} ft {inches}-{part}/64 in",
        f"{sign}{abs(feet)}\u2032-{inches} {part}\u204464\u2033",
        f"{sign}{abs(feet) * 12 + inches} {part}/64 inches",
    ]
    assert {parse_length(text) for text in spellings} == {float(total * Fraction(254, 10))}
