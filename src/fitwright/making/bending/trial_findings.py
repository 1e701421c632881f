"""What the shop's own trials have to say about a bend sheet: how many there are, and what to doubt in them."""

from __future__ import annotations

from fitwright.findings import Finding, Verdict
from fitwright.making.bending.case import AREA, Case
from fitwright.making.bending.errors import BendError
from fitwright.making.bending.trialled import Trialled, doubts_told, trialled

BASIS = "posterior predictive check and cumulative sums over the shop's trials"


def trial_findings(case: Case) -> list[Finding]:
    """One finding for each die of the sheet that has trials in this stock; none where there are none."""
    if case.learnt is None:
        return []
    dies = {step.die: case.die(step) for step in case.sheet.steps}
    found = []
    for die in dies.values():
        if die is None or (die.name, case.stock.label) not in case.learnt.bends:
            continue
        try:
            found.append(_finding(case, trialled(die, case.stock, case.learnt)))
        except BendError:  # told as the overbend that cannot be
            continue
    return found


def _finding(case: Case, known: Trialled) -> Finding:
    assert known.law is not None
    doubts = doubts_told(known.law, known.outliers, known.drift, case.style)
    if not known.now.trials:
        doubts.append("the trials contradict one another too much to set a machine by: physics is taken instead")
    return Finding(
        AREA,
        case.sheet.subject,
        f"trials on die {known.die.name}",
        Verdict.TIGHT if doubts else Verdict.HOLDS,
        basis=BASIS,
        advice=" ".join(doubts),
        formula=known.told(case.style)[0],
    )
