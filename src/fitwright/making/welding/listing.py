"""The list of welds."""

from __future__ import annotations

from fitwright.making.welding.beads import bead_of, leg_of
from fitwright.making.welding.consumables import used_by
from fitwright.making.welding.model import Weld
from fitwright.mechanics.shrinkage import Seam, WeldKind, seams
from fitwright.piece.model import Piece
from fitwright.shop import Shop


def weld_list(piece: Piece, shop: Shop) -> tuple[Weld, ...]:
    """Every weld of a piece with its length, size and settings, in the order of the joints.

    Raises ShrinkageError when the shop's welding process is not known.
    Holds for joints of metal members that touch; what is bolted, or stands off by more than a weld fills, is not in it.
    """
    found = seams(piece)
    return tuple(weld_of(number + 1, seam, piece, shop) for number, seam in enumerate(found))


def weld_of(number: int, seam: Seam, piece: Piece, shop: Shop) -> Weld:
    """One weld from its seam."""
    first, second = piece.members[seam.first], piece.members[seam.second]
    bead, size = bead_of(seam, shop.welding.process), leg_of(seam)
    return Weld(
        number=number,
        name=name_of(seam, first.name, second.name),
        joint=seam.joint,
        first=first.name,
        second=second.name,
        kind=seam.kind,
        thickness=seam.thickness,
        length=seam.total,
        around=seam.around,
        leg=size.make,
        least=size.least,
        most=size.most,
        throat=bead.throat,
        gap=seam.mean_gap,
        area=bead.area,
        heat=bead.heat,
        current=bead.arc.current,
        voltage=bead.arc.voltage,
        at=seam.middle,
        way=seam.pull,
        used=used_by(bead, first.stock.material.density),
        bead=bead,
    )


def name_of(seam: Seam, first: str, second: str) -> str:
    """What a weld is called."""
    if seam.first == seam.second:
        return f"butt of {first}"
    return f"{first} to {second}" if seam.kind is WeldKind.BUTT else f"{first} on {second}"
