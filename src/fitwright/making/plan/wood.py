"""Steps in timber: saw, glue, sand, screw together."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.making.plan import asking
from fitwright.making.plan.given import PanelsGiven
from fitwright.making.plan.listing import Listing
from fitwright.making.plan.metal import saw_numbers
from fitwright.making.plan.model import After, Number, Reading
from fitwright.making.plan.rates import table

FIT = "fit shelves"


def timber(plan: Listing, bought: int, frame: Sequence[int]) -> list[int]:
    """All steps of the panels; where the rules ask for it, boards wait until the frame can be measured.

    Returns the last step of each part's panels: they are ready for their finish.
    """
    if not plan.given.panels:
        return []
    fit = FIT in plan.given.care and bool(frame)
    settings = [one for one in plan.given.saw if one.timber]
    sawn = plan.add(
        "timber", "Saw the boards", sum(one.count for one in settings), settings=len(settings),
        numbers=saw_numbers(plan, settings),
        setup=(("Measure between the uprights of the welded frame at every shelf first; set the stop to what it "
               "really is, less the play.") if fit else "Cut off checked ends; put knotty boards aside as spares.",),
        checks=("First piece of each setting: measure, and try it in its place.",),
        readings=[Reading(f"opening for {one.part}") for one in plan.given.panels] if fit else (),
        after=(bought, *(frame if fit else ())), sheet=plan.given.panels[0].sheet,
        asks=asking.of_openings(plan.given) if fit else (),
    )  # fmt: skip
    glued = {one.part: _glued(plan, one, sawn) for one in plan.given.panels if one.joints}
    rest = round(60 * table("rates")["rest"]["glue"])
    waits: list[int | After] = [sawn, *(After(number, rest, "the glue") for number in glued.values())]
    sanded = _sanded(plan, waits)
    last = [_screwed(plan, one, sanded) for one in plan.given.panels if one.screws]
    return last or [sanded]


def _glued(plan: Listing, one: PanelsGiven, sawn: int) -> int:
    return plan.add(
        "glue", f"Glue up {one.part}", one.joints,
        numbers=[Number("boards", f"{one.boards}", 0), Number("joints", f"{one.joints}", one.joints)],
        setup=_says(one, "Rip and joint", "Glue up", "glue"),
        checks=("Dry first: every joint closes by hand pressure.", "Flat against a straight edge with all clamps on."),
        after=(sawn,), sheet=one.sheet, about=one.part,
    )  # fmt: skip


def _sanded(plan: Listing, after: Sequence[int | After]) -> int:
    finish = plan.given.finish
    grits = finish.timber_grits if finish is not None else ()
    area = finish.timber if finish is not None else 0.0
    return plan.add(
        "sand", "Break edges and sand all boards", area * max(len(grits), 1),
        numbers=[Number("grit, with the grain", str(grit)) for grit in grits],
        checks=("Rake a lamp along each board: no scratch across the grain.",),
        after=after, sheet=finish.sheet if finish is not None else "",
    )  # fmt: skip


def _screwed(plan: Listing, one: PanelsGiven, sanded: int) -> int:
    gap = [Number("spacer in the gaps", plan.style.fine().length(one.gap), 0)] if one.gap > 0 else []
    return plan.add(
        "screw", f"Drill and screw together {one.part}, {one.count} of them", one.screws,
        numbers=[*gap, Number(f"screws {one.screw}, in all", f"{one.screws}"),
                 Number(one.part, f"{one.count} ×", one.count)],
        setup=_says(one, "Drill", "Lay the boards", "Through the battens", "Leave stop"),
        checks=("Both diagonals the same before the last screw.", "No point to be felt on the face that shows."),
        after=(sanded,), sheet=one.sheet, about=one.part,
    )  # fmt: skip


def _says(one: PanelsGiven, *begins: str) -> list[str]:
    """The lines of the order of work that begin so."""
    return [line for line in one.order if line.startswith(begins)]
