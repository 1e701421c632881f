"""Steps in sheet metal: cut it, and weld it down before the piece is cleaned and painted."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.making.plan.given import DeckGiven
from fitwright.making.plan.listing import Listing
from fitwright.making.plan.model import Number
from fitwright.making.plan.rates import table


def decks(plan: Listing, bought: int, frame: Sequence[int]) -> list[int]:
    """All steps of metal sheets; frame: those after which the frame is ready for them. Returns the last of each."""
    return [_welded(plan, one, [_cut(plan, one, bought), *frame]) for one in plan.given.decks]


def _cut(plan: Listing, one: DeckGiven, bought: int) -> int:
    return plan.add(
        "saw", f"Cut {one.part} from its sheet", one.count, settings=1,
        numbers=[Number(one.part, one.size, one.count)],
        setup=("Have it sheared where it was bought, or mark it out with a square and cut along a clamped guide.",),
        checks=("Both diagonals the same.", "Lay it on the frame: no edge stands out. Then file every edge: they cut."),
        after=(bought,), sheet=one.sheet, about=one.part,
    )  # fmt: skip


def _welded(plan: Listing, one: DeckGiven, after: Sequence[int]) -> int:
    if not one.lines:
        return after[0]
    minutes = one.arc_seconds / 60 / table("rates")["arc"]["share"]
    return plan.add(
        "weld", f"Weld {one.part} down with stitches", minutes,
        numbers=[Number(f"along {name}: stitches of {one.stitch}, leg {one.leg}", f"{count} ×", count)
                 for name, count in one.lines],
        setup=("Clamp it flat. Tack the middles of its sides, then its corners.",
               "The first stitch of each line at the middle, the next on the line across from it: heat at one place "
               "buckles a sheet. Let each cool until a bare hand can be held near it.",
               "How a sheet pulls is not forecast: try on an offcut of the same thickness."),
        checks=("Straight edge over both diagonals: flat before the last stitches.",),
        after=after, sheet=one.sheet, about=one.part,
    )  # fmt: skip
