from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.mechanics.framing import Framed
from fitwright.mechanics.shrinkage import Bead, tack_places
from fitwright.mechanics.shrinkage.tacks import tack_stiffness

Frame = tuple[Framed, tuple[Bead, ...]]


def test_tacks_are_spread_along_the_seam(tee: Frame) -> None:
    bead = replace(tee[1][0], tacks=4)
    places = tack_places(bead)
    assert places.shape == (4, 3)
    gaps = np.linalg.norm(places - np.roll(places, 1, axis=0), axis=1)
    assert gaps.min() > 15.0


def test_more_tacks_are_stiffer_and_the_stiffness_is_symmetric(tee: Frame) -> None:
    bead = tee[1][0]
    few, many = (tack_stiffness(replace(bead, tacks=n), bead.seam.middle, 2e5, 30.0) for n in (3, 6))
    assert np.linalg.eigvalsh(few).min() > 0
    assert few == pytest.approx(few.T)
    assert many[2, 2] == pytest.approx(2 * few[2, 2])
