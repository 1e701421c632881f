"""Parts placed in space: paths, bends, end cuts, joints, panels, hardware, mass, envelope."""

from fitwright.piece.build import build, trimmed
from fitwright.piece.model import Member, Piece, PieceError

__all__ = ["Member", "Piece", "PieceError", "build", "trimmed"]
