"""Members as solids: one each, as long as their cut length, as heavy as their mass, within the envelope."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.piece.path import Arc
from fitwright.sheets.solids.errors import SolidError
from fitwright.sheets.solids.fittings import board_shape, hardware_shapes
from fitwright.sheets.solids.kernel import solids_in, sound, volume
from fitwright.sheets.solids.members import member_shape
from tests.unit.sheets.solids.measure import bounds, extent
from tests.unit.sheets.solids.pieces import PIECES, on_a_bend, posts_and_rails

LENGTH_MM = 0.05
MASS_SHARE = 0.005
ENVELOPE_MM = 0.1


@pytest.mark.parametrize("name", PIECES)
def test_length_mass_and_envelope(name: str) -> None:
    piece = PIECES[name]()
    boxes = []
    for member in piece.members:
        solid = member_shape(member, piece)
        assert len(solids_in(solid)) == 1
        assert sound(solid)
        mass = volume(solid) * member.stock.material.density * 1e-9
        assert mass == pytest.approx(member.mass, rel=MASS_SHARE), member.name
        if len(member.path.segments) == 1:
            length = extent(solid, member.body.outward(1))
            assert length == pytest.approx(member.cut_length, abs=LENGTH_MM), member.name
        boxes += [bounds(solid)] if member.sleeve_of is None else []
    boxes += [bounds(board_shape(board)) for panel in piece.panels for board in panel.boards]
    boxes += [bounds(shape) for item in piece.hardware for shape in hardware_shapes(item).values()]
    np.testing.assert_allclose(np.min([box[0] for box in boxes], axis=0), piece.envelope.low, atol=ENVELOPE_MM)
    np.testing.assert_allclose(np.max([box[1] for box in boxes], axis=0), piece.envelope.high, atol=ENVELOPE_MM)


def test_a_tie_coped_to_a_bend_has_the_bend_out_of_it() -> None:
    """No point of the tie is deeper in the hoop than the modeller's tolerance."""
    from fitwright.sheets.solids.kernel import without
    from fitwright.sheets.solids.sweep import segment_solid

    piece = on_a_bend()
    tie = next(member for member in piece.members if member.name == "beside")
    hoop = piece.members[0].body
    at = next(k for k, segment in enumerate(hoop.path.segments) if isinstance(segment, Arc))
    bend = segment_solid(hoop.path.segments[at], hoop.frames[at], hoop.section, filled=True)
    solid = member_shape(tie, piece)
    assert volume(without(solid, [bend])) == pytest.approx(volume(solid), rel=1e-6)


def test_what_the_modeller_cannot_match_is_an_error_that_names_the_part() -> None:
    piece = posts_and_rails()
    wrong = replace(piece.members[0], mass=2 * piece.members[0].mass)
    with pytest.raises(SolidError, match="post 1"):
        member_shape(wrong, piece)
