"""Joints before they are fastened: which directions are forced together and which the weld fills."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.piece.model import CutKind, Joint, JointKind, Member

DATA = Path(__file__).parent / "data"
DIRECTIONS = ("along", "run", "across", "turn_along", "turn_run", "turn_across")

# Stiffnesses [N/mm, N mm/rad]. A hand clamp draws a gap of a couple of millimetres shut with about 1 kN (common
# practice); what is free is only pressed together by hand, so that parts settle where the gaps are least; the
# finished joint is as good as rigid. From a quarter to two and a half times this pressure the chances of a rack of two
# bent hoops stay within one per cent, and so with half or twice the clamps; but that of filled gaps goes from 86 to 100
# per cent, for hands draw them shut.
CLAMP, CLAMP_TURN = 500.0, 5e5
PRESS, PRESS_TURN = 2.0, 1e4
FIRM, FIRM_TURN = 1e7, 1e10


@dataclass(frozen=True)
class Seat:
    """How a kind of joint sits before it is fastened: forces (6,) true where parts are forced together."""

    kind: str
    forces: tuple[bool, ...]
    words: str

    @property
    def fitted(self) -> Floats:
        """(6, 6) stiffness in the joint's own directions while the parts are clamped [N/mm, N mm]."""
        forced = np.array([CLAMP] * 3 + [CLAMP_TURN] * 3)
        free = np.array([PRESS] * 3 + [PRESS_TURN] * 3)
        return np.diag(np.where(self.forces, forced, free))

    @property
    def fastened(self) -> Floats:
        """(6, 6) stiffness in the joint's own directions once it is welded or bolted [N/mm, N mm]."""
        return np.diag([FIRM] * 3 + [FIRM_TURN] * 3)


@cache
def seats() -> Mapping[str, Seat]:
    """Every kind of joint by its name in `data/seats.toml`."""
    rows = tomllib.loads((DATA / "seats.toml").read_text(encoding="utf-8"))
    return {kind: Seat(kind, tuple(d in row["forces"] for d in DIRECTIONS), row["words"]) for kind, row in rows.items()}


def seat_of(joint: Joint, members: tuple[Member, ...]) -> Seat:
    """The seat of a joint of the piece: a corner that is not mitred sits as a tee."""
    kind = str(joint.kind)
    if joint.kind is JointKind.BUTT and joint.sleeve is not None:
        kind = "sleeved"
    if joint.kind is JointKind.CORNER and not mitred(joint, members):
        kind = "tee"
    return seats()[kind]


def mitred(joint: Joint, members: tuple[Member, ...]) -> bool:
    """Whether a corner's first member ends in a mitre."""
    return joint.end is not None and members[joint.first].ends[joint.end].kind is CutKind.MITRE


def directions(along: Floats, run: Floats) -> Floats:
    """(3, 3) rows along, run, across: square to one another, `along` kept as it is; run: (3,) roughly.

    Any direction square to `along` serves as run where the two are parallel.
    """
    a = along / np.linalg.norm(along)
    square = run - (run @ a) * a
    if float(np.linalg.norm(square)) < 1e-6 * float(np.linalg.norm(run)):
        square = np.cross(a, np.eye(3)[int(np.argmin(np.abs(a)))])
    r = square / np.linalg.norm(square)
    return np.array([a, r, np.cross(a, r)])
