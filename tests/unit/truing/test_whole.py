"""Readings of the small rack, and what follows as a whole."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import datetime

import numpy as np
import pytest

from fitwright.findings import Verdict
from fitwright.job.progress import Progress
from fitwright.truing import changes, measured, numbers_of, truing
from fitwright.truing.asking import Asking
from fitwright.truing.vocabulary import readable
from fitwright.units import Style
from tests.unit.truing.samples import rack, read

FEET = tuple(f"height of foot {n}: {h}" for n, h in ((1, 0), (2, 0), (3, 2.4), (4, 0)))


def test_a_foot_that_hangs_is_packed_by_what_is_missing_and_last() -> None:
    found = read(*FEET).truing
    assert found is not None
    (shim,) = [touch for touch in found.touches if touch.kind == "shim"]
    assert shim is found.touches[-1]
    assert found.rock == pytest.approx(2.4, abs=0.2)
    assert found.rock_after < 0.3
    assert shim.amount == pytest.approx(2.4, abs=0.3)
    assert "caster" in shim.subject or "foot" in shim.subject or "hoop" in shim.subject


def test_bends_that_are_over_are_opened_and_the_next_are_set_to_less() -> None:
    found = read("bend 1 of hoop 1: 91.2", "bend 2 of hoop 1: 91.2").truing
    assert found is not None
    assert [touch.kind for touch in found.touches] == ["bend", "bend"]
    for touch in found.touches:
        assert math.degrees(touch.amount) == pytest.approx(-1.1, abs=0.15)
        assert touch.needed
        assert touch.beyond > 0
        assert touch.words.startswith("open bend")
    assert {one.member for one in found.commands} == {"hoop 2"}
    for one in found.commands:
        assert math.degrees(one.by) == pytest.approx(-1.0, abs=0.2)
        assert "come out +" in one.why


def test_a_part_that_is_ticked_off_does_not_follow_any_more() -> None:
    assessment = read("bend 1 of hoop 1: 90", "bend 2 of hoop 1: 90", "width at the top of hoop 1: 604")
    assert any(one.mark == "D1" for one in changed(assessment.job.progress))
    ticked = (Progress(f"saw {rack().piece.members[0].stock.label}", done=datetime(2027, 2, 3, 9, 0)),)
    assert not any(one.mark == "D1" for one in changed(ticked))


def changed(progress: tuple[Progress, ...]):  # type: ignore[no-untyped-def]
    plain = read("bend 1 of hoop 1: 90", "bend 2 of hoop 1: 90", "width at the top of hoop 1: 604")
    assessment = replace(plain, job=replace(plain.job, progress=progress))
    old, new = (numbers_of(one.piece, one.bend_sheets, ()) for one in (assessment, assessment.trued))
    assert assessment.truing is not None
    return changes(old, new, assessment.truing, assessment.piece, assessment.set_ups)


def test_one_line_where_all_of_a_mark_change_alike() -> None:
    told = {(one.sheet, one.mark): one for one in changed(())}
    rail = told["cut", "D1"]
    assert rail.old is not None
    assert rail.new - rail.old == pytest.approx(4.0, abs=0.5)
    assert rail.by == pytest.approx(rail.new - rail.old)


def test_a_shape_read_before_its_bend_was_touched_up_counts_no_more() -> None:
    entries = ("bend 1 of hoop 1: 91.2", "spread at the ends of hoop 1: 578", "bend 1 of hoop 1: 90.0")
    found = read(*entries).truing
    assert found is not None
    assert [one.word for one in found.taken] == ["read again since", "read before the bend was touched up", ""]
    assert not found.touches


def test_readings_without_meaning_are_told_with_their_line_and_hide_nothing() -> None:
    assessment = read("bend 4 of hoop 1: 90", "bend 1 of hoop 1: 90.1")
    found = assessment.truing
    assert found is not None
    assert [one.reading.of.number for one in found.lost] == [4]
    assert len(found.taken) == 1
    told = [one for one in assessment.findings if one.area == "readings"]
    assert told[0].verdict is Verdict.NEEDS_INPUT
    assert f"line {found.lost[0].reading.line}" in told[0].advice


def test_what_is_left_to_leave_is_left() -> None:
    assessment = read(*FEET)
    making = assessment.making
    assert making is not None
    found = truing(making, assessment.job, assessment.set_ups, assessment.bend_sheets, leave=("shim", "pull", "bend"))
    assert not found.touches
    assert found.rock_after == pytest.approx(found.rock)


def test_readings_make_surer_and_never_less_sure() -> None:
    found = read("width at the middle of the piece: 600.5", *FEET).truing
    assert found is not None
    for one in found.matters:
        assert one.spread_now <= one.spread_before + 1e-9
    widths = [one for one in found.matters if one.name.startswith("width") and "middle" in one.name]
    assert all(one.spread_now < 0.8 * one.spread_before for one in widths)


def test_everything_that_can_be_read_means_something() -> None:
    assessment = rack()
    assert assessment.making is not None
    asking = Asking(assessment.making, assessment.set_ups, assessment.bend_sheets, assessment.job.style)
    moments = readable(asking)
    assert [moment.title for moment in moments][:3] == ["At the saw: the first of each", "Bent: hoop 1", "Bent: hoop 2"]
    for moment in moments:
        for of, drawn in moment.things:
            assert np.isfinite(drawn)
            assert measured(of, drawn, Style.metric())
