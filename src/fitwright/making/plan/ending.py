"""The last steps: assemble, deliver."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.making.plan import asking
from fitwright.making.plan.coats import hours_hard
from fitwright.making.plan.given import SET_IN, FinishGiven
from fitwright.making.plan.listing import Listing
from fitwright.making.plan.model import After, Number, Reading

AT_THE_PLACE = "anchor"  # of what is put on, the kind that goes into the wall or the floor there


def assemble(plan: Listing, after: Sequence[After]) -> int:
    """Put on what was bought and the panels; look at the whole."""
    given = plan.given
    things = [one for one in given.fitted if one.kind not in ("screw", AT_THE_PLACE) and one.threaded != SET_IN]
    numbers = [Number(one.what, f"{one.count} ×", one.count) for one in things]
    numbers += [Number(one.part, f"{one.count} ×", one.count) for one in given.panels]
    return plan.add(
        "assemble", "Assemble", sum(one.count for one in things) + sum(one.count for one in given.panels),
        numbers=numbers,
        setup=("Blanket on the floor; tools that do not mark the paint.",),
        checks=("It stands without rocking on a flat floor; level feet or shim the casters.",
                "Everything that moves moves; everything that is fixed is tight."),
        readings=[*(Reading(f"{name} over all", plan.style.length(size)) for name, size in given.sizes),
                  Reading("gap under the foot that hangs")],
        after=after, sheet="Hardware list", asks=asking.of_feet(given),
    )  # fmt: skip


def deliver(plan: Listing, assembled: int) -> int:
    """Bring it to its place and set it up, once the paint is hard."""
    given = plan.given
    painted = [step.number for step in plan.steps if step.kind in ("prime", "paint")]
    hours = hours_hard(given.finish)
    anchors = [one for one in given.fitted if one.kind == AT_THE_PLACE]
    waits = [After(assembled), *(After(number, round(60 * hours), "paint to be hard") for number in painted[-1:])]
    return plan.add(
        "deliver", "Deliver and set up", 0,
        numbers=[Number("weight", plan.style.weight(given.mass), 0),
                 *(Number(one.what, f"{one.count} ×", one.count) for one in anchors)],
        extra=plan.rates["assemble"].each * sum(one.count for one in anchors),
        setup=("Blankets, straps, feet and shims, touch-up paint, a level, the care notes.",),
        checks=(*_soft(given.finish), "Gaps on all sides as the place sheet says.",
                "Client has seen it, tried it, and has the care notes."),
        readings=(Reading("gap left"), Reading("gap right"), Reading("gap behind")),
        after=waits, hands=2 if "heavy" in given.true else 1, sheet="In its place",
        asks=asking.of_place(given),
    )  # fmt: skip


def _soft(finish: FinishGiven | None) -> list[str]:
    """What the client is told of oil that is dry but not hard yet."""
    oils = [coat for coat in finish.coats if coat.role == "oil"] if finish is not None else []
    return [f"Tell the client: no water on the {oils[-1].name} for {oils[-1].hard / 24:.0f} days."] if oils else []
