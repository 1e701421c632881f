from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.framing import Framed
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


def on_ring(extra: str = "") -> Framed:
    """A round seat frame on three legs, and a square board of 300 mm on it."""
    parts = """
  leg: {stock: tube, path: [[0, 0, 0], [0, 0, 400]], repeat: {around: {centre: [100, 0], count: 3}}}
  ring: {stock: tube, ring: {centre: [100, 0, 400], radius: 100, axis: z}}
  seat: {sheet: sheet, from: [-50, -150, 416], to: [250, 150, 416]EXTRA}
"""
    return frame(parts.replace("EXTRA", extra))


def test_a_ring_carries_all_round() -> None:
    """The middle of what it takes is the middle of the board, and no stretch takes much more than another."""
    stool = on_ring()
    path = stool.panels[0]
    assert path.loose == ""
    taken = path.share @ path.areas
    assert taken.sum() == pytest.approx(300 * 300)
    assert taken @ stool.middles[:, :2] / taken.sum() == pytest.approx([100, 0], abs=0.5)
    on = taken[taken > 0]
    assert len(on) >= 32
    assert on.max() < 3 * on.mean()


def test_a_bent_loop_is_more_than_one_member_to_rest_on() -> None:
    parts = """
  loop: {stock: tube, path: [[0, 0, 584], [600, 0, 584], [600, 300, 584], [0, 300, 584]], radius: 80, closed: true}
  leg: {stock: tube, path: [[200, 0, 0], [200, 0, 584]], mirror: {x: 300, y: 150}}
  top: {solid: board, from: [0, 0, 600], to: [600, 300, 600], along: x}
"""
    table = frame(parts)
    path = table.panels[0]
    assert path.loose == ""
    taken = path.share @ path.areas
    assert taken @ table.middles[:, :2] / taken.sum() == pytest.approx([300, 150], abs=0.5)


def test_slats_on_a_rectangle_load_only_what_they_lie_across() -> None:
    """Slats along X on four rails: but for the very edges all of it goes to the two end rails, half to each."""
    boards = "  slats: {slats: board, from: [0, 0, 620], to: [800, 400, 620], along: x, gap: 6}\n"
    table = frame(FLUSH + boards)
    path = table.panels[0]
    inner = np.where(covered(path, 1, 20, 380), path.areas, 0.0)
    taken = path.share @ inner / inner.sum()
    names = np.array([table.piece.members[int(k)].name for k in table.member_of])
    for name in ("rail 1", "rail 2"):
        assert taken[names == name].sum() == pytest.approx(0.5)
    assert path.share.sum(axis=0) == pytest.approx(1)
