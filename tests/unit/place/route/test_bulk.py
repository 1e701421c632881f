"""The rack as what is carried: whole, without what comes off, cut in two."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.piece import Piece
from fitwright.place.route.bulk import bare, casters_off, halves, shelves_out, whole
from fitwright.place.route.splitting import split
from tests.demos import assessed


@pytest.fixture(scope="module")
def rack() -> Piece:
    return assessed("drying-rack").piece


def test_the_whole_is_as_large_as_the_piece(rack: Piece) -> None:
    found = whole(rack)
    assert found.size == pytest.approx(rack.envelope.size, abs=0.5)  # rounds are seen as polygons
    assert found.mass == pytest.approx(rack.mass)
    assert found.centre == pytest.approx(rack.centre)
    assert found.rolls


def test_what_comes_off_weighs_less_and_stands_lower(rack: Piece) -> None:
    low, light, both = casters_off(rack), shelves_out(rack), bare(rack)
    assert low is not None
    assert light is not None
    assert both is not None
    casters = sum(item.mass for item in rack.hardware if item.kind == "caster")
    assert rack.mass - low.mass == pytest.approx(casters)
    assert low.size[2] < whole(rack).size[2] - 80
    assert not low.rolls
    assert rack.mass - light.mass == pytest.approx(sum(panel.mass for panel in rack.panels))
    assert both.mass == pytest.approx(low.mass + light.mass - rack.mass)


def test_halves_weigh_what_the_whole_does(rack: Piece) -> None:
    found = whole(rack)
    lower, upper = halves(found, 2, 900.0)
    assert lower.points[:, 2].max() == pytest.approx(900.0)
    assert upper.points[:, 2].min() == pytest.approx(900.0)
    assert lower.mass + upper.mass == pytest.approx(sum(lump.mass for lump in found.lumps))


def test_it_is_split_where_fewest_parts_are_cut(rack: Piece) -> None:
    first = next(iter(split(whole(rack))))
    assert first.axis == 2
    assert first.cuts == 4  # the four uprights, between two shelves
    spans = np.array([(lump.corners[:, 2].min(), lump.corners[:, 2].max()) for lump in whole(rack).lumps])
    assert ((spans[:, 0] < first.at) & (first.at < spans[:, 1])).sum() == first.cuts
