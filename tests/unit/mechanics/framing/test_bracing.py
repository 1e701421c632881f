from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.mechanics.framing.bracing import diagonals, fastener_stiffness
from fitwright.piece.model import Panel
from tests.unit.mechanics.framing.pieces import FLUSH, frame, made

CORNERS = np.array([[0.0, 0, 0], [800, 0, 0], [800, 400, 0], [0, 400, 0]])


def sheet(fastened: str) -> Panel:
    _, piece = made(FLUSH + "  deck: {sheet: sheet, from: [0, 0, 620], to: [800, 400, 620], fastened: screwed}\n")
    return replace(piece.panels[0], fastened=fastened)


def test_a_welded_sheet_is_as_stiff_as_its_shear() -> None:
    """V / delta = G t a / b for a push along a; two diagonals give 2 k (a / d)^2."""
    panel = sheet("welded")
    found = diagonals(panel, np.arange(4), CORNERS)
    assert sorted(map(sorted, found.pairs.tolist())) == [[0, 2], [1, 3]]
    shear = panel.stock.material.g * 12 * 800 / 400
    assert (2 * found.stiffness * 800**2 / (800**2 + 400**2)).mean() == pytest.approx(shear)


def test_screws_soften_it() -> None:
    screwed, welded = (diagonals(sheet(how), np.arange(4), CORNERS) for how in ("screwed", "welded"))
    slip = fastener_stiffness(sheet("screwed"))
    assert slip is not None
    assert (screwed.stiffness < slip / 2).all()
    assert 1 / screwed.stiffness - 1 / welded.stiffness == pytest.approx(2 / slip)
    assert fastener_stiffness(sheet("welded")) is None


def test_what_rests_or_has_slats_adds_nothing() -> None:
    assert not len(diagonals(sheet("rests"), np.arange(4), CORNERS).pairs)
    assert not len(diagonals(replace(sheet("screwed"), kind="slats"), np.arange(4), CORNERS).pairs)
    assert not len(diagonals(sheet("screwed"), np.arange(3), CORNERS[:3]).pairs)


def test_a_screwed_deck_is_in_the_frame() -> None:
    table = frame(FLUSH + "  deck: {sheet: sheet, from: [0, 0, 620], to: [800, 400, 620], fastened: screwed}\n")
    assert len(table.model.links) == 2
    block = table.model.link_stiffness[0]
    assert np.linalg.matrix_rank(block) == 1
