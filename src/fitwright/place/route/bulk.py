"""The piece as convex parts to be carried: whole, with casters off, with shelves out, or a part of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from fitwright.piece import Member, Piece, trimmed
from fitwright.piece.envelope import hardware_box
from fitwright.piece.model import Hardware, Panel
from fitwright.piece.path import Arc
from fitwright.place.route.convex import outermost
from fitwright.place.route.model import Bulk, Lump

Floats = NDArray[np.float64]

OUTLINE_POINTS = 24  # a round of 40 mm is seen 0.2 mm too small
RINGS_TOGETHER = (
    6  # outlines of a bend, 2 degrees apart, that make one convex part: at most 0.1 % of the radius too fat
)
CORNERS = np.array([[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)], dtype=float)
NOTHING = np.zeros(3)


def whole(piece: Piece) -> Bulk:
    """The piece as it stands, its casters swept through their swivel."""
    return bulk_of(piece, "as built", piece.panels, piece.hardware)


def casters_off(piece: Piece) -> Bulk | None:
    """Without its casters; None when it has none."""
    kept = tuple(item for item in piece.hardware if item.kind != "caster")
    return bulk_of(piece, "casters off", piece.panels, kept) if len(kept) < len(piece.hardware) else None


def shelves_out(piece: Piece) -> Bulk | None:
    """Without the panels that can be taken out; None when there are none."""
    kept = tuple(panel for panel in piece.panels if panel.removable is None)
    return bulk_of(piece, "shelves out", kept, piece.hardware) if len(kept) < len(piece.panels) else None


def bare(piece: Piece) -> Bulk | None:
    """Without casters and without the panels that can be taken out; None unless it has both."""
    panels = tuple(panel for panel in piece.panels if panel.removable is None)
    hardware = tuple(item for item in piece.hardware if item.kind != "caster")
    if len(panels) == len(piece.panels) or len(hardware) == len(piece.hardware):
        return None
    return bulk_of(piece, "casters off, shelves out", panels, hardware)


def bulk_of(piece: Piece, name: str, panels: Sequence[Panel], hardware: Sequence[Hardware]) -> Bulk:
    """Members with these panels and this hardware; screws and the like that stand nowhere weigh with the rest."""
    lumps = [lump for member in piece.members for lump in _member(member, piece)]
    lumps += [lump for panel in panels for lump in _panel(panel)]
    lumps += [lump for item in hardware for lump in _hardware(item)]
    gone = [(panel.mass, panel.centre) for panel in piece.panels if panel not in panels]
    gone += [(item.mass * item.each, item.at) for item in piece.hardware if item not in hardware and item.placed]
    mass = piece.mass - sum(weight for weight, _ in gone)
    moment = piece.mass * piece.centre - sum((weight * at for weight, at in gone), NOTHING)
    rolls = any(item.kind == "caster" for item in hardware)
    return Bulk(name, tuple(lumps), mass, moment / mass, rolls)


def halves(bulk: Bulk, axis: int, at: float) -> tuple[Bulk, Bulk]:
    """The bulk cut in two where coordinate `axis` is `at` [mm]; each part of it weighs by its share of the corners."""
    names = {0: ("left half", "right half"), 1: ("front half", "back half"), 2: ("lower half", "upper half")}[axis]
    return _half(bulk, axis, at, -1.0, names[0]), _half(bulk, axis, at, 1.0, names[1])


def _half(bulk: Bulk, axis: int, at: float, way: float, name: str) -> Bulk:
    kept = [found for lump in bulk.lumps if (found := _cut(lump, axis, at, way)) is not None]
    mass = sum(lump.mass for lump in kept)
    middles = [lump.mass * (lump.corners.max(axis=0) + lump.corners.min(axis=0)) / 2 for lump in kept]
    centre = sum(middles, NOTHING) / mass if mass else bulk.centre
    return Bulk(name, tuple(kept), mass, centre, bulk.rolls and name == "lower half")


def _cut(lump: Lump, axis: int, at: float, way: float) -> Lump | None:
    """What of a convex part lies on one side of a plane; None when nothing does."""
    depth = (lump.corners[:, axis] - at) * way
    inside, outside = lump.corners[depth >= 0], lump.corners[depth < 0]
    if not len(inside):
        return None
    if not len(outside):
        return lump
    d_in, d_out = depth[depth >= 0], depth[depth < 0]
    share = d_in[:, None] / (d_in[:, None] - d_out[None, :])
    crossed = inside[:, None, :] + share[..., None] * (outside[None, :, :] - inside[:, None, :])
    reach = float(depth.max() - depth.min())
    corners = outermost(np.vstack([inside, crossed.reshape(-1, 3)]))
    return Lump(corners, lump.mass * float(depth.max()) / max(reach, 1e-9), lump.of)


def _member(member: Member, piece: Piece) -> Iterable[Lump]:
    """A convex part for each straight and for each few degrees of a bend; an angle's notch counts as filled."""
    if member.sleeve_of is not None:
        return
    solid = trimmed(member, piece.members)
    groups = [
        group
        for segment, rings in zip(solid.body.path.segments, solid.rings(OUTLINE_POINTS), strict=True)
        for group in (_along_bend(rings) if isinstance(segment, Arc) else [rings.reshape(-1, 3)])
    ]
    spans = [float(np.linalg.norm(group.max(axis=0) - group.min(axis=0))) for group in groups]
    for group, span in zip(groups, spans, strict=True):
        yield Lump(group, member.mass * span / sum(spans), piece.mark_of.get(member.name, member.name))


def _along_bend(rings: Floats) -> list[Floats]:
    return [rings[at : at + RINGS_TOGETHER + 1].reshape(-1, 3) for at in range(0, len(rings) - 1, RINGS_TOGETHER)]


def _panel(panel: Panel) -> list[Lump]:
    """The slats of a shelf as one board, since nothing passes between them; its battens each."""
    top = [board for board in panel.boards if board.role != "batten"]
    low, high = np.min([one.low for one in top], axis=0), np.max([one.high for one in top], axis=0)
    found = [Lump(low + CORNERS * (high - low), sum(one.mass for one in top), panel.name)]
    battens = [board for board in panel.boards if board.role == "batten"]
    return found + [Lump(one.low + CORNERS * (one.high - one.low), one.mass, panel.name) for one in battens]


def _hardware(item: Hardware) -> list[Lump]:
    if not item.placed or item.kind in ("screw", "bolt", "anchor"):
        return []
    low, high = hardware_box(item, swept=True)
    if float((high - low).min()) <= 0:
        return []
    return [Lump(low + CORNERS * (high - low), item.mass * item.each, item.name)]
