"""A pull until it sets: a cantilever's plastic hinge by hand, and what then stays in balance with the frame."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.variation.pulling import SPREAD, pulls
from tests.unit.mechanics.variation.samples import RACK, setting_of


def test_pulls_set_nearer_what_they_draw_together() -> None:
    found = pulls(setting_of(RACK))
    assert found
    for pull in found:
        assert pull.force > 0
        assert pull.elastic > 0
        assert pull.own > 0
        assert pull.places


def test_two_legs_drawn_together_at_half_height_yield_where_a_portal_does() -> None:
    """The most stressed places of one pull are stressed alike, and each kink turns about one axis of unit length."""
    pull = next(p for p in pulls(setting_of(RACK)) if p.name == "front left to front right, middle")
    turned = np.linalg.norm(pull.kinks[:, 3:], axis=1)
    assert set(np.round(turned[turned > 0], 9)) == {1.0}
    assert np.all(pull.kinks[:, :3] == 0)
    assert 0 < SPREAD < 0.2


def test_a_pull_and_its_opposite_corner_are_mirror_images() -> None:
    """The rack is the same from the left and from the right."""
    by_name = {pull.name: pull for pull in pulls(setting_of(RACK))}
    one, other = by_name["front left to back right, bottom"], by_name["front right to back left, bottom"]
    assert one.force == pytest.approx(other.force, rel=1e-6)
    assert one.own == pytest.approx(other.own, rel=1e-6)
