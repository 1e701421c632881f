"""What is ground, with which grits, and what is used up doing it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from fitwright.making.finishing.model import Consumable, Flush, Grinding, PartArea
from fitwright.making.finishing.patches import strips
from fitwright.making.finishing.reading import Asked
from fitwright.making.finishing.tables import table
from fitwright.piece.model import CutKind, Joint, JointKind, Member, Piece

INNER = 0.75  # of a mitre's seam that is ground: the inside of the corner is left
SQUARE_M = 1e6


def flush_welds(piece: Piece) -> tuple[Flush, ...]:
    """The welds that are to vanish: butts all round, mitred corners but for their inside; tees stay as welded."""
    found: dict[str, tuple[int, float]] = {}
    for joint in piece.joints:
        told = _flush(piece, joint)
        if told is not None:
            what, length = told
            count, total = found.get(what, (0, 0.0))
            found[what] = (count + 1, total + length)
    return tuple(Flush(what, count, length) for what, (count, length) in found.items())


def _flush(piece: Piece, joint: Joint) -> tuple[str, float] | None:
    member = piece.members[joint.first]
    if joint.bolted or not member.stock.material.is_metal:
        return None
    if joint.kind is JointKind.BUTT:
        return "butt joints, all round", girth(member)
    if joint.kind is JointKind.CORNER and _mitred(member, joint):
        angle = member.ends[joint.end or 0].angle
        return "mitred corners, outside faces", INNER * girth(member) / max(math.cos(angle), 0.1)
    return None


def _mitred(member: Member, joint: Joint) -> bool:
    return joint.end is not None and member.ends[joint.end].kind is CutKind.MITRE


def girth(member: Member) -> float:
    """Round the outside of a member's section [mm]."""
    return float(strips(member.stock.section)[2].sum())


def grinding_of(piece: Piece, asked: Asked) -> Grinding:
    """Grits for the metal, by what it will be coated with."""
    kinds = {member.stock.material.kind for member in piece.members}
    bare = bool(asked.coats) and all(product.bare for product, _ in asked.coats)
    kind = (
        "sent" if asked.sent else "stainless" if "stainless" in kinds and not asked.coats
        else "clear" if bare or not asked.coats else "paint"
    )  # fmt: skip
    return _grinding(kind, flush_welds(piece))


def sanding_of() -> Grinding:
    """Grits for timber."""
    return _grinding("timber", ())


def _grinding(kind: str, flush: tuple[Flush, ...]) -> Grinding:
    row = table("preparing")["grits"][kind]
    return Grinding(flush, tuple(row["flush"]), tuple(row["all"]), row["words"], row["basis"])


def cleaning_of(metal: bool, timber: bool) -> tuple[str, ...]:
    """What is done between grinding or sanding and the first coat, in order."""
    rows = table("preparing")["clean"]
    return tuple(row["words"] for row in rows if (metal and row.get("metal")) or (timber and row.get("timber")))


def consumables_of(
    areas: Sequence[PartArea], grinding: Grinding | None, sanding: Grinding | None, brushes: int
) -> tuple[Consumable, ...]:
    """Discs, paper, solvent and rags, by area and by length of weld; a brush for each thing put on."""
    life = table("preparing")["lifetime"]
    metal = sum(area.bare for area in areas if area.metal) / SQUARE_M
    timber = sum(area.bare for area in areas if not area.metal) / SQUARE_M
    basis, found = str(life["basis"]), []
    if grinding is not None:
        length = sum(flush.length for flush in grinding.flush)
        found += [
            Consumable(f"flap disc {grit}", math.ceil(length / life["flap_mm"]), basis)
            for grit in (grinding.flush_grits if length else ())
        ]
        found += [Consumable(f"abrasive sheet {g}", _sheets(metal, life), basis) for g in grinding.all_grits]
        found.append(Consumable("solvent, decilitres", math.ceil(10 * 2 * metal * life["solvent_l_m2"]), basis))
    if sanding is not None:
        found += [Consumable(f"sanding paper {g}", _sheets(timber, life), basis) for g in sanding.all_grits]
    found.append(Consumable("clean rags", math.ceil((metal + timber) / life["rag_m2"]), basis))
    if brushes:
        found.append(Consumable("brush or roller", brushes, "common practice: one for each product"))
    return tuple(one for one in found if one.count)


def _sheets(area: float, life: dict[str, float]) -> int:
    return math.ceil(area / life["sheet_m2"])
