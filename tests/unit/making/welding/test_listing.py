from __future__ import annotations

import math
from dataclasses import replace

import pytest

from fitwright.job import parse_job
from fitwright.making.welding import weld_list
from fitwright.mechanics.shrinkage import ShrinkageError, WeldKind
from fitwright.piece import Piece, build
from fitwright.shop import Shop


def _list(text: str, shop: Shop) -> list[tuple[str, WeldKind, float]]:
    piece = build(parse_job("job: {name: trial, unit: mm}\n" + text))
    return [(weld.name, weld.kind, weld.length) for weld in weld_list(piece, shop)]


def test_every_joint_of_metal_has_its_weld(piece: Piece, shop: Shop) -> None:
    welds = weld_list(piece, shop)
    assert len(welds) == len(piece.joints)
    assert [weld.number for weld in welds] == list(range(1, len(welds) + 1))
    assert sum(weld.kind is WeldKind.BUTT for weld in welds) == 4


def test_equal_tubes_square_to_one_another_meet_in_half_an_ellipse_each_side(shop: Shop) -> None:
    text = """stock: {t: round tube 30 x 2 mm}
parts:
  host: {stock: t, path: [[-200, 0, 300], [200, 0, 300]], ends: free}
  leg: {stock: t, path: [[0, 0, 0], [0, 0, 300]]}
"""
    ((name, kind, length),) = _list(text, shop)
    # the two halves of the saddle are halves of ellipses with axes r and r sqrt 2
    a, b = 15.0 * math.sqrt(2), 15.0
    h = ((a - b) / (a + b)) ** 2
    ellipse = math.pi * (a + b) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))
    assert name == "leg on host"
    assert kind is WeldKind.FILLET
    assert length == pytest.approx(ellipse, rel=2e-4)


def test_a_tube_on_a_flat_face_is_welded_round_its_outside(shop: Shop) -> None:
    text = """stock: {t: round tube 30 x 2 mm, b: square tube 60 x 60 x 3}
parts:
  host: {stock: b, path: [[-200, 0, 300], [200, 0, 300]], ends: free}
  leg: {stock: t, path: [[0, 0, 0], [0, 0, 300]]}
"""
    ((_, kind, length),) = _list(text, shop)
    assert kind is WeldKind.FILLET
    assert length == pytest.approx(math.pi * 30.0, rel=1e-4)


def test_a_mitred_frame_is_butted_round_the_longer_outline(shop: Shop) -> None:
    text = """stock: {b: square tube 40 x 40 x 2}
parts:
  frame: {stock: b, outside: [[0, 0, 20], [600, 0, 20], [600, 400, 20], [0, 400, 20]], closed: true}
"""
    found = _list(text, shop)
    assert {kind for _, kind, _ in found} == {WeldKind.BUTT}
    # sharp corners would give 2 x 40 + 2 x 40 sqrt 2
    assert all(175.0 < length < 80 + 80 * math.sqrt(2) for _, _, length in found)


def test_a_bolted_joint_has_no_weld(shop: Shop) -> None:
    text = """stock: {t: square tube 30 x 30 x 2}
parts:
  host: {stock: t, path: [[-200, 0, 300], [200, 0, 300]], ends: free}
  leg: {stock: t, path: [[0, 0, 0], [0, 0, 300]], fastened: bolted}
"""
    assert _list(text, shop) == []


def test_legs_lie_between_least_and_most(piece: Piece, shop: Shop) -> None:
    for weld in weld_list(piece, shop):
        assert weld.least <= weld.leg <= weld.most
        assert weld.throat <= weld.leg
        assert 0 < weld.length <= weld.around + 1e-9


def test_a_process_that_nobody_knows(piece: Piece, shop: Shop) -> None:
    with pytest.raises(ShrinkageError, match="write one of MIG"):
        weld_list(piece, replace(shop, welding=replace(shop.welding, process="glue")))


def test_tig_puts_in_more_heat(piece: Piece, shop: Shop) -> None:
    tig = weld_list(piece, replace(shop, welding=replace(shop.welding, process="TIG")))
    for one, other in zip(weld_list(piece, shop), tig, strict=True):
        if one.kind is WeldKind.FILLET:
            assert other.used.arc_time > one.used.arc_time
