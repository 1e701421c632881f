"""The proven least number of blocks against a search that tries every place of the holes."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from fitwright.shop import Bench, BenchPin
from tests.unit.making.bench.samples import TABLE, hoop, planned

STEP = 0.05


def least_by_trying(pairs: list[tuple[tuple[float, int], ...]], faces: list[float], pitch: float) -> int:
    """Fewest bearings that touch nothing, over all phases of one axis; pairs: per bearing its faces (place, side)."""
    phases = np.arange(0.0, pitch, STEP)
    best = np.full(len(phases), len(pairs))
    for choice in product(*pairs):
        missed = np.zeros(len(phases), dtype=int)
        for at, sign in choice:
            off = [np.abs((phases - at - sign * face + pitch / 2) % pitch - pitch / 2) for face in faces]
            missed += np.min(off, axis=0) > 0.1
        best = np.minimum(best, missed)
    return int(best.min())


def bench_with(*diameters: float) -> Bench:
    pins = tuple(BenchPin(f"pin {d:g}", d, 50.0, 20) for d in diameters)
    return replace(TABLE, pins=pins, stops=())


@pytest.mark.parametrize("width", [600.0, 611.0, 617.0, 630.0, 641.5, 655.0])
@pytest.mark.parametrize("diameters", [(16.0,), (16.0, 25.0), (16.0, 25.0, 40.0)])
def test_blocks_of_a_hoop_are_as_few_as_can_be(width: float, diameters: tuple[float, ...]) -> None:
    """A hoop's legs are two flanks each, square to one axis; its top lies square to the other and can always touch."""
    (plan,) = planned(hoop(width), bench_with(*diameters))
    legs = [((0.0, -1), (30.0, 1)), ((width - 30.0, -1), (width, 1))]
    first, shape = legs
    faces = [d / 2 for d in diameters]
    # two pins bear on one flank of the first leg (a made block each), one on the other leg
    tried = min(
        2 * least_by_trying([(one,)], faces, 50.0) + least_by_trying([(one,), shape], faces, 50.0) for one in first
    )
    assert plan.proven
    assert plan.made == plan.bound == tried


def test_a_block_fills_what_the_holes_leave() -> None:
    (plan,) = planned(hoop(611.0), bench_with(16.0))
    (made,) = [stop for stop in plan.stops if not stop.standard]
    (block,) = plan.blocks
    assert made.gap == pytest.approx(block.length)
    assert block.length >= 12.0
    legs = sorted(
        stop.contact[1] if plan.turn % 2 == 0 else stop.contact[0] for stop in plan.stops if stop.role != "second"
    )
    assert legs[-1] - legs[0] in (pytest.approx(611.0), pytest.approx(581.0), pytest.approx(551.0))
