"""Invariants of the checks: turning or mirroring a piece on plan, more load, thicker metal."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from fitwright.checks.carried import Bits
from fitwright.checks.climbing import climb_ratio
from fitwright.checks.fillets import leg, line_capacity
from fitwright.checks.shares import one_lifted, springs
from fitwright.checks.standing import Contact
from fitwright.checks.stripping import hole_shear_area, screw_shear_area
from fitwright.checks.threads import parse_thread
from fitwright.checks.tipping_moment import balance, tip_moments, tip_slopes, widening
from fitwright.checks.weld_line import weld_line, weld_stress

sizes = st.floats(50.0, 1500.0)
turns = st.floats(0.0, 6.28)
seeds = st.integers(0, 2**31)


def turned(angle: float) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    return np.array([[np.cos(angle), -np.sin(angle), 0], [np.sin(angle), np.cos(angle), 0], [0, 0, 1]])


def scene(seed: int) -> tuple[list[Contact], np.ndarray[tuple[int], np.dtype[np.float64]], Bits]:
    rng = np.random.default_rng(seed)
    feet = np.column_stack([rng.uniform(-500, 500, (5, 2)), np.zeros(5)])
    loads = np.column_stack([rng.uniform(-600, 600, (4, 2)), rng.uniform(100, 1800, 4)])
    centre = np.array([*rng.uniform(-50, 50, 2), 700.0])
    on = [Contact(str(k), point, float(rng.uniform(0, 30))) for k, point in enumerate(feet)]
    return on, centre, Bits(("load",), loads, rng.uniform(0, 200, 4), np.zeros(4, dtype=np.intp))


@given(seeds, turns)
def test_turning_a_piece_on_the_floor_changes_nothing(seed: int, angle: float) -> None:
    on, centre, loads = scene(seed)
    spin = turned(angle)
    plain = balance(on, 20.0, centre, loads)
    moved = balance(
        [Contact(c.name, spin @ c.point, c.swing) for c in on],
        20.0,
        spin @ centre,
        Bits(loads.names, loads.points @ spin.T, loads.forces, loads.owner),
        plain.toward @ spin[:2, :2].T,
    )
    assert np.allclose(tip_slopes(plain)[0], tip_slopes(moved)[0], atol=1e-9)
    assert np.allclose(tip_moments(plain)[0], tip_moments(moved)[0], atol=1e-6)


@given(seeds)
def test_no_choice_of_loads_tips_sooner_than_the_worst_found(seed: int) -> None:
    state = balance(*_args(seed))
    worst, _ = tip_slopes(state)
    rng = np.random.default_rng(seed + 1)
    for _ in range(8):
        there = rng.uniform(size=4) < 0.5
        hold = state.weight * state.base + (state.forces * state.inside) @ there
        tip = state.weight * state.height + float((state.forces * state.heights) @ there)
        assert (hold / tip >= worst - 1e-9).all()


def _args(seed: int) -> tuple[list[Contact], float, np.ndarray[tuple[int], np.dtype[np.float64]], Bits]:
    on, centre, loads = scene(seed)
    return on, 20.0, centre, loads


@given(seeds, st.floats(0.02, 0.3), st.floats(0.0, 300.0))
def test_widening_is_just_enough(seed: int, slope: float, push: float) -> None:
    on, mass, centre, loads = _args(seed)
    state = balance(on, mass, centre, loads)
    more = widening(state, slope, push, 1000.0)
    for k in range(0, len(more), 37):
        wider = [Contact(c.name, c.point + np.append(state.toward[k], 0) * more[k], c.swing) for c in on]
        there = balance(wider, mass, centre, loads, state.toward[k : k + 1])
        least = min(float(tip_slopes(there)[0][0] - slope), float(tip_moments(there)[0][0]) / 1000.0 - push)
        assert abs(least) < 1e-6


@given(seeds)
def test_stances_balance_the_load(seed: int) -> None:
    rng = np.random.default_rng(seed)
    points, at = rng.uniform(-500, 500, (4, 2)), rng.uniform(-100, 100, 2)
    for loads in (*one_lifted(points, at, 400.0), springs(points, at, 400.0)):
        assert np.isclose(loads.sum(), 400.0)
        assert np.allclose(loads @ points, 400.0 * at, atol=1e-5)


@given(st.floats(5.0, 100.0), st.floats(0.01, 0.9))
def test_a_larger_wheel_climbs_easier(radius: float, share: float) -> None:
    step = share * radius
    assert climb_ratio(radius * 1.1, step) < climb_ratio(radius, step)


@given(st.floats(0.6, 30.0))
def test_a_leg_always_fits_between_its_limits(thickness: float) -> None:
    size = leg(thickness)
    assert size.least <= size.make + 1e-9
    assert size.make <= size.most + 1e-9
    assert line_capacity(size.make, 480.0, ((thickness, 235.0),)) > 0


@given(st.sampled_from(["1/4-20", "3/8-16", "1/2-13", "M4", "M6", "M8", "M10", "#10-24"]), st.floats(1.0, 20.0))
def test_strip_areas_grow_with_depth(name: str, depth: float) -> None:
    thread = parse_thread(name)
    for area in (screw_shear_area, hole_shear_area):
        assert np.isclose(area(thread, 2 * depth), 2 * area(thread, depth))
    assert hole_shear_area(thread, depth) > screw_shear_area(thread, depth) > 0


@given(seeds, turns)
def test_a_weld_does_not_care_how_it_is_turned(seed: int, angle: float) -> None:
    rng = np.random.default_rng(seed)
    outline, force = rng.uniform(-40, 40, (6, 2)), rng.uniform(-1e3, 1e3, 6)
    spin = turned(angle)
    moved = np.concatenate([spin @ force[:3], spin @ force[3:]])
    plain = float(weld_stress(force, weld_line(outline), 3.0))
    assert np.isclose(plain, float(weld_stress(moved, weld_line(outline @ spin[:2, :2].T), 3.0)))
