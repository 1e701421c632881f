"""Anchors under an eccentric load against the elastic bolt group of a textbook, and a bracket by statics.

J. E. Shigley, Mechanical Engineering Design (8th ed., section 8-12), bolted joint in shear with an eccentric load: four
bolts at 2 x 75 by 2 x 60 mm carry 16 kN, 425 mm from their middle; those on the side of the load take 21.0 kN each (the
load seen in a copy of the exercise, the answer from memory and worked with a calculator).
"""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.hung import worst_anchor

BACK = np.array([0.0, 1.0, 0.0])


def test_the_worst_of_four_bolts() -> None:
    at = np.array([[x, 0.0, z] for x in (-75, 75) for z in (-60, 60)])
    worst = worst_anchor(at, BACK, 0.0, np.ones(4), 16_000.0, np.array([-425.0, 0.0, 0.0]))
    assert worst.shear / 1000 == pytest.approx(21.0, abs=0.05)
    assert worst.pull == pytest.approx(0.0)


def test_a_bracket_pulls_on_its_upper_bolt_about_its_toe() -> None:
    """156 lb 6.3 in off the wall, bolts 16 and 2 in over the toe: 156 x 6.3 x 16 / (16^2 + 2^2), by hand."""
    at = np.array([[0.0, 0.0, 16.0], [0.0, 0.0, 2.0]])
    worst = worst_anchor(at, BACK, 0.0, np.array([16.0, 2.0]), 156.0, np.array([0.0, -6.3, 10.0]))
    assert worst.pull == pytest.approx(60.5, abs=0.05)
    assert worst.shear == pytest.approx(78.0)
