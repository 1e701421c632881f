from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.framing.bearing import covered
from fitwright.mechanics.framing.model import PanelPath
from tests.unit.mechanics.framing.pieces import FLUSH, TABLE, frame

SHELF = "  shelf: {solid: board, from: [X0, 0, 620], to: [X1, 400, 620], along: x}\n"


def shelf(low: float, high: float, parts: str = FLUSH) -> PanelPath:
    return frame(parts + SHELF.replace("X0", str(low)).replace("X1", str(high))).panels[0]


def two_rails() -> str:
    """Legs to the top of the rails, and no rails along X up there: a shelf on two lines."""
    return FLUSH.replace(
        "  long: {stock: frame, path: [[20, 20, 600], [780, 20, 600]]",
        "  long: {stock: frame, path: [[20, 20, 300], [780, 20, 300]]",
    )


def test_nothing_is_lost() -> None:
    path = shelf(0, 800)
    assert path.share.sum(axis=0) + path.node_share.sum(axis=0) == pytest.approx(1)
    assert path.areas.sum() == pytest.approx(800 * 400)
    assert path.loose == ""


def test_two_lines_share_by_the_lever_rule() -> None:
    """Rails at 20 and 780, the load on the left half: its middle at 200 puts 180 / 760 on the far one."""
    path = shelf(0, 800, two_rails())
    table = frame(two_rails() + SHELF.replace("X0", "0").replace("X1", "800"))
    left = np.where(covered(path, 0, 0, 400), path.areas, 0.0)
    on = path.share @ left / left.sum()
    names = [table.piece.members[int(k)].name for k in table.member_of]
    assert on[[name == "rail 1" for name in names]].sum() == pytest.approx(580 / 760)
    assert on[[name == "rail 2" for name in names]].sum() == pytest.approx(180 / 760)


def test_an_overhang_lifts_the_far_line() -> None:
    path = shelf(0, 800, two_rails())
    outer = path.centres[:, 0] < 20
    assert (path.share[:, outer].min(axis=0) < 0).all()


def test_four_lines_share_by_the_nearest() -> None:
    path = shelf(0, 800)
    assert path.share.min() >= 0
    spread = path.share @ path.areas
    table = frame(FLUSH + SHELF.replace("X0", "0").replace("X1", "800"))
    parts = [table.piece.members[int(k)].part for k in table.member_of]
    on_long = spread[[part == "long" for part in parts]].sum() / spread.sum()
    assert 0.5 < on_long < 0.9


def test_a_shelf_on_an_angle_bears_beside_its_centroid() -> None:
    parts = TABLE + (
        "  ledge: {stock: angle, path: [[20, 20, 300], [20, 380, 300]], legs: [right, down], mirror: {x: 400}}\n"
        "  shelf: {solid: board, from: [50, 30, 300], to: [750, 370, 300], along: x}\n"
    )
    rack = frame(parts)
    path = rack.panels[0]
    left = [i for i, k in enumerate(rack.member_of) if rack.piece.members[int(k)].name == "ledge 1"]
    centroid = 20 + rack.piece.members[int(rack.member_of[left[0]])].stock.section.centroid[0]
    assert path.arm[left][:, 0] == pytest.approx((50 + 60) / 2 - centroid)
    assert path.arm[left][:, 1:] == pytest.approx(0)


def test_posts_carry_at_their_tops() -> None:
    parts = TABLE + "  top: {solid: board, from: [0, 0, 700], to: [800, 400, 700], along: x, fastened: screwed}\n"
    table = frame(parts)
    path = table.panels[0]
    assert not path.share.any()
    loaded = np.flatnonzero(path.node_share.any(axis=1))
    assert len(loaded) == 4
    assert path.node_share[loaded] @ path.areas / path.areas.sum() == pytest.approx([0.25] * 4)


def test_a_shelf_in_the_air_has_no_way_down() -> None:
    path = frame(TABLE + "  shelf: {solid: board, from: [100, 100, 200], to: [500, 300, 200], along: x}\n").panels[0]
    assert "rests on no member" in path.loose
    assert not path.share.any()


def test_a_shelf_on_one_member_tips_off_it() -> None:
    parts = TABLE + (
        "  bar: {stock: frame, path: [[400, 20, 600], [400, 380, 600]]}\n"
        "  shelf: {solid: board, from: [300, 100, 620], to: [500, 300, 620], along: x}\n"
    )
    assert "one member only" in frame(parts).panels[0].loose


def test_cells_have_edges_at_the_middle() -> None:
    path = shelf(0, 800)
    left = covered(path, 0, 0, 400)
    assert path.areas[left].sum() == pytest.approx(400 * 400)
