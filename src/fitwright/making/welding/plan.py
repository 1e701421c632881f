"""The weld plan of a piece, put together."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from functools import partial

import numpy as np

from fitwright.checks.distortion import Remedy, distortion_findings
from fitwright.job.model import Job
from fitwright.making.welding.cautions import weld_cautions
from fitwright.making.welding.listing import weld_list
from fitwright.making.welding.model import Bracket, Floats, MapPoint, Used, Weld, WeldPlan, WeldStep
from fitwright.making.welding.sides import side_in_words
from fitwright.making.welding.tacking import tack_plan
from fitwright.mechanics.framing import Framed
from fitwright.mechanics.shrinkage import FACTOR, Progress, Pull, Pulled, Spread, in_style, pull_of
from fitwright.piece.model import Piece
from fitwright.shop import Shop
from fitwright.units import Style

HALF = 0.5
LARGEST = 5
STITCHED = "where strength allows, weld half of each seam, in stitches of 25 mm (1 in)"
LIMITS = (
    "Movements are a forecast from published formulas for plate and heavy sections, carried over to thin tube: the "
    "range is wide until readings of this shop narrow it.",
    "Elastic frame, small movements: walls that buckle or dent, tacks that crack and clamps that slip are not in it.",
    "How much the second side of a joint takes back of the first is an assumption (half, give or take a third).",
    "The order is the best of those tried, not proved to be the best of all.",
)


def weld_plan(
    piece: Piece,
    job: Job,
    framed: Framed,
    shop: Shop,
    progress: Progress | None = None,
    *,
    factor: Spread = FACTOR,
    clamps: Sequence[Floats] | None = None,
    subassemblies: Sequence[Collection[str]] = (),
) -> WeldPlan:
    """Every weld of the piece, tacks, the order of runs, the movement that is left, and what is used up.

    progress: told what is going on and how far it is (0 to 1); returns False to stop the search with the best so far.
    factor: of this shop on predicted pulls, as `narrowed` gives it from readings. clamps: points (3,) where the work is
    held on the bench; when None, the usual places. subassemblies: names of the members that are welded by themselves
    first, set-up by set-up.

    Raises ShrinkageError when the shop's welding process is not known.
    Holds as `LIMITS` say.
    """
    welds = weld_list(piece, shop)
    sets = [[m.index for m in piece.members if m.name in names] for names in subassemblies]
    forecast = partial(pull_of, framed, factor=factor, clamps=clamps, subassemblies=sets)
    pull = forecast([weld.bead for weld in welds], progress=progress or _go_on)
    half = [replace(bead, share=HALF) for bead in pull.beads]
    remedies = (Remedy(STITCHED, forecast(half, before=pull)),) if welds else ()
    return WeldPlan(
        welds=welds,
        tacks=tack_plan(welds),
        steps=steps_of(pull, welds),
        groups=tuple(_bracket(piece, group) for group in pull.groups),
        pull=pull,
        used=sum((weld.used for weld in welds), Used()),
        words=tuple(m.words(job.style) for group in pull.groups for m in group.proposed.largest(LARGEST)),
        order_words=tuple(_order_words(group, job.style) for group in pull.groups),
        findings=tuple(distortion_findings(pull, job, remedies)),
        cautions=weld_cautions(piece, welds),
        map_points=map_points(pull, welds, job.style),
        limits=LIMITS if welds else (),
    )


def _go_on(_: str, __: float) -> bool:
    return True


def steps_of(pull: Pull, welds: Sequence[Weld]) -> tuple[WeldStep, ...]:
    """The runs in the order proposed, group after group."""
    found: list[WeldStep] = []
    seen: set[int] = set()
    for group in pull.groups:
        for number in group.proposed.runs:
            run = pull.runs[number]
            weld = welds[run.bead]
            whole = run.length > 0.98 * weld.length
            side = "all round" if whole else side_in_words(run.toward)
            found.append(WeldStep(len(found) + 1, weld.number, side, run.toward, run.length, run.bead in seen))
            seen.add(run.bead)
    return tuple(found)


def map_points(pull: Pull, welds: Sequence[Weld], style: Style) -> tuple[MapPoint, ...]:
    """A balloon for each weld, with the numbers of its runs in the order proposed."""
    steps = steps_of(pull, welds)
    orders = {weld.number: tuple(step.number for step in steps if step.weld == weld.number) for weld in welds}
    return tuple(MapPoint(weld.number, weld.at, orders[weld.number], _size(weld, style)) for weld in welds)


def _size(weld: Weld, style: Style) -> str:
    return f"{weld.kind.value} {style.length(weld.leg)} x {style.length(weld.length)}"


def _bracket(piece: Piece, group: Pulled) -> Bracket:
    forces = np.linalg.norm(group.proposed.clamp_forces, axis=1)
    return Bracket(
        members=tuple(piece.members[k].name for k in group.group.members),
        listed=group.listed.size,
        proposed=group.proposed.size,
        tried=group.tried,
        stopped=group.stopped,
        listed_largest=group.listed.largest(LARGEST),
        largest=group.proposed.largest(LARGEST),
        largest_clamp_force=float(forces.max()) if len(forces) else 0.0,
    )


def _order_words(group: Pulled, style: Style) -> str:
    listed, best = in_style(group.listed.size, style), in_style(group.proposed.size, style)
    stopped = ", stopped early" if group.stopped else ""
    return (
        f"joint by joint as listed, points move by {listed} (root mean square, likely); in the order proposed by "
        f"{best} ({group.tried} orders tried{stopped})"
    )
