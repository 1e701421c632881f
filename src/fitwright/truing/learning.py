"""What a first part teaches for the next one of its kind: where the bender has to be set now."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from fitwright.making.bending import BendSheet
from fitwright.mechanics.variation import Variation
from fitwright.mechanics.variation.sources import bends_of
from fitwright.truing.estimate import Estimate
from fitwright.truing.prior import SETUP
from fitwright.truing.progress import Made


@dataclass(frozen=True)
class Command:
    """The angle to set for a bend that is yet to be made.

    member: its name, mark: of it; number: of the bend on the bend sheet. old: angle on the sheet, by: how much more
    [rad].
    """

    member: str
    mark: str
    number: int
    old: float
    by: float
    why: str


LEAST_RAD = math.radians(0.05)


def commands_of(
    setting: Variation, made: Made, estimate: Estimate, sheets: Mapping[str, BendSheet]
) -> tuple[Command, ...]:
    """The angle to set now for each bend not made yet; only where it changes.

    The set-up's error as the readings of its first bends have it is taken off; what remains of a bend keeps its share.
    Holds for bends made with the same setting of the machine.
    """
    set_up = {
        source.name: (i, float(estimate.mean[i]))
        for i, source in enumerate(estimate.prior.sources)
        if source.kind == SETUP
    }
    found: list[Command] = []
    for k in setting.parts.nodes_of:
        member = setting.framed.piece.members[k]
        sheet = sheets.get(setting.framed.piece.mark_of.get(member.name, ""))
        if k in made.members or sheet is None:
            continue
        arcs = list(enumerate(bends_of(setting.framed, k), 1))
        if len(arcs) != len(sheet.steps):
            continue  # a rolled ring is one bend at the machine, and is not set to an angle
        for number, arc in arcs:
            name = f"{member.stock.label}, {math.degrees(arc.angle):.1f}° at {arc.radius:.0f} mm"
            off = set_up.get(name, (0, 0.0))[1]
            step = sheet.steps[-number if sheet.backwards else number - 1]
            kept = step.springback.kept if step.springback else 1.0
            if abs(off) > LEAST_RAD:
                why = f"bends made with this setting come out {math.degrees(off):+.1f}° off"
                found.append(Command(member.name, sheet.subject, step.number, step.command_angle, -off / kept, why))
    return tuple(found)


def set_anew(sheets: Mapping[str, BendSheet], commands: tuple[Command, ...]) -> dict[str, BendSheet]:
    """Bend sheets with the angles to set now, for the parts that are yet to be made."""
    by = {(one.mark, one.number): one.by for one in commands}
    found = {}
    for mark, sheet in sheets.items():
        steps = (
            replace(step, command_angle=step.command_angle + by.get((mark, step.number), 0.0)) for step in sheet.steps
        )
        found[mark] = replace(sheet, steps=tuple(steps))
    return found
