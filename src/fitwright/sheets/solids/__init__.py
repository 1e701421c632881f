"""True solids of the piece, and STEP files of them. The solid modeller is loaded when the first is asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.piece.model import Board, Hardware, Member, Piece
from fitwright.sheets.solids.errors import SolidError
from fitwright.sheets.solids.fittings import board_shape, hardware_shapes
from fitwright.sheets.solids.members import member_shape
from fitwright.sheets.solids.step import StepFile, write_step

if TYPE_CHECKING:
    from build123d import Solid

__all__ = ["SolidError", "StepFile", "board_solid", "hardware_solids", "member_solid", "write_step"]


def member_solid(member: Member, piece: Piece) -> Solid:
    """The trimmed solid of a member, labelled with its name. Raises SolidError when it cannot be modelled."""
    return _labelled(member_shape(member, piece), member.name)


def board_solid(board: Board) -> Solid:
    """A board of a panel as a solid."""
    return _labelled(board_shape(board), board.role)


def hardware_solids(item: Hardware) -> tuple[Solid, ...]:
    """The solids of a caster, a foot or a fitting of known size; none for screws and bolts."""
    return tuple(_labelled(shape, f"{item.name} {role}") for role, shape in hardware_shapes(item).items())


def _labelled(shape: object, label: str) -> Solid:
    from build123d import Solid

    return Solid(shape, label=label)
