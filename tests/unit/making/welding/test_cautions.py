from __future__ import annotations

from fitwright.job import parse_job
from fitwright.making.welding import WeldPlan, weld_list
from fitwright.making.welding.cautions import weld_cautions
from fitwright.piece import Piece, build
from fitwright.shop import Shop


def _cautions(stock: str, shop: Shop) -> str:
    text = f"""job: {{name: trial, unit: mm}}
stock: {{t: {stock}}}
parts:
  host: {{stock: t, path: [[-200, 0, 300], [200, 0, 300]], ends: free}}
  leg: {{stock: t, path: [[0, 0, 0], [0, 0, 300]]}}
"""
    piece = build(parse_job(text))
    return " ".join(caution.words for caution in weld_cautions(piece, weld_list(piece, shop)))


def test_what_always_holds(plan: WeldPlan) -> None:
    assert any("Leave the piece clamped until it is cold" in caution.words for caution in plan.cautions)
    assert all(caution.basis for caution in plan.cautions)


def test_thin_wall_and_stainless_have_their_own(shop: Shop) -> None:
    assert "no more than 20 mm" in _cautions("round tube 30 x 1.2 mm", shop)
    assert "no more than 20 mm" not in _cautions("round tube 30 x 2 mm", shop)
    assert "Stainless expands" in _cautions("round tube 30 x 2 mm stainless 304", shop)


def test_tubes_welded_shut_are_to_be_vented(plan: WeldPlan) -> None:
    vent = next(caution for caution in plan.cautions if "vent" in caution.words)
    names = {weld.first for weld in plan.welds if weld.number in vent.welds}
    assert names >= {"stretcher 1", "stretcher 2"}
    assert "brace" not in names


def test_no_welds_no_cautions(piece: Piece) -> None:
    assert weld_cautions(piece, ()) == ()
