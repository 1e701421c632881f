"""Where marks and measures lie on the picture, as lines to draw: edges, and measures along what they say."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from fitwright.job.marks import AXES, Arc, Height, Length, Quantity, Spacing, Tube
from fitwright.place.photo.scene import known_name
from fitwright.place.photo.solving import Solved
from fitwright.place.photo.unknowns import State

Floats = NDArray[np.float64]

BETWEEN = 9
TICK_SHARE = 0.008
"""Of the picture's diagonal: the ticks of a row of repeated members."""


@dataclass(frozen=True)
class ShownMark:
    """Lines (k, 2) [px] of one mark; lead: thin ones from a measure to the spots it is taken from.

    at (2,): where its name is written.
    """

    kind: Literal["edge", "known", "measure"]
    name: str
    along: str
    lines: tuple[Floats, ...]
    lead: tuple[Floats, ...]
    at: Floats


def shown_marks(solved: Solved) -> tuple[ShownMark, ...]:
    """Every edge, known length and measure of a solved photo, in that order."""
    photo, state = solved.photo, solved.estimate.state
    edges = [_edge(solved, edge.along, edge.spots, f"edge {number}") for number, edge in enumerate(photo.edges, 1)]
    known = [
        _quantity(state, known_name(name), "known", name, one.quantity, solved)
        for name, one in photo.known.items()
        if name not in solved.ignored
    ]
    measures = [_quantity(state, name, "measure", name, one, solved) for name, one in photo.measures.items()]
    return (*edges, *known, *measures)


def _edge(solved: Solved, along: str, spots: tuple[str, ...], name: str) -> ShownMark:
    pixels = np.array([(solved.photo.spots[spot].u, solved.photo.spots[spot].v) for spot in spots])
    far = pixels - pixels.mean(axis=0)
    order = np.argsort(far @ np.linalg.svd(far)[2][0])
    line = pixels[order]
    return ShownMark("edge", name, along, (line,), (), line[len(line) // 2])


def _quantity(
    state: State, full: str, kind: Literal["known", "measure"], name: str, quantity: Quantity, solved: Solved
) -> ShownMark:
    lines, lead = _lines(state, full, quantity, solved)
    first = lines[0]
    return ShownMark(kind, name, getattr(quantity, "along", None) or "", lines, lead, first[len(first) // 2])


def _lines(
    state: State, full: str, quantity: Quantity, solved: Solved
) -> tuple[tuple[Floats, ...], tuple[Floats, ...]]:
    scene = state.unknowns.scene
    match quantity:
        case Length(start=start, finish=finish):
            toward = quantity.along or quantity.across
            return _span(state, state.points[scene.at(start)], state.points[scene.at(finish)], toward)
        case Height(top=top, foot=foot):
            return _span(state, state.points[scene.at(foot)], state.points[scene.at(top)], "z")
        case Spacing(spots=spots):
            pixels = np.array([(solved.photo.spots[spot].u, solved.photo.spots[spot].v) for spot in spots])
            return (pixels, *_ticks(state, pixels)), ()
        case Arc():
            return (_arc(state, full),), ()
        case Tube(sides=sides):
            both = [np.array([(solved.photo.spots[s].u, solved.photo.spots[s].v) for s in side]) for side in sides]
            return (_across(*both),), tuple(both)


def _span(
    state: State, start: Floats, finish: Floats, direction: str | None
) -> tuple[tuple[Floats, ...], tuple[Floats, ...]]:
    """From a point as far as a length goes in its direction, and on from there to where it was marked."""
    if direction is None:
        return (_drawn(state, start, finish),), ()
    toward = state.direction(direction)
    end = start + (finish - start) @ toward / (toward @ toward) * toward
    aside = float(np.linalg.norm(finish - end)) > 1e-6 * float(np.linalg.norm(finish))
    return (_drawn(state, start, end),), ((_drawn(state, end, finish),) if aside else ())


def _drawn(state: State, start: Floats, finish: Floats) -> Floats:
    """A straight line in space as the lens draws it (k, 2)."""
    part = np.linspace(0, 1, BETWEEN)[:, None]
    return _on_picture(state, start + part * (finish - start))


def _arc(state: State, full: str) -> Floats:
    arc = state.unknowns.scene.rounds[full]
    centre, radius = state.coordinates[list(arc.centre)], state.coordinates[arc.radius]
    gaps = state.points[arc.points][:, arc.others] - centre
    angles = np.unwrap(np.arctan2(gaps[:, 1], gaps[:, 0]))
    swept = np.linspace(angles.min(), angles.max(), 3 * BETWEEN)
    places = np.repeat(state.points[arc.points[:1]], len(swept), axis=0)
    places[:, arc.others[0]] = centre[0] + radius * np.cos(swept)
    places[:, arc.others[1]] = centre[1] + radius * np.sin(swept)
    return _on_picture(state, places)


def _on_picture(state: State, places: Floats) -> Floats:
    drawn = state.lens.drawn(places @ state.rotation.T)
    found: Floats = drawn[np.isfinite(drawn).all(axis=1)]
    return found if len(found) > 1 else np.zeros((2, 2))


def _ticks(state: State, pixels: Floats) -> tuple[Floats, ...]:
    toward = (pixels[-1] - pixels[0]) / max(float(np.linalg.norm(pixels[-1] - pixels[0])), 1e-9)
    across = 2 * state.lens.half_diagonal * TICK_SHARE * np.array([-toward[1], toward[0]])
    return tuple(np.array([one - across, one + across]) for one in pixels)


def _across(one: Floats, other: Floats) -> Floats:
    """From the middle of one outline square over to the other."""
    middle = one.mean(axis=0)
    toward = other[-1] - other[0]
    foot = other[0] + (middle - other[0]) @ toward / max(float(toward @ toward), 1e-9) * toward
    return np.array([middle, foot])


AXES_IN_WORDS = dict(zip(AXES, ("left to right", "front to back", "upwards"), strict=True))
