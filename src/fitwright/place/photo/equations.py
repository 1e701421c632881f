"""What the unknowns have to satisfy: clicks, statements, lengths that are known, and what is expected of a camera.

Every equation is a difference divided by its spread, so that the sum of squares is twice the negative logarithm of the
probability of the marks: its least is the most likely camera and piece.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from fitwright.job.marks import Known
from fitwright.place.photo.lens import drawing_in
from fitwright.place.photo.quantities import valued
from fitwright.place.photo.turning import crossing, turn_rate
from fitwright.place.photo.unknowns import BARREL, CAMERA, CENTRE, LOG_FOCAL, TURN, State, Unknowns
from fitwright.place.photo.usual import Expected

Floats = NDArray[np.float64]
Block = tuple[Floats, Floats]

STIFF = 1e-5
"""Spread of what is true by statement, as a part of the distance: a hundredth of what a click can tell."""
GAUGE = 1e-3
NEAREST = 1e-6


@dataclass(frozen=True)
class Equations:
    """All equations of a picture.

    distances (n,): how far the points are [mm], about. gauges: points whose distance is set, no length being known.
    level: spread of the camera's turn from that of the start [rad], where the marks leave it open.
    """

    unknowns: Unknowns
    expected: Expected
    known: Sequence[tuple[str, Known]]
    distances: Floats
    gauges: Sequence[int]
    level: float
    _last: dict[bytes, Block] = field(default_factory=dict)

    def misses(self, row: Floats) -> Floats:
        """How far each equation is missed (m,), in spreads."""
        return self._both(row)[0]

    def rates(self, row: Floats) -> Floats:
        """How that changes with each unknown (m, size)."""
        return self._both(row)[1]

    def _both(self, row: Floats) -> Block:
        key = row.tobytes()
        if key not in self._last:
            self._last.clear()
            blocks = self.blocks(self.unknowns.state(row))
            self._last[key] = (np.concatenate([b[0] for b in blocks]), np.vstack([b[1] for b in blocks]))
        return self._last[key]

    def blocks(self, state: State) -> list[Block]:
        """The equations, kind by kind: clicks, camera, lengths, statements."""
        return [
            _clicks(state),
            *(_along_straight(state, number) for number in range(len(state.unknowns.scene.straights))),
            self._camera(state),
            *self._lengths(state),
            *self._statements(state),
        ]

    def _camera(self, state: State) -> Block:
        half = state.unknowns.lens.half_diagonal
        sigmas = np.array(
            [self.expected.log_focal_sigma, *[self.expected.centre_sigma / half] * 2, self.expected.barrel_sigma]
            + [self.level] * 3
        )
        width, height = state.unknowns.lens.width, state.unknowns.lens.height
        centre = (np.array(self.expected.centre) - [(width - 1) / 2, (height - 1) / 2]) / half
        usual = np.array([self.expected.log_focal, *centre, self.expected.barrel, 0.0, 0.0, 0.0])
        rates = np.zeros((CAMERA, state.unknowns.size))
        rates[:, :CAMERA] = np.diag(1 / sigmas)
        return (state.row[:CAMERA] - usual) / sigmas, rates

    def _lengths(self, state: State) -> list[Block]:
        found = []
        for name, known in self.known:
            value, gradient = valued(name, known.quantity, state)
            found.append((np.array([(value - known.value) / known.sigma]), gradient[None] / known.sigma))
        for point in self.gauges:
            place, away = state.points[point], self.distances[point]
            size = float(np.linalg.norm(place))
            rates = np.zeros((1, state.unknowns.size))
            rates[0, CAMERA + state.unknowns.scene.index[point]] = place / size / (GAUGE * away)
            found.append((np.array([(size / away - 1) / GAUGE]), rates))
        return found

    def _statements(self, state: State) -> list[Block]:
        scene, away = state.unknowns.scene, float(np.median(self.distances)) if len(self.distances) else 1.0
        blocks = [_parallel(state, one.name, STIFF * away) for one in scene.slanted]
        blocks += [_on_circle(state, name, STIFF * away) for name in scene.rounds]
        return blocks + [_in_step(state, name, STIFF * away) for name in scene.rows]


def _clicks(state: State) -> Block:
    """Where the points are drawn, against where they were clicked, u and v of one point after the other."""
    scene = state.unknowns.scene
    seen = state.points @ state.rotation.T
    drawn, by_ray, by_lens = _drawn(state, seen)
    rates = np.zeros((len(seen), 2, state.unknowns.size))
    rates[:, :, :4] = by_lens
    rates[:, :, TURN] = -by_ray @ crossing(seen) @ turn_rate(state.row[TURN])
    points = np.arange(len(seen))
    for axis, unknown in enumerate(scene.index.T):
        rates[points, :, CAMERA + unknown] = by_ray @ state.rotation[:, axis]
    misses = (drawn - scene.pixels) / scene.sigmas[:, None]
    rates /= scene.sigmas[:, None, None]
    return misses.ravel(), rates.reshape(-1, state.unknowns.size)


def _along_straight(state: State, number: int) -> Block:
    """Clicks along an edge that is a straight line and no more, on the plane at distance 1 before the camera."""
    straight, where = state.unknowns.scene.straights[number], state.unknowns.straights[number]
    angle, away, *_ = state.row[where]
    along = state.row[where][2:]
    across, toward = np.array([np.cos(angle), np.sin(angle), 0.0]), np.array([-np.sin(angle), np.cos(angle), 0.0])
    seen = away * across + along[:, None] * toward + np.array([0.0, 0.0, 1.0])
    drawn, by_ray, by_lens = _drawn(state, seen)
    rates = np.zeros((len(seen), 2, state.unknowns.size))
    rates[:, :, :4] = by_lens
    rates[:, :, where.start] = (by_ray @ (away * toward - along[:, None] * across)[:, :, None])[:, :, 0]
    rates[:, :, where.start + 1] = by_ray @ across
    points = np.arange(len(seen))
    rates[points, :, where.start + 2 + points] = by_ray @ toward
    misses = (drawn - straight.pixels) / straight.sigmas[:, None]
    rates /= straight.sigmas[:, None, None]
    return misses.ravel(), rates.reshape(-1, state.unknowns.size)


def _drawn(state: State, seen: Floats) -> tuple[Floats, Floats, Floats]:
    """Pixels (n, 2) of points before the camera (n, 3), and how they change with those and with the lens.

    Returns pixels, (n, 2, 3), (n, 2, 4).
    """
    half, lens = state.unknowns.lens.half_diagonal, state.lens
    depth = np.where(np.abs(seen[:, 2]) < NEAREST, NEAREST, seen[:, 2])
    straight = seen[:, :2] / depth[:, None] * (lens.focal / half)
    scale, by_square, by_barrel = drawing_in((straight**2).sum(axis=1), lens.barrel)
    by_straight = (
        scale[:, None, None] * np.eye(2) + 2 * by_square[:, None, None] * straight[:, :, None] * straight[:, None]
    )
    by_depth = -straight / depth[:, None]
    straight_by_seen = np.zeros((len(seen), 2, 3))
    straight_by_seen[:, 0, 0] = straight_by_seen[:, 1, 1] = lens.focal / half / depth
    straight_by_seen[:, :, 2] = by_depth
    by_lens = np.zeros((len(seen), 2, 4))
    by_lens[:, :, LOG_FOCAL] = (by_straight @ straight[:, :, None])[:, :, 0]
    by_lens[:, :, CENTRE] = np.eye(2)
    by_lens[:, :, BARREL] = by_barrel[:, None] * straight
    drawn = np.array(lens.centre) + half * scale[:, None] * straight
    return drawn, half * by_straight @ straight_by_seen, half * by_lens


def _parallel(state: State, name: str, sigma: float) -> Block:
    """Pairs of points lie along their direction: the cross product is nothing; the direction has length 1."""
    scene = state.unknowns.scene
    pairs = next(one.pairs for one in scene.slanted if one.name == name)
    where = state.unknowns.slant(name)
    toward = state.row[where]
    gaps = state.points[pairs[:, 1]] - state.points[pairs[:, 0]]
    rates = np.zeros((len(pairs), 3, state.unknowns.size))
    by_gap = -crossing(toward)
    for number, (one, other) in enumerate(pairs):
        for axis in range(3):
            rates[number, :, CAMERA + scene.index[other, axis]] += by_gap[:, axis]
            rates[number, :, CAMERA + scene.index[one, axis]] -= by_gap[:, axis]
    rates[:, :, where] += crossing(gaps)
    unit = np.zeros((1, state.unknowns.size))
    unit[0, where] = 2 * toward / GAUGE
    misses = np.append(np.cross(gaps, toward).ravel() / sigma, (toward @ toward - 1) / GAUGE)
    return misses, np.vstack([rates.reshape(-1, state.unknowns.size) / sigma, unit])


def _on_circle(state: State, name: str, sigma: float) -> Block:
    """Points on an arc are as far from its centre as its radius."""
    scene = state.unknowns.scene
    arc = scene.rounds[name]
    centre = state.coordinates[list(arc.centre)]
    gaps = state.points[arc.points][:, arc.others] - centre
    sizes = np.maximum(np.linalg.norm(gaps, axis=1), NEAREST)
    rates = np.zeros((len(gaps), state.unknowns.size))
    points = np.arange(len(gaps))
    for k, axis in enumerate(arc.others):
        rates[points, CAMERA + scene.index[arc.points, axis]] += gaps[:, k] / sizes
        rates[:, CAMERA + arc.centre[k]] -= gaps[:, k] / sizes
    rates[:, CAMERA + arc.radius] = -1.0
    return (sizes - state.coordinates[arc.radius]) / sigma, rates / sigma


def _in_step(state: State, name: str, sigma: float) -> Block:
    """Repeated members are in even steps along their row."""
    row = state.unknowns.scene.rows[name]
    count = np.arange(len(row.coordinates))
    misses = state.coordinates[row.coordinates] - state.coordinates[row.first] - count * state.coordinates[row.step]
    rates = np.zeros((len(count), state.unknowns.size))
    rates[count, CAMERA + row.coordinates] = 1.0
    rates[:, CAMERA + row.first] -= 1.0
    rates[:, CAMERA + row.step] -= count
    return misses / sigma, rates / sigma
