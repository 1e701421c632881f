from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.cases import HOLLOW_MM, RARE, Cases, LoadCase, load_cases
from fitwright.mechanics.framing import Framed, framed
from fitwright.mechanics.loads import GRAVITY
from tests.unit.checks.frames import WHEELS, rack


def cases(**kwargs: str) -> tuple[Framed, Cases]:
    job, piece = rack(**kwargs)
    frame = framed(piece, job)
    return frame, load_cases(frame, job)


def wheeled(rolls_over: str = "") -> tuple[Framed, Cases]:
    job, piece = rack(more=WHEELS, foot=60.0, rolls_over=rolls_over)
    frame = framed(piece, job)
    return frame, load_cases(frame, job)


def total(frame: Framed, case: LoadCase) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    return np.asarray(case.pattern.nodal[:, :3].sum(axis=0) + frame.lengths @ case.pattern.line)


def kinds(found: Cases) -> list[str]:
    return [case.kind for case in found.cases]


def test_every_case_of_the_brief_is_there() -> None:
    _, found = cases()
    names = [case.name for case in found.cases]
    assert kinds(found) == ["weight", "full", *["single"] * 2, *["side"] * 4, "held", *["push"] * 4, *["foot"] * 4]
    assert "only shelf 2, the top one, loaded" in names
    assert "only shelf 1 loaded" in names
    assert "loads on the left half only" in names
    assert "leaning, pushed to the back" in names


def test_they_weigh_what_they_should() -> None:
    frame, found = cases()
    own = frame.piece.mass * GRAVITY
    by_name = {case.name: total(frame, case)[2] for case in found.cases}
    load = 20 * GRAVITY
    assert by_name["own weight"] == pytest.approx(-own)
    assert by_name["all loads on"] == pytest.approx(-own - 2 * load, rel=1e-4)
    assert by_name["only shelf 1 loaded"] == pytest.approx(-own - load, rel=1e-4)
    assert by_name["loads on the left half only"] == pytest.approx(-own - load, rel=1e-4)


def test_pushes_go_their_way_with_the_force_of_the_brief() -> None:
    frame, found = cases()
    pushes = [case for case in found.cases if case.kind == "push"]
    assert [total(frame, case)[:2].round(6).tolist() for case in pushes] == [[-80, 0], [80, 0], [0, -80], [0, 80]]
    assert all(case.grips for case in pushes)
    assert found.push.height == 1000


def test_without_a_push_a_published_test_is_taken() -> None:
    _, found = cases(loads="shelf: 20 kg")
    assert found.push.force == pytest.approx(44.5, abs=0.1)
    assert "F2057" in found.push.basis
    assert found.push.height == pytest.approx(1200)


def test_wheels_meet_a_threshold_and_stop() -> None:
    frame, found = wheeled()
    jolts = [case for case in found.cases if case.kind == "threshold"]
    assert len(jolts) == 4
    for case in jolts:
        assert total(frame, case)[:2] == pytest.approx([0, 0], abs=1e-6)
        assert case.counts == RARE
        assert case.toward is not None
        leading = case.pattern.nodal[[foot.node for foot in frame.feet], :3] @ case.toward
        assert (leading < 0).sum() == 2
    assert "floor joint" in jolts[0].basis


def test_a_threshold_of_the_brief_is_believed() -> None:
    _, none = wheeled("threshold: 0")
    assert "threshold" not in kinds(none)
    frame, small = wheeled("threshold: 1 mm")
    _, large = wheeled("threshold: 8 mm")
    first, second = (next(c for c in found.cases if c.kind == "threshold") for found in (small, large))
    nodes = [foot.node for foot in frame.feet]
    assert np.abs(second.pattern.nodal[nodes, 0]).max() > np.abs(first.pattern.nodal[nodes, 0]).max()
    assert "of the brief" in first.basis


def test_each_foot_stands_over_a_hollow_once() -> None:
    _, found = cases()
    hollows = [case for case in found.cases if case.kind == "foot"]
    assert [case.hollow for case in hollows] == [0, 1, 2, 3]
    assert all(f"{HOLLOW_MM:g} mm (1/4 in)" in case.name for case in hollows)


def test_no_loads_leave_only_weight_and_pushes() -> None:
    _, found = cases(loads="push: {force: 50 N, height: 900}")
    assert kinds(found) == ["weight", "held", *["push"] * 4, *["foot"] * 4]


def test_cases_are_found_by_kind() -> None:
    _, found = cases()
    assert [found.cases[int(i)].kind for i in found.of_kind("weight", "full")] == ["weight", "full"]
