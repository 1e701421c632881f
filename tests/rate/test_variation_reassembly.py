"""The sensitivities against finite differences of a portal put together again in full geometry.

The other way has nothing of the linear one but its mesh and its stiffnesses of clamps and hands: a tube really bent to
another angle or marked at another place, a rail really cut longer, large displacements and turns (each element takes
its strain in axes that go with it), found by least squares of the energy; what the welds froze is kept as places in the
turned axes of the tube; released, the frame finds its shape anew. Then the width between its feet is measured.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
import pytest
from scipy.optimize import least_squares

from fitwright.job import parse_job
from fitwright.mechanics.framing import framed
from fitwright.mechanics.model import Floats, Ints
from fitwright.mechanics.variation import Variation, variation
from fitwright.mechanics.variation.loose import Meeting
from fitwright.mechanics.variation.seats import CLAMP, PRESS, PRESS_TURN
from fitwright.piece import build

RADIUS, WIDTH, TOP, FOOT, RAIL = 100.0, 700.0, 900.0, 20.0, 600.0
PORTAL = f"""
job: {{name: Portal, unit: mm}}
stock: {{tube: round tube 30 x 2}}
parts:
  hoop:
    stock: tube
    path: [[0, 0, {FOOT}], [0, 0, {TOP}], [{WIDTH}, 0, {TOP}], [{WIDTH}, 0, {FOOT}]]
    radius: {RADIUS}
  rail: {{stock: tube, path: [[0, 0, {RAIL}], [{WIDTH}, 0, {RAIL}]]}}
  foot: {{foot: {{label: plug, height: {FOOT}, diameter: 30}}, at: [[0, 0, {FOOT}], [{WIDTH}, 0, {FOOT}]]}}
