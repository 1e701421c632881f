"""The whole build as steps in order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from fitwright.making.plan import coats, decks, ending, frame, metal, wood
from fitwright.making.plan.given import Given, SetUp
from fitwright.making.plan.listing import Listing
from fitwright.making.plan.model import After, Step
from fitwright.making.plan.rates import Rate, rates_with
from fitwright.units import Style


def build_steps(given: Given, style: Style, own: Mapping[str, Rate] | None = None) -> tuple[Step, ...]:
    """Every step from buying to delivery, each with what it waits for.

    given: what the other trades say; own: the shop's rates by kind of step, the table's where not given.
    Raises PlanError for a rate of a kind of step that there is not.
    Holds for one piece made once: batches of several pieces share set-ups that are counted here for each.
    """
    told = (
        given
        if given.set_ups or not (given.welded and given.welded.welds)
        else replace(given, set_ups=(_whole(given),))
    )
    plan = Listing(told, style, rates_with(own))
    bought = metal.buy(plan)
    welded, ground = _metal(plan, bought)
    drilled = frame.drill(plan, [ground or welded or bought])
    frame_done = [number for number in (welded, ground, drilled) if number is not None]
    decked = decks.decks(plan, bought, frame_done)
    ready = wood.timber(plan, bought, frame_done[:1])
    painted = coats.metal_finish(plan, [*(frame_done or plan.of("saw", "bend", "trim", "cope")), *decked])
    oiled = coats.timber_finish(plan, ready)
    assembled = ending.assemble(plan, [*painted, *oiled, After(bought)])
    ending.deliver(plan, assembled)
    return tuple(lean([_dry(step, plan.given) for step in plan.steps]))


def _metal(plan: Listing, bought: int) -> tuple[int | None, int | None]:
    """Parts and frame; the steps that weld and grind it."""
    sawn = metal.saw(plan, bought)
    waits = {mark: [sawn[one.stock]] for one in plan.given.saw if not one.timber for mark in one.marks}
    bent_stocks = list(dict.fromkeys(one.stock for one in plan.given.bent))
    tried = metal.trial(plan, [sawn[label] for label in bent_stocks if label in sawn] or [bought])
    for one in plan.given.bent:
        last = metal.bend(plan, one, [*waits.get(one.mark, [bought]), tried])
        trimmed = metal.trim(plan, one, [last])
        waits[one.mark] = [trimmed or last]
    coped = metal.cope(plan, waits)
    parts = list(dict.fromkeys([*coped, *(number for some in waits.values() for number in some)]))
    blocks = metal.blocks(plan, bought)
    tacked = frame.bench(plan, [*(parts or [bought]), *([blocks] if blocks else [])])
    welded = frame.weld(plan, tacked)
    return welded, frame.grind(plan, welded)


def _whole(given: Given) -> SetUp:
    """One set-up for everything, where the bench was not planned."""
    tacks = given.welded.tacks if given.welded else 0
    placing = ("Lay out and clamp all parts by the general arrangement; ties and braces last.",)
    return SetUp("the whole piece", placing, (), False, "", tacks, "General arrangement")


def _dry(step: Step, given: Given) -> Step:
    """A coat with drying oil keeps its caution about rags; one without has none."""
    if step.kind != "oil" or "rags" in given.true:
        return step
    return replace(step, cautions=tuple(one for one in step.cautions if "rags" not in one.words.lower()))


def lean(steps: Sequence[Step]) -> list[Step]:
    """The steps without waits that follow from others: what a step waits for, waits for its own already."""
    before: dict[int, set[int]] = {}
    found = []
    for step in steps:
        implied = set().union(*(before[one.number] for one in step.after))
        before[step.number] = implied | {one.number for one in step.after}
        found.append(replace(step, after=tuple(one for one in step.after if one.wait or one.number not in implied)))
    return found
