"""How far welding pulls the piece, against the tolerance of welded work, with remedies computed on the same model."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.checks.welded_tolerances import (
    LINEAR_CLASS,
    STRAIGHTNESS_CLASS,
    linear_tolerance,
    straightness_tolerance,
)
from fitwright.findings import Finding, at_most
from fitwright.job.model import Job
from fitwright.mechanics.shrinkage import Movement, Pull, Pulled, in_style
from fitwright.units import Style

AREA = "welding"
LINEAR = ("open ends", "apart", "overall")
SHORTEST_MM = 30.0
WORTH_IT = 0.9
"""An order that leaves more than this of the movement is not worth praising."""

PULL_BASIS = (
    "shrinkage across welds 0.10 Aw/t (Blodgett), pull along welds 0.2 kN per J/mm (White, Leggatt and Dwight) up to "
    "what the wall bears, restraint by Watanabe and Satoh, on the frame model"
)


@dataclass(frozen=True, eq=False)
class Remedy:
    """Another way of welding the same piece, such as `weld half of each seam, in stitches`, with its own pull."""

    words: str
    pull: Pull


def distortion_findings(pull: Pull, job: Job, remedies: Sequence[Remedy] = ()) -> list[Finding]:
    """For each welded group one finding for each kind of measure: the one that welding takes closest to its limit.

    The value is the likely movement in the order proposed; it fails when that is over the limit, and is tight when only
    the upper end of the range is. The range holds nine in ten.
    Limits: ISO 13920 class B for lengths, class F for straightness and for the rock of four open ends.
    """
    found: list[Finding] = []
    for number, group in enumerate(pull.groups):
        for kind in dict.fromkeys(movement.measure.kind for movement in group.proposed.movements):
            worst = max(
                (movement for movement in group.proposed.movements if movement.measure.kind == kind),
                key=lambda movement: movement.change.most / limit_of(movement),
            )
            found.append(_finding(job, group, worst, [(r.words, r.pull.groups[number]) for r in remedies], pull))
    return found


def limit_of(movement: Movement) -> float:
    """How far a measure may be off [mm]."""
    measure = movement.measure
    size = max(measure.nominal, SHORTEST_MM + 1e-6)
    return linear_tolerance(size) if measure.kind in LINEAR else straightness_tolerance(size)


def _finding(job: Job, group: Pulled, worst: Movement, remedies: Sequence[tuple[str, Pulled]], pull: Pull) -> Finding:
    style, change, limit = job.style, worst.change, limit_of(worst)
    likely = abs(change.mean)
    grade = f"class {LINEAR_CLASS}" if worst.measure.kind in LINEAR else f"class {STRAIGHTNESS_CLASS}"
    return at_most(
        AREA,
        worst.measure.subject,
        f"pull of the welds: {worst.measure.kind}",
        likely,
        limit,
        "mm",
        tight=max(change.most - likely, job.brief.rules.tight * limit),
        basis=f"limit ISO 13920 {grade}; {PULL_BASIS}; {pull.factor.basis}",
        advice=_advice(style, group, worst, remedies, limit),
        formula=f"{worst.words(style)} (likely {in_style(likely, style)}, nine in ten in this range); limit "
        f"{in_style(limit, style)} on {style.length(worst.measure.nominal)}; in the order listed "
        f"{in_style(abs(_same(group.listed.movements, worst).change.mean), style)}",
    )


def _advice(style: Style, group: Pulled, worst: Movement, remedies: Sequence[tuple[str, Pulled]], limit: float) -> str:
    listed = _same(group.listed.movements, worst)
    parts = [_order(style, listed, worst)]
    parts += [f"{words}: likely {_likely(style, _same(other.proposed.movements, worst))}" for words, other in remedies]
    parts.append(_preset(style, worst, limit))
    return "; ".join(part for part in parts if part)


def _order(style: Style, listed: Movement, worst: Movement) -> str:
    before, after = abs(listed.change.mean), abs(worst.change.mean)
    if after < WORTH_IT * before:
        return (
            f"weld in the order of the weld map, {in_style(after, style)} likely where the order listed gives "
            + in_style(before, style)
        )
    return f"the order of welding alone does not cure it ({in_style(after, style)} likely in the best order found)"


def _likely(style: Style, movement: Movement) -> str:
    return f"{in_style(abs(movement.change.mean), style)}, at most {in_style(movement.change.most, style)}"


def _preset(style: Style, worst: Movement, limit: float) -> str:
    """Set it off by the likely pull before tacking, and let the welds bring it back."""
    change = worst.change
    if worst.measure.kind == "rock" or abs(change.mean) < 0.25:
        return ""
    rest = max(change.high - change.mean, change.mean - change.low)
    kept = "within the limit" if rest <= limit else "so true it up when cold"
    amount = in_style(abs(change.mean), style)
    longer = "shorter" if change.mean > 0 else "longer"
    how = f"tack it {amount} {longer}" if worst.measure.kind in LINEAR else f"bend it {amount} the other way first"
    return (
        f"or {how}, and the pull brings it back to within {in_style(rest, style)}, {kept}; note what came out, and the "
        "next forecast is narrower"
    )


def _same(movements: Sequence[Movement], wanted: Movement) -> Movement:
    return next(
        m
        for m in movements
        if (m.measure.kind, m.measure.subject) == (wanted.measure.kind, wanted.measure.subject)
        and bool((m.measure.weights == wanted.measure.weights).all())
    )
