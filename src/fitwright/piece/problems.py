"""What is wrong with the members as drawn, in words that name the part and the coordinate."""

from __future__ import annotations

from fitwright.job.model import HardwareSpec, OpeningSpec, PartSpec
from fitwright.piece.ends import EndKey, Layout, Surroundings, held_beside, impossible_wish, section_points
from fitwright.piece.model import EndCut
from fitwright.piece.sticks import Stick
from fitwright.piece.wording import ToldError

END_WORDS = ("start", "finish")
EVEN_MM = 1e-6  # lengths nearer to one another are the same


class EndProblem(ToldError):
    """An end of a member that cannot be made as drawn."""


def wish_problems(sticks: list[Stick]) -> list[EndProblem]:
    """Ends that cannot be cut as the maker wants."""
    found = []
    for stick in sticks:
        for end in (0, 1):
            words = impossible_wish(stick, end) if not stick.body.path.closed else None
            if words is not None:
                found.append(_at_end(stick, end, "{name} " + words))
    return found


def loose_ends(layout: Layout, around: Surroundings) -> list[EndProblem]:
    """Ends that touch nothing and are not said to be free."""
    return [
        _loose(layout, key)
        for key, plan in layout.plans.items()
        if not plan.met and not held_beside(layout.sticks[key[0]], key[1], layout.sticks, around)
    ]


def deep_cuts(stick: Stick, ends: tuple[EndCut, EndCut]) -> list[EndProblem]:
    """Cuts that take more than the straight that they lie in, or all of a member that has no bend."""
    segments = stick.body.path.segments
    room, over = [segments[0].length, segments[-1].length], EVEN_MM
    if len(segments) == 1:
        over = -EVEN_MM  # where a bend follows nothing may be left of its leg, else something must be
        room = [segments[0].length + ends[1].shortest, segments[0].length + ends[0].shortest]
    return [
        _at_end(
            stick,
            end,
            "the cut at {end} takes {taken} off a straight of {room}: lengthen that leg or move the bend",
            taken=-ends[end].shortest,
            room=max(room[end], 0.0),
        )
        for end in (0, 1)
        if -ends[end].shortest > room[end] + over
    ]


def part_place(spec: PartSpec) -> str:
    """The part and where it stands in the file, to begin a message with."""
    kind = "hardware " if isinstance(spec, HardwareSpec) else "opening " if isinstance(spec, OpeningSpec) else ""
    return f"{kind}{spec.name} (line {spec.where.line})"


def _at_end(stick: Stick, end: int, text: str, **values: float) -> EndProblem:
    place = f"the {END_WORDS[end]} of {stick.name} at {{point}} (line {stick.spec.where.line})"
    point = stick.body.point_at(end)
    return EndProblem(text.replace("{end}", place).replace("{name}", place), point=point, **values)


def _loose(layout: Layout, key: EndKey) -> EndProblem:
    stick = layout.sticks[key[0]]
    points = section_points(stick.body, key[1])
    others = [(float(other.body.distance(points).min()), other.name) for other in layout.sticks if other is not stick]
    advice = "draw it on or into the part it meets, or say ends: free"
    if not others:
        return _at_end(stick, key[1], "{end} touches nothing: " + advice)
    gap, nearest = min(others)
    text = "{end} touches nothing; " + nearest + " is nearest, {gap} away: " + advice
    return _at_end(stick, key[1], text, gap=max(gap, 0.0))
