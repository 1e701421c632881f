"""Parts placed in space: paths, bends, end cuts, joints, panels, hardware, mass, envelope."""

from fitwright.piece.build import Sketch, build, checked, sketch, trimmed
from fitwright.piece.model import Member, Piece, PieceError

__all__ = ["Member", "Piece", "PieceError", "Sketch", "build", "checked", "sketch", "trimmed"]
