"""Steps at the bench: set up, tack, weld, grind, drill."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.making.plan import asking
from fitwright.making.plan.given import SetUp, Welded
from fitwright.making.plan.listing import Listing
from fitwright.making.plan.model import After, Number, Reading
from fitwright.making.plan.rates import table

PER_GRIND_MM = 100.0


def bench(plan: Listing, parts: Sequence[int]) -> list[int]:
    """Set-up and tacking of every subassembly in order; where none are planned, of the whole piece at once."""
    done: list[int] = []
    before: list[int] = list(parts)
    for one in plan.given.set_ups:
        placed = _set_up(plan, one, before)
        done.append(_tack(plan, one, placed))
        before = [*parts, *done]
    return done


def _set_up(plan: Listing, one: SetUp, after: Sequence[int]) -> int:
    again = bool(one.same_as)
    return plan.add(
        "set up", f"Set up {one.name}", len(one.placing), settings=0 if again else 1,
        numbers=[Number(line, "") for line in one.placing],
        setup=(f"As {one.same_as}: stops stay as they are." if again else "Wipe the bench; parts to hand, marks up.",),
        checks=("Everything touches its stops; nothing is sprung into place.",),
        after=after, sheet=one.sheet, about=one.name,
    )  # fmt: skip


def _tack(plan: Listing, one: SetUp, placed: int) -> int:
    style = plan.style
    wanted = [(line.name, f"{style.length(line.length)} ± {style.within(line.tolerance)}") for line in one.checks]
    return plan.add(
        "tack", f"{'Tack' if one.tacks or plan.given.welded is None else 'Check'} {one.name}", one.tacks,
        numbers=[Number("tacks, one on every joint before any has two", f"{one.tacks}")] if one.tacks else [],
        checks=("Read these before the clamps come off; true it now, while tacks still give.",),
        readings=[Reading(name, value) for name, value in wanted], after=(placed,), sheet=one.sheet,
        asks=asking.of_set_up(one), about=one.name,
    )  # fmt: skip


def weld(plan: Listing, tacked: Sequence[int]) -> int | None:
    """The full welds in the order of the weld plan; None for a piece without any."""
    one = plan.given.welded
    if one is None or not one.welds:
        return None
    minutes = one.arc_seconds / 60 / table("rates")["arc"]["share"]
    return plan.add(
        "weld", f"Weld: {one.runs} runs in the order of the weld map", minutes,
        numbers=[Number(words, f"{count} ×", 1) for words, count in one.welds],
        setup=("Set amps and volts on an offcut of the same wall first.", *one.order),
        checks=("Let each joint cool before the next run on it.",
                "Cold and unclamped: read these and write them down."),
        readings=_after_welding(plan, one), after=tacked, sheet=one.sheet, asks=asking.of_frame(plan.given),
    )  # fmt: skip


def _after_welding(plan: Listing, one: Welded) -> list[Reading]:
    sizes = [Reading(f"{name} over all", plan.style.length(size)) for name, size in plan.given.frame]
    return [*sizes, Reading("one diagonal"), Reading("the other"), *(Reading(words) for words in one.movement[:3])]


def grind(plan: Listing, welded: int | None) -> int | None:
    """Welds that vanish ground flush, the others brushed; None without welds."""
    finish, one = plan.given.finish, plan.given.welded
    if welded is None or one is None or finish is None:
        return None
    length = sum(mm for _, _, mm in finish.flush)
    grits = ", ".join(str(grit) for grit in finish.flush_grits)
    others = sum(count for _, count in one.welds) - sum(count for _, count, _ in finish.flush)
    cold = round(60 * table("rates")["rest"]["weld"])
    return plan.add(
        "grind", "Grind and brush the welds", length / PER_GRIND_MM + max(others, 0),
        numbers=[
            *(Number(f"{what}: flush, grits {grits}", f"{count} ×", count) for what, count, _ in finish.flush),
            *([Number("other welds: spatter off, wire brush", f"{others} ×")] if others > 0 else []),
        ],
        setup=("Degrease where the disc will run: it rubs oil in.",),
        checks=("No undercut deeper than a hair; no pinholes: weld them again now.",),
        after=(After(welded, cold, "the welds to cool"),), sheet=finish.sheet,
    )  # fmt: skip


def drill(plan: Listing, after: Sequence[int | None]) -> int | None:
    """Holes, threads and inserts in the metal; None where nothing needs any."""
    fitted = [one for one in plan.given.fitted if one.threaded]
    if not fitted:
        return None
    return plan.add(
        "drill", "Drill, tap, set inserts", sum(one.count for one in fitted),
        numbers=[Number(f"{one.what}: {one.threaded}", f"{one.count} ×", one.count) for one in fitted],
        setup=("Centre punch every hole; measure from the same edge for all.",),
        checks=("Try the bolt or stem in each thread before paint goes on; plug or mask threads.",),
        after=after, sheet="Hardware list",
    )  # fmt: skip
