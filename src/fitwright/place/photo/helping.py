"""Which further mark or length would help most: candidates tried on the covariance, without marking them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fitwright.job.marks import AXES, Tube
from fitwright.place.photo.lens import Lens
from fitwright.place.photo.scene import known_name, spots_of
from fitwright.place.photo.solving import LIKELY, Measured, Solved
from fitwright.place.photo.turning import turn
from fitwright.place.photo.unknowns import BARREL, CAMERA, CENTRE, LOG_FOCAL, LOG_FOCAL_BOUNDS, TURN
from fitwright.place.photo.usual import CENTRE_SIGMA, EXIF_SIGMA, usual_click

Floats = NDArray[np.float64]

TAPE_SIGMA = 1.0
"""Spread of a length measured with a tape on the real thing [mm]; common practice."""
STRAIGHTENED_SIGMA = 0.01
"""Spread of the bow once three straight edges are marked along their length: what they gave on test pictures."""
WORTH = 0.15
"""Part of the plus or minus that a candidate has to take away to be worth saying."""
MOST = 3
EDGE_PART = 0.4
PLACES = ((0.15, 0.15), (0.85, 0.15), (0.15, 0.85), (0.85, 0.85), (0.5, 0.1), (0.5, 0.9), (0.1, 0.5), (0.9, 0.5))
PLACE_WORDS = (
    "top left", "top right", "bottom left", "bottom right", "top", "bottom", "left", "right",
)  # fmt: skip
STEP = 1e-5
TINY = 1e-12


@dataclass(frozen=True)
class Advice:
    """What to add, the measure that it helps, and its plus or minus (95 %) now and then [mm]."""

    text: str
    measure: str
    now: float
    then: float


@dataclass(frozen=True)
class Candidate:
    """What could be added: how it changes with the unknowns, (size,) or (k, size) for k equations, and its spread."""

    text: str
    rates: Floats
    sigma: float


def advice(solved: Solved) -> tuple[Advice, ...]:
    """What would help the weakest measure most, the best first; nothing when little would.

    Holds to first order: the spread after adding an equation does not depend on what it will say. Edges are tried at
    eight places of the picture, known lengths at all measures, taken with a tape.
    """
    weak = weakest(solved)
    if weak is None or weak.plus_minus is None:
        return ()
    gradient = solved.estimate.value(weak.name, weak.quantity)[2]
    tried = [
        Advice(one.text, weak.name, weak.plus_minus, LIKELY * spread_with(solved, gradient, one))
        for one in candidates(solved, weak)
    ]
    best: dict[str, Advice] = {}
    for one in sorted(tried, key=lambda one: one.then):
        if one.then < (1 - WORTH) * one.now:
            best.setdefault(one.text.split(" at the ")[0], one)
    return tuple(best.values())[:MOST]


def weakest(solved: Solved) -> Measured | None:
    """The measure whose plus or minus is the largest part of it."""
    sized = [one for one in solved.measures if one.value]
    return max(sized, key=_part, default=None)


def _part(one: Measured) -> float:
    return (one.plus_minus or 0.0) / (one.value or 1.0)


def candidates(solved: Solved, weak: Measured) -> Iterator[Candidate]:
    """Everything that could be added for a measure."""
    yield from _again(solved, weak)
    yield from _lengths(solved, weak)
    yield from _camera(solved)
    for axis in AXES:
        yield from _edges(solved, axis)


def spread_with(solved: Solved, gradient: Floats, candidate: Candidate) -> float:
    """The spread of a measure once equations are added (the covariance updated by their rank: Woodbury's identity)."""
    covariance, rates = solved.estimate.covariance, np.atleast_2d(candidate.rates)
    moved = covariance @ rates.T
    told = gradient @ moved
    gain = told @ np.linalg.solve(rates @ moved + candidate.sigma**2 * np.eye(len(rates)), told)
    return float(np.sqrt(max(float(gradient @ covariance @ gradient - gain), 0.0)))


def _again(solved: Solved, weak: Measured) -> Iterator[Candidate]:
    """The weak measure's own spots marked a second time, at other places along the same bend, outline or member."""
    scene = solved.estimate.state.unknowns.scene
    spots = [spot for side in weak.quantity.sides for spot in side] if isinstance(weak.quantity, Tube) else []
    points = np.array([scene.at(spot) for spot in (*spots_of(weak.quantity), *spots)])
    clicks = solved.estimate.equations.rates(solved.estimate.state.row)[: 2 * len(scene.names)]
    rows = clicks.reshape(len(scene.names), 2, -1)[points].reshape(2 * len(points), -1)
    yield Candidate(f"mark {weak.name} again at as many other spots", rows, solved.estimate.raised)


def _lengths(solved: Solved, weak: Measured) -> Iterator[Candidate]:
    for one in solved.measures:
        if one.name != weak.name and one.value:
            rates = solved.estimate.value(one.name, one.quantity)[2]
            yield Candidate(f"give {one.name} as a second known length", rates, TAPE_SIGMA)
    for name, known in solved.photo.known.items():
        if name not in solved.ignored and known.sigma > 2 * TAPE_SIGMA:
            rates = solved.estimate.value(known_name(name), known.quantity)[2]
            yield Candidate(f"measure {name} again to the millimetre", rates, TAPE_SIGMA)


def _camera(solved: Solved) -> Iterator[Candidate]:
    expected, unit = solved.estimate.equations.expected, np.eye(solved.estimate.state.unknowns.size)
    if expected.log_focal_sigma > 2 * EXIF_SIGMA:
        text = "use the camera's own file, which says the focal length, or say it under lens"
        yield Candidate(text, unit[LOG_FOCAL], EXIF_SIGMA)
    if expected.barrel_sigma > 2 * STRAIGHTENED_SIGMA:
        text = "mark three or more straight edges along their length, far from the middle"
        yield Candidate(text, unit[BARREL], STRAIGHTENED_SIGMA)
    if solved.photo.cropped:
        half = solved.estimate.state.lens.half_diagonal
        uncut = np.sqrt(0.5) * (unit[CENTRE.start] + unit[CENTRE.start + 1])
        yield Candidate("use the picture before it was cropped", uncut, CENTRE_SIGMA * expected.centre_sigma / half)


def _edges(solved: Solved, axis: str) -> Iterator[Candidate]:
    """A long edge along an axis at several places: its plane through the camera has to contain the direction."""
    width, height = solved.size
    click = solved.photo.click or usual_click(width, height)
    length = EDGE_PART * min(width, height)
    for place, words in zip(PLACES, PLACE_WORDS, strict=True):
        start = np.array([place[0] * width, place[1] * height])
        finish = _along(solved, AXES.index(axis), start, length)
        if finish is not None:
            rates, sigma = _edge_rates(solved, AXES.index(axis), start, finish, click)
            yield Candidate(f"mark another long edge along {axis} at the {words} of the picture", rates, sigma)


def _along(solved: Solved, axis: int, start: Floats, length: float) -> Floats | None:
    """Where an edge along an axis that begins at a pixel ends, so far away in the picture, inside it."""
    state = solved.estimate.state
    ray, toward = state.lens.rays(start[None])[0], state.rotation[:, axis]
    near = state.lens.drawn((ray + 1e-3 * toward)[None])[0] - start
    size = float(np.linalg.norm(near))
    if not np.isfinite(size) or size < 1e-9:
        return None
    middle = np.array(solved.size) / 2
    sign = 1.0 if near @ (middle - start) >= 0 else -1.0
    finish: Floats = start + sign * length * near / size
    return finish


def _edge_rates(solved: Solved, axis: int, start: Floats, finish: Floats, click: float) -> tuple[Floats, float]:
    """How an edge's miss of its direction changes with the camera; and its spread from the clicks at its two ends."""
    row = solved.estimate.state.row[:CAMERA].copy()
    rates = np.zeros(solved.estimate.state.unknowns.size)
    for k in range(CAMERA):
        ahead, behind = row.copy(), row.copy()
        ahead[k] += STEP
        behind[k] -= STEP
        rates[k] = (_miss(solved, ahead, axis, start, finish) - _miss(solved, behind, axis, start, finish)) / (2 * STEP)
    across = np.array([-(finish - start)[1], (finish - start)[0]]) / np.linalg.norm(finish - start)
    moved = _miss(solved, row, axis, start, finish + across) - _miss(solved, row, axis, start, finish)
    return rates, max(abs(moved) * click * float(np.sqrt(2)), 1e-9)


def _miss(solved: Solved, camera: Floats, axis: int, start: Floats, finish: Floats) -> float:
    """How far a direction is out of the plane through the camera and two pixels [rad]."""
    unknowns = solved.estimate.state.unknowns
    width, height = solved.size
    middle = np.array([(width - 1) / 2, (height - 1) / 2])
    centre = middle + unknowns.lens.half_diagonal * camera[CENTRE]
    lens: Lens = replace(
        unknowns.lens,
        focal=float(np.exp(np.clip(camera[LOG_FOCAL], *LOG_FOCAL_BOUNDS))),
        centre=(float(centre[0]), float(centre[1])),
        barrel=float(camera[BARREL]),
    )
    rays = lens.rays(np.array([start, finish]))
    normal = np.cross(rays[0], rays[1])
    return float(normal @ (turn(camera[TURN]) @ unknowns.rotation)[:, axis] / max(float(np.linalg.norm(normal)), TINY))
