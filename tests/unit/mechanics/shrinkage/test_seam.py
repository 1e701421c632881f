from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.mechanics.framing import Framed
from fitwright.mechanics.shrinkage import Bead
from fitwright.mechanics.shrinkage.seam import any_normal

Frame = tuple[Framed, tuple[Bead, ...]]


@pytest.mark.parametrize("vector", [(1.0, 0, 0), (0, 0, -1.0), (0.6, 0.8, 0.0)])
def test_a_normal_is_square_and_of_unit_length(vector: tuple[float, float, float]) -> None:
    normal = any_normal(np.array(vector))
    assert normal @ np.array(vector) == pytest.approx(0.0, abs=1e-12)
    assert np.linalg.norm(normal) == pytest.approx(1.0)


def test_a_seam_in_one_line_has_one_side(tee: Frame) -> None:
    seam = tee[1][0].seam
    line = replace(seam, points=seam.points * np.array([1.0, 0.0, 1.0]))
    one, other = line.sides(0)
    assert one.all()
    assert not other.any()


def test_a_seam_that_runs_with_its_pull_still_has_sides(tee: Frame) -> None:
    seam = replace(tee[1][0].seam, run=tee[1][0].seam.pull)
    across, along = seam.acrosses
    assert across @ seam.pull == pytest.approx(0.0, abs=1e-12)
    assert along @ seam.pull == pytest.approx(0.0, abs=1e-12)


def test_the_mean_gap_is_weighted_by_length(tee: Frame) -> None:
    seam = tee[1][0].seam
    half = np.where(seam.sides()[0], 1.0, 0.0)
    assert replace(seam, gap=half).mean_gap == pytest.approx(0.5)
