"""The piece's own geometry against a solid modeller's.

Source: Open CASCADE Technology 8.0 (https://dev.opencascade.org), asked through build123d 0.13
(https://build123d.readthedocs.io): boundary-representation solids, their volumes, boxes, distances and intersections.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from build123d import Solid
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps
from scipy.integrate import dblquad

from fitwright.job.model import End
from fitwright.piece import Piece
from fitwright.piece.model import JointKind
from fitwright.sheets.solids import board_solid, hardware_solids, member_solid
from tests.unit.sheets.solids.pieces import PIECES, TUBE, piece_of, run, wheeled_rack

OVERLAP_SHARE = 1e-5
TOUCH_MM = 0.01


def _solids(piece: Piece) -> list[Solid]:
    return [member_solid(member, piece) for member in piece.members]


def _volume(solid: Solid) -> float:
    """Volume [mm3] with its error held to a millionth; the modeller's quick way is off by a thousandth at copes."""
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(solid.wrapped, properties, 1e-6)
    return float(properties.Mass())


def _common(first: Solid, second: Solid) -> float:
    """Volume that two solids share [mm3]."""
    shared: Any = first.intersect(second)
    if shared is None:
        return 0.0
    return sum(float(part.volume) for part in (shared if isinstance(shared, list) else [shared]))


@pytest.mark.parametrize("name", PIECES)
def test_joined_members_touch_and_do_not_overlap(name: str) -> None:
    piece = PIECES[name]()
    solids = _solids(piece)
    for joint in piece.joints:
        if joint.kind not in (JointKind.TEE, JointKind.CORNER, JointKind.BUTT) or joint.first == joint.second:
            continue
        first, second = solids[joint.first], solids[joint.second]
        names = f"{piece.members[joint.first].name} and {piece.members[joint.second].name}"
        assert first.distance_to(second) < TOUCH_MM, names
        assert _common(first, second) < OVERLAP_SHARE * min(first.volume, second.volume), names


def test_square_cope_of_equal_tubes_takes_out_the_integral() -> None:
    """A tube of outer radius r and inner radius a, fitted square to a round of radius r: the metal between the plane
    through the other's axis and its surface is the integral of sqrt(r^2 - y^2) over the ring."""
    outer, inner = TUBE.section.dimensions["od"] / 2, TUBE.section.dimensions["id"] / 2
    post = run("post", TUBE, (0, 0, 0), (0, 0, 600), ends=(End.FREE, End.FREE))
    piece = piece_of(post, run("arm", TUBE, (0, 0, 300), (300, 0, 300), ends=(End.AUTO, End.FREE)))
    arm = next(member for member in piece.members if member.name == "arm")

    def quarter(radius: float) -> float:
        found = dblquad(
            lambda x, y: np.sqrt(outer**2 - y**2), 0, radius, 0, lambda y: np.sqrt(max(radius**2 - y**2, 0))
        )
        return float(found[0])

    removed = 4 * (quarter(outer) - quarter(inner))
    whole = np.pi * (outer**2 - inner**2) * 300
    assert _volume(member_solid(arm, piece)) == pytest.approx(whole - removed, rel=1e-6)
    assert arm.mass / arm.stock.material.density * 1e9 == pytest.approx(whole - removed, rel=1e-4)


def test_the_rack_stands_on_the_floor_within_its_envelope() -> None:
    piece = wheeled_rack()
    solids = _solids(piece)
    solids += [board_solid(board) for panel in piece.panels for board in panel.boards]
    solids += [solid for item in piece.hardware for solid in hardware_solids(item)]
    boxes = [solid.bounding_box() for solid in solids]
    low = np.min([tuple(box.min) for box in boxes], axis=0)
    high = np.max([tuple(box.max) for box in boxes], axis=0)
    np.testing.assert_allclose(low, piece.envelope.low, atol=0.1)
    np.testing.assert_allclose(high, piece.envelope.high, atol=0.1)
    assert low[2] == pytest.approx(0, abs=1e-6)


def test_mass_and_centre_of_the_whole_are_the_modeller_s() -> None:
    piece = wheeled_rack()
    solids = list(zip(_solids(piece), (member.stock for member in piece.members), strict=True))
    solids += [(board_solid(board), board.stock) for panel in piece.panels for board in panel.boards]
    weights = [(_volume(solid) * stock.material.density * 1e-9, solid.center()) for solid, stock in solids]
    total = sum(mass for mass, _ in weights)
    centre = sum((mass * np.array(tuple(at)) for mass, at in weights), np.zeros(3)) / total
    assert piece.mass == pytest.approx(total, rel=1e-4)
    np.testing.assert_allclose(piece.centre, centre, atol=0.1)


def test_labels_and_screws() -> None:
    piece = wheeled_rack()
    assert member_solid(piece.members[0], piece).label == piece.members[0].name
    screw = next(item for item in piece.hardware if item.kind == "screw")
    assert hardware_solids(screw) == ()
