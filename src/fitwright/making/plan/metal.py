"""Steps from the shop door to parts ready for the bench: buy, saw, bend, trim, cope."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitwright.making.plan import asking
from fitwright.making.plan.given import BendLine, Bent, SawSetting
from fitwright.making.plan.listing import Listing
from fitwright.making.plan.model import Number, Reading

ARROWS = (
    "Turn the tube, seen from its unbent end, ↻ clockwise or ↺ the other way, counted from where it lay for bend 1."
)
TRIAL_DEG = 90


def buy(plan: Listing) -> int:
    """Everything to buy, ticked off by line."""
    lines = plan.given.buy
    return plan.add(
        "buy", "Buy and fetch", len(lines),
        numbers=[Number(f"{line.what}, {line.size}" if line.size else line.what, f"{line.count} ×") for line in lines],
        setup=("Look through what is on the rack first: offcuts that the cutting plan uses are listed there.",),
        checks=("Measure wall and outside of one length of each tube.", "Sight along each bar and board: straight?"),
        readings=[Reading(f"outside of {label}") for label in _labels(plan, timber=False)],
        sheet="Buying list",
    )  # fmt: skip


def saw(plan: Listing, bought: int) -> dict[str, int]:
    """One step for each metal stock, longest first; step numbers by stock."""
    return {label: _sawn(plan, label, bought) for label in _labels(plan, timber=False)}


def _labels(plan: Listing, *, timber: bool) -> list[str]:
    return list(dict.fromkeys(one.stock for one in plan.given.saw if one.timber is timber))


def _sawn(plan: Listing, label: str, bought: int) -> int:
    settings = [one for one in plan.given.saw if one.stock == label and not one.timber]
    return plan.add(
        "saw", f"Saw {label}", sum(one.count for one in settings), settings=len(settings),
        numbers=saw_numbers(plan, settings),
        setup=("Square the bar's end first, then set the stop once for each line, longest first.",),
        checks=("Measure the first piece of each setting before cutting the rest.",
                "Deburr, and write its mark on each."),
        readings=[Reading("first piece", plan.style.length(settings[0].length))],
        after=(bought,), sheet=f"Cutting: {label}", marks=[mark for one in settings for mark in one.marks],
        asks=asking.of_saw(settings), about=label,
    )  # fmt: skip


def saw_numbers(plan: Listing, settings: Sequence[SawSetting]) -> list[Number]:
    """The stop settings, each with a box for every piece."""
    return [Number(f"{' '.join(one.marks)}, {one.ends}", plan.style.length(one.length), one.count) for one in settings]


def blocks(plan: Listing, bought: int) -> int | None:
    """The blocks for the bench; None where no set-up needs any."""
    some = plan.given.blocks
    if not some:
        return None
    return plan.add(
        "timber", "Saw the blocks for the bench", sum(one.count for one in some), settings=len(some),
        numbers=[
            Number(f"{' '.join(one.marks)}, {one.stock}", plan.style.fine().length(one.length), one.count)
            for one in some
        ],
        setup=("From the drops that the parts leave, as far as they reach: the cutting sheet says which.",),
        checks=("Ends square: a block that leans sets the part askew.", "Write its letter on each."),
        after=(bought,), sheet="Blocks for the bench", about="blocks for the bench",
    )  # fmt: skip


def trial(plan: Listing, after: Sequence[int]) -> int | None:
    """Trial bends for every die that is used, as many as pay; None for a piece without bends."""
    dies = {(bend.die, one.stock) for one in plan.given.bent for bend in one.bends}
    if not dies:
        return None
    tried = [(die, stock, plan.given.trials.get((die, stock), 1)) for die, stock in sorted(dies)]
    return plan.add(
        "trial", "Trial bend", sum(count for *_, count in tried), settings=len(dies),
        numbers=[Number(f"{stock}, die {die or 'none fits'}", f"{TRIAL_DEG}°", count) for die, stock, count in tried],
        setup=("Take a short offcut of the same bar, long enough for grip and lead.",),
        checks=("Compare with what the bend sheet reckons with: where it differs, note it in the shop's trials and "
                "print the bend sheets again.",),
        readings=[
            Reading(f"set to {TRIAL_DEG}°, {stock}: measured") for _, stock, count in tried for _ in range(count)
        ],
        after=after,
    )  # fmt: skip


def bend(plan: Listing, one: Bent, after: Sequence[int | None]) -> int:
    """All bends of one mark, with the angle to be read after each."""
    dies = len({line.die for line in one.bends})
    length, angle = plan.style.length, plan.style.angle
    return plan.add(
        "bend", f"Bend {one.mark} ({one.part}), {one.count} of them", one.count * len(one.bends), settings=dies,
        numbers=[Number("blank", length(one.blank), one.count), *_bend_numbers(plan, one.bends, one.count)],
        setup=(f"Die {' and '.join(dict.fromkeys(line.die or 'none fits' for line in one.bends))}. Mark every "
               "blank first, all from the same end.", *([ARROWS] if any(line.turn for line in one.bends) else [])),
        checks=("Lay the first on the drawing or on a chalked floor before bending the second.",
                "Lay the second on the first: they must match."),
        readings=[Reading(f"bend {line.number}", angle(line.angle)) for line in one.bends],
        after=after, sheet=one.sheet, marks=(one.mark,), asks=asking.of_bends(one), about=one.mark,
    )  # fmt: skip


def _bend_numbers(plan: Listing, bends: Sequence[BendLine], count: int) -> Iterator[Number]:
    for line in bends:
        turn = f", turn {line.turn}" if line.turn else ""
        what = f"bend {line.number}: mark at {plan.style.length(line.mark)}{turn}, bend to"
        yield Number(what, plan.style.angle(line.bend_to), count)


def trim(plan: Listing, one: Bent, after: Sequence[int]) -> int | None:
    """The ends that are cut once the bends are made; None where there are none."""
    trims = [line for line in one.trims if line.allowance > 0]
    if not trims:
        return None
    return plan.add(
        "trim", f"Trim {one.mark} ({one.part}) to length", len(trims) * one.count,
        numbers=[
            Number(f"{line.end}: from {line.place} to the tip", plan.style.length(line.measured), one.count)
            for line in trims
        ],
        checks=("Measure along the leg, not along the outside of the bend.", "Both legs alike, all copies alike."),
        readings=[Reading(f"{line.end}", plan.style.length(line.measured)) for line in trims],
        after=after, sheet=one.sheet, marks=(one.mark,), asks=asking.of_trims(one), about=one.mark,
    )  # fmt: skip


def cope(plan: Listing, after: dict[str, list[int]]) -> list[int]:
    """One step for all templates of a mark; after: what each mark waits for."""
    found = []
    for mark in dict.fromkeys(one.mark for one in plan.given.coped):
        ends = [one for one in plan.given.coped if one.mark == mark]
        found.append(
            plan.add(
                "cope", f"Cope the ends of {mark}", sum(one.count for one in ends), settings=len(ends),
                numbers=[
                    Number(f"{one.end}, to {' and '.join(one.meets)}", f"{one.count} ×", one.count) for one in ends
                ],
                setup=("Check the ruler on the template, cut it out, wrap it, its seam on the line that it names.",),
                checks=("Hold each end to what it meets: no light through the joint.", "Length from tip to tip again."),
                after=after.get(mark, []), sheet=ends[0].sheet, marks=(mark,), about=mark,
            )
        )  # fmt: skip
    return found
