"""Steps of the finish: clean, prime, paint, send out, oil."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.making.plan.given import CoatGiven, FinishGiven
from fitwright.making.plan.listing import Listing
from fitwright.making.plan.model import After, AskedReading, Number, Reading

KIND_OF_ROLE = {"primer": "prime", "top": "paint", "oil": "oil"}
DAY_MIN = 24 * 60
AIR = (Reading("air"), Reading("humidity"), Reading("steel"), Reading("dew point"))


def metal_finish(plan: Listing, after: Sequence[int | None]) -> list[After]:
    """Clean and coat the metal; returns what assembly and delivery wait for, hard paint last."""
    finish = plan.given.finish
    if finish is None or not finish.metal:
        return [After(number) for number in after if number is not None]
    cleaned = plan.add(
        "clean", "Clean and degrease the metal", finish.metal,
        numbers=[Number("abrasive, all over", str(grit)) for grit in finish.metal_grits],
        setup=[line for line in finish.cleaning if "oil all faces" not in line],
        checks=("A white rag stays white.", "From here on gloves only; prime the same day."),
        after=after, sheet=finish.sheet,
    )  # fmt: skip
    if finish.sent:
        return [_sent(plan, finish, cleaned)]
    return _coats(plan, finish, [coat for coat in finish.coats if coat.metal], After(cleaned))


def timber_finish(plan: Listing, after: Sequence[int]) -> list[After]:
    """Coat the timber; returns what assembly waits for."""
    finish = plan.given.finish
    coats = [coat for coat in finish.coats if not coat.metal] if finish is not None else []
    if finish is None or not coats:
        return [After(number) for number in after]
    return _coats(plan, finish, coats, *(After(number) for number in after))


def _sent(plan: Listing, finish: FinishGiven, cleaned: int) -> After:
    sent = plan.add(
        "send", f"Take it to be done: {finish.sent}", 0,
        numbers=[Number("days away, weekends included", str(_calendar_days(finish.sent_days)), 0)],
        setup=("Mask threads and inserts; ask for vents in closed tubes; say which face shows.",),
        checks=("Count the parts out, and in again.",), after=(cleaned,), sheet=finish.sheet,
    )  # fmt: skip
    return After(sent, _calendar_days(finish.sent_days) * DAY_MIN, finish.sent)


def _calendar_days(working: int) -> int:
    return working + 2 * (working // 5)


def _coats(plan: Listing, finish: FinishGiven, coats: Sequence[CoatGiven], *first: After) -> list[After]:
    waits = list(first)
    for coat in coats:
        number = _coat(plan, finish, coat, waits)
        last = coat is coats[-1]
        hours = coat.handle if last else coat.recoat
        waits = [After(number, round(60 * hours), f"{coat.name} to dry" + (", to be handled" if last else ""))]
    return waits if coats else list(first)


def _coat(plan: Listing, finish: FinishGiven, coat: CoatGiven, after: Sequence[After]) -> int:
    kind = KIND_OF_ROLE[coat.role]
    what = "metal" if coat.metal else "timber"
    return plan.add(
        kind, f"{_verb(kind)} the {what}: coat {coat.number}, {coat.name}", coat.area,
        numbers=[Number("quantity, loss included", coat.quantity, 0),
                 *([Number("wet film", coat.wet, 0)] if coat.wet else []),
                 Number("hours until the next coat", f"{coat.recoat:.0f}", 0),
                 Number("hours until it is hard", f"{coat.hard:.0f}", 0)],
        setup=_how(coat, finish),
        checks=("Look along it against the light: runs, bare edges, the far side of tubes.",) if kind != "oil"
        else ("Nothing wet left on the surface after twenty minutes.",),
        readings=AIR if coat.metal else AIR[:2], after=after, sheet=finish.sheet,
        asks=(AskedReading("paint thickness"),) if coat.metal and coat.role == "top" else (),
        about=f"the {what}, coat {coat.number}",
    )  # fmt: skip


def _verb(kind: str) -> str:
    return {"prime": "Prime", "paint": "Paint", "oil": "Oil"}[kind]


def _how(coat: CoatGiven, finish: FinishGiven) -> list[str]:
    if coat.role == "oil":
        return ["Put it on wet, wait fifteen minutes, wipe all of it off again; all faces and the ends."]
    if not coat.metal:
        return ["Between coats, rub down lightly with fine paper and wipe the dust off."]
    return [finish.dew, "Edges and welds first with the brush, then the rest; hang it so that you reach all round."]


def hours_hard(finish: FinishGiven | None) -> float:
    """Hours from the last coat of paint until it is hard; 0 without paint. Oil is told to the client instead."""
    paints = [coat for coat in finish.coats if coat.role != "oil"] if finish is not None else []
    return max((coat.hard for coat in paints[-1:]), default=0.0)
