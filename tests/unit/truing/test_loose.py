"""A loose part in full geometry: its first order is that of the frame model, its rest is plane trigonometry."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.mechanics.variation.model import Outcome
from fitwright.mechanics.variation.reading import Reading, distance
from fitwright.mechanics.variation.stagewise import felt_after
from fitwright.truing.loose import Chain, rotation, spanned
from tests.unit.truing.samples import rack


@pytest.fixture(scope="module")
def chain() -> Chain:
    setting = rack().making
    assert setting is not None
    return Chain(setting, 0)


def test_without_errors_it_is_as_drawn(chain: Chain) -> None:
    nodes = chain.setting.parts.nodes_of[0]
    shape = chain.shape(np.zeros(len(chain.setting.found)))
    assert shape.points == pytest.approx(chain.setting.parts.model.nodes[nodes])


def test_its_first_order_is_that_of_the_frame_with_every_part_loose(chain: Chain) -> None:
    nodes, at = chain.setting.parts.nodes_of[0], chain.setting.parts.model.nodes
    drawn, probes = distance((int(nodes[0]), at[nodes[0]]), (int(nodes[-1]), at[nodes[-1]]))
    row = felt_after(chain.setting, 0, [Reading(Outcome("", "", drawn), probes)])[0]
    for number in range(len(row)):
        step = np.zeros(len(row))
        step[number] = 1e-4
        slope = (spanned(chain, probes, step) - spanned(chain, probes, -step)) / 2e-4
        assert slope == pytest.approx(row[number], abs=1e-4 * max(1.0, abs(row[number])))


def test_a_bend_of_ten_degrees_more_swings_the_end_round_it(chain: Chain) -> None:
    """The leg turns about points spread over the bend: the end goes r sin in, by about the middle of the arc."""
    key = [effect.key for effect in chain.setting.found].index("bend:0:1")
    errors = np.zeros(len(chain.setting.found))
    errors[key] = math.radians(10)
    points = chain.shape(errors).points
    drawn = chain.shape(np.zeros_like(errors)).points
    leg = drawn[1] - drawn[0]
    first = points[-1] - points[-2]
    straight = drawn[-1] - drawn[-2]
    cosine = float(first @ straight / np.linalg.norm(first) / np.linalg.norm(straight))
    assert math.degrees(math.acos(cosine)) == pytest.approx(10.0)
    assert np.linalg.norm(leg) == pytest.approx(np.linalg.norm(points[1] - points[0]))


def test_a_rotation_by_a_right_angle() -> None:
    assert rotation(np.array([0.0, 0.0, math.pi / 2])) @ np.array([1.0, 0, 0]) == pytest.approx([0.0, 1.0, 0.0])
    assert rotation(np.zeros(3)) == pytest.approx(np.eye(3))