"""
HOOP, BAR = 0, 1


@dataclass(frozen=True)
class Errors:
    """How this portal is made: bends [rad], their places, the last leg, the rail, stops [mm], welds [mm, rad]."""

    bend: tuple[float, float] = (0.0, 0.0)
    place: tuple[float, float] = (0.0, 0.0)
    leg: float = 0.0
    rail: float = 0.0
    stop: dict[int, float] = field(default_factory=dict)
    shrink: float = 0.0
    pull: tuple[float, float] = (0.0, 0.0)


def made(errors: Errors, s: Floats) -> tuple[Floats, Floats]:
    """Points (n, 2) in X and Z and directions (n,) of the bent tube as made, at places s (n,) of the drawn one.

    Material keeps its place on the tube: bends lie where they were marked and turn the same arc further.
    """
    straight, arc = TOP - RADIUS - FOOT, RADIUS * np.pi / 2
    across = WIDTH - 2 * RADIUS
    drawn = np.array([straight, arc, across, arc, straight])
    real = drawn + np.array([errors.place[0], 0, errors.place[1] - errors.place[0], 0, errors.leg - errors.place[1]])
    turns = np.array([0, -(np.pi / 2 + errors.bend[0]), 0, -(np.pi / 2 + errors.bend[1]), 0])
    starts = np.concatenate([[0], np.cumsum(drawn)])
    points, ways = np.empty((len(s), 2)), np.empty(len(s))
    at, way = np.array([0.0, FOOT]), np.pi / 2
    for k in range(5):
        here = (s >= starts[k] - 1e-6) & (s <= starts[k + 1] + 1e-6)
        part = np.append((s[here] - starts[k]) / drawn[k], 1.0)
        turned = part * turns[k]
        chord = 2 * real[k] / turns[k] * np.sin(turned / 2) if turns[k] else part * real[k]
        middle = way + turned / 2
        there = at + chord[:, None] * np.column_stack([np.cos(middle), np.sin(middle)])
        points[here], ways[here] = there[:-1], (way + turned)[:-1]
        at, way = there[-1], way + turned[-1]
    return points, ways


class Portal:
    """The portal of the variation, in the plane, with large displacements."""

    def __init__(self, setting: Variation) -> None:
        parts = setting.parts
        self.parts, self.stops = parts, setting.stages[0].stops
        self.n = parts.model.node_count
        self.drawn = parts.model.nodes[:, [0, 2]]
        self.pairs = parts.model.elements
        model = parts.model
        length = np.linalg.norm(np.diff(self.drawn[self.pairs], axis=1)[:, 0], axis=1)
        self.stretch = np.sqrt(model.e * model.area / length)
        self.bending = np.sqrt(model.e * model.i_z / model.softening / length)
        self.hoop: Ints = parts.nodes_of[HOOP]
        self.bar: Ints = parts.nodes_of[BAR]

    def free_shape(self, errors: Errors) -> tuple[Floats, Floats]:
        """Points (n, 2) and turnings (n,) of both parts without stress, against the drawn ones."""
        points, turned = self.drawn.copy(), np.zeros(self.n)
        s = self.parts.s[self.hoop]
        points[self.hoop], ways = made(errors, s)
        turned[self.hoop] = ways - made(Errors(), s)[1]
        middle = self.drawn[self.bar].mean(axis=0)
        points[self.bar] = middle + (self.drawn[self.bar] - middle) * (
            1 + errors.rail / np.ptp(self.drawn[self.bar][:, 0])
        )
        return points, turned

    def strains(self, free: tuple[Floats, Floats], points: Floats, turned: Floats) -> Floats:
        """Residuals whose squares are twice the energy of the elements, axes going with each."""
        a, b = self.pairs.T
        leg, leg0 = points[b] - points[a], free[0][b] - free[0][a]
        longer = np.hypot(*leg.T) - np.hypot(*leg0.T)
        swung = np.arctan2(leg0[:, 0] * leg[:, 1] - leg0[:, 1] * leg[:, 0], np.einsum("ij,ij->i", leg0, leg))
        at_a, at_b = (turned - free[1])[a] - swung, (turned - free[1])[b] - swung
        return np.concatenate(
            [self.stretch * longer, self.bending * (at_b - at_a), np.sqrt(3) * self.bending * (at_a + at_b)]
        )

    def joint(self, meeting: Meeting, points: Floats, turned: Floats) -> Floats:
        """Where the second part lies from the first at a joint, along and run as drawn [mm], and its turn [rad]."""
        middle = self.drawn[list(meeting.nodes)].mean(axis=0)
        first, second = (points[n] + rotated(middle - self.drawn[n], turned[n]) for n in meeting.nodes)
        gap = second - first
        return np.array(
            [
                gap @ meeting.axes[0][[0, 2]],
                gap @ meeting.axes[1][[0, 2]],
                turned[meeting.nodes[1]] - turned[meeting.nodes[0]],
            ]
        )

    def fitted(self, errors: Errors) -> tuple[Floats, Floats]:
        """Clamped to the stops, drawn together by hand."""
        free = self.free_shape(errors)
        hand = np.sqrt([PRESS, PRESS, PRESS_TURN])

        def energy(x: Floats) -> Floats:
            points, turned = x[: 2 * self.n].reshape(-1, 2), x[2 * self.n :]
            held = [
                np.sqrt(CLAMP)
                * ((points[stop.node] - self.drawn[stop.node]) @ stop.along[[0, 2]] - errors.stop.get(i, 0.0))
                for i, stop in enumerate(self.stops)
            ]
            pressed = [hand * self.joint(meeting, points, turned) for meeting in self.parts.meetings]
            return np.concatenate([self.strains(free, points, turned), held, *pressed])

        x = lowest(energy, np.concatenate([self.drawn.ravel(), np.zeros(self.n)]))
        return x[: 2 * self.n].reshape(-1, 2), x[2 * self.n :]

    def width(self, errors: Errors) -> float:
        """Between the feet, once released."""
        points, turned = self.fitted(errors)
        free, ends = self.free_shape(errors), [meeting.nodes for meeting in self.parts.meetings]
        kept = []
        for meeting, (bar, tube), pull in zip(self.parts.meetings, ends, errors.pull, strict=True):
            along = meeting.axes[0][[0, 2]]
            # shrinking draws the rail's end into the tube; the pull turns the tube on the rail
            place = rotated(points[bar] + errors.shrink * along - points[tube], -turned[tube])
            kept.append((bar, tube, place, turned[bar] - turned[tube] + pull * meeting.axes[2][1]))
        inner = np.setdiff1d(np.arange(self.n), [bar for bar, *_ in kept])
        fixed = inner[0]
        moving = inner[1:]

        def whole(x: Floats) -> tuple[Floats, Floats]:
            at, way = points.copy(), turned.copy()
            at[moving], way[moving] = x[: 2 * len(moving)].reshape(-1, 2), x[2 * len(moving) :]
            at[fixed], way[fixed] = points[fixed], turned[fixed]
            for bar, tube, place, turn in kept:
                at[bar], way[bar] = at[tube] + rotated(place, way[tube]), way[tube] + turn
            return at, way

        x = lowest(lambda x: self.strains(free, *whole(x)), np.concatenate([points[moving].ravel(), turned[moving]]))
        at, _ = whole(x)
        return float(np.hypot(*(at[self.hoop[-1]] - at[self.hoop[0]])))


def rotated(vector: Floats, angle: float) -> Floats:
    """A vector (2,) turned in the plane of X and Z as a positive turning about -Y does: X towards Z."""
    c, s = np.cos(angle), np.sin(angle)
    return np.array([c * vector[0] - s * vector[1], s * vector[0] + c * vector[1]])


def lowest(energy: Callable[[Floats], Floats], start: Floats) -> Floats:
    """The point of least energy near a start."""
    found = least_squares(energy, start, method="lm", x_scale=1.0, xtol=1e-14, ftol=1e-14, gtol=1e-14)
    return np.asarray(found.x)


@pytest.fixture(scope="module")
def setting() -> Variation:
    job = parse_job(PORTAL)
    return variation(framed(build(job), job), job)


CASES: dict[str, tuple[str, Callable[[float], Errors], float]] = {
    "first bend": ("bend:0:1", lambda d: Errors(bend=(d, 0.0)), 2e-3),
    "second bend": ("bend:0:2", lambda d: Errors(bend=(0.0, d)), 2e-3),
    "first bend's place": ("place:0:1", lambda d: Errors(place=(d, 0.0)), 0.5),
    "second bend's place": ("place:0:2", lambda d: Errors(place=(0.0, d)), 0.5),
    "stop at a foot": ("stop:0:0", lambda d: Errors(stop={0: d}), 0.5),
    "stop at a bend": ("stop:0:1", lambda d: Errors(stop={1: d}), 0.5),
}


@pytest.mark.parametrize("case", CASES)
def test_sensitivity_is_the_slope_of_a_full_reassembly(setting: Variation, case: str) -> None:
    key, errors, step = CASES[case]
    portal = Portal(setting)
    slope = (portal.width(errors(step)) - portal.width(errors(-step))) / (2 * step)
    row = setting.sensitivity.row("width, front bottom")
    column = [effect.key for effect in setting.found].index(key)
    assert setting.felt[row, column] == pytest.approx(slope, rel=0.01)


def test_both_welds_shrinking(setting: Variation) -> None:
    portal = Portal(setting)
    slope = (portal.width(Errors(shrink=0.2)) - portal.width(Errors(shrink=-0.2))) / 0.4
    row = setting.sensitivity.row("width, front bottom")
    keys = [effect.key for effect in setting.found]
    felt = sum(setting.felt[row, keys.index(f"shrink:{i}")] for i in (0, 1))
    assert felt == pytest.approx(slope, rel=0.01)


@pytest.mark.parametrize("end", [0, 1])
def test_a_weld_pulling_the_rail_round(setting: Variation, end: int) -> None:
    portal = Portal(setting)
    one = (2e-3, 0.0) if end == 0 else (0.0, 2e-3)
    back = (-one[0], -one[1])
    slope = (portal.width(Errors(pull=one)) - portal.width(Errors(pull=back))) / 4e-3
    row = setting.sensitivity.row("width, front bottom")
    column = [effect.key for effect in setting.found].index(f"pull_across:{end}")
    assert abs(slope) > 100
    assert setting.felt[row, column] == pytest.approx(slope, rel=0.01)


def test_a_rail_too_long_goes_into_the_gaps(setting: Variation) -> None:
    """Its ends stand off or are ground back, so the piece hardly feels it: the same small number both ways."""
    portal = Portal(setting)
    slope = (portal.width(Errors(rail=0.5)) - portal.width(Errors(rail=-0.5))) / 1.0
    row = setting.sensitivity.row("width, front bottom")
    keys = [effect.key for effect in setting.found]
    felt = sum(setting.felt[row, keys.index(f"tip:1:{end}")] for end in (0, 1)) / 2
    assert abs(slope) < 0.03
    assert felt == pytest.approx(slope, abs=1e-3)
