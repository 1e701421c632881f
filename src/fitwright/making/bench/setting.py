"""From a way to set up to the very holes: those whose stops locate the base best."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench.bearing import Grid, clear, hole_points, rows_for
from fitwright.making.bench.devices import Device
from fitwright.making.bench.flanks import Flank
from fitwright.making.bench.locating import best_triple
from fitwright.making.bench.pose import Posed
from fitwright.making.bench.search import Case, Found, Way

Floats = NDArray[np.float64]

INSET_PITCHES = 3  # parts are laid so far in from the counted corner, where the bench has the room


@dataclass(frozen=True, eq=False)
class Bearing:
    """A slot settled: flank, device, gap [mm], its hole (2,) and place along the flank in the pose's axes; whether it
    stands nearer to a weld than it should; off: the number of the thing that its block bears off, else -1."""

    slot: int
    flank: Flank
    device: Device
    gap: float
    hole: Floats
    along: float
    hot: bool
    off: int = -1

    @property
    def slid(self) -> float:
        """How far the face of its stop is slid out to meet the part; 0 where a block fills the gap [mm]."""
        return self.gap if self.gap <= self.device.farthest - self.device.face else 0.0

    @property
    def block(self) -> float:
        """Length of the block between stop and part; 0 where they touch [mm]."""
        return self.gap - self.slid

    @property
    def contact(self) -> Floats:
        """Where the part is touched (2,) [mm]."""
        return np.asarray(hole_points(self.flank, self.device, np.array([self.along]), -self.device.face)[0])


@dataclass(frozen=True, eq=False)
class Setting:
    """A set-up settled. edge (2,): where the bench's front left corner lies in the pose's axes [mm]."""

    way: Way
    edge: Floats
    bearings: tuple[Bearing | None, ...]
    conditioning: float

    @property
    def missing(self) -> int:
        """How many bearings have no hole."""
        return sum(bearing is None for bearing in self.bearings)

    @property
    def lengths(self) -> tuple[float, ...]:
        """Lengths of blocks between stops and parts, each once [mm]."""
        return tuple(sorted({round(b.block, 2) for b in self.bearings if b is not None and b.block > 0}))


def best_setting(pose: Posed, case: Case, found: Found, counted_from: tuple[bool, bool]) -> Setting | None:
    """Of the ways of least cost the one that locates the base best, then with the fewest lengths of block.

    counted_from: whether the bench's holes are counted from the left, and from the front.
    """
    settled = [settle(pose, case, way, counted_from) for way in found.ways]
    return min(settled, key=lambda s: (s.missing, -round(s.conditioning, 3), len(s.lengths)), default=None)


def settle(pose: Posed, case: Case, way: Way, counted_from: tuple[bool, bool]) -> Setting:
    """The holes for one way, the bench's edge where most bearings find a hole and least hangs over."""
    best: tuple[tuple[float, float], Setting] | None = None
    for edge in _edges(pose, case, way, counted_from):
        tried = _at_edge(pose, case, way, edge)
        worth = (float(tried.missing), round(_hanging(pose, case, edge), 2))
        if best is None or worth < best[0]:
            best = worth, tried
        if tried.missing == sum(b is None for b in way.bearings) and worth[1] <= _must(pose, case):
            break
    assert best is not None
    return best[1]


def _hanging(pose: Posed, case: Case, edge: Floats) -> float:
    """How much hangs over the bench's edges, both ways added [mm]."""
    far = edge + np.array(case.grid.size)
    return float((np.maximum(edge, 0) + np.maximum(pose.high[:2] - far, 0)).sum())


def _must(pose: Posed, case: Case) -> float:
    """How much has to hang over at the least [mm]."""
    return float(np.maximum(pose.high[:2] - np.array(case.grid.size), 0).sum()) + 0.5


def _edges(pose: Posed, case: Case, way: Way, counted_from: tuple[bool, bool]) -> Iterator[Floats]:
    """Where the bench's corner can lie: as wished, then a pitch to either side along an axis on which it is short."""
    edge = _edge(pose, case, way, counted_from)
    yield edge
    for axis in (0, 1):
        for step in (-case.grid.pitch, case.grid.pitch) if case.lines[axis] is not None else ():
            yield edge + step * np.eye(2)[axis]


def _at_edge(pose: Posed, case: Case, way: Way, edge: Floats) -> Setting:
    """The holes for one place of the bench: the base's best first, then each further bearing where it holds best."""
    places = [_places(case, way, k, edge) for k in range(len(case.slots))]
    chosen: dict[int, Bearing] = {}
    value = _base(pose, case, way, places, chosen)
    for k, slot in enumerate(case.slots):
        if k in chosen or not places[k]:
            continue
        partner = chosen.get(slot.pair) if slot.pair is not None else None
        options = [b for b in places[k] if all(_apart(b, other) for other in chosen.values())]
        if options:
            chosen[k] = max(options, key=lambda b: _worth(b, slot.role, partner, _is_paired(case, k)))
    return Setting(way, edge, tuple(chosen.get(k) for k in range(len(case.slots))), value)


def _base(pose: Posed, case: Case, way: Way, places: list[list[Bearing]], chosen: dict[int, Bearing]) -> float:
    """Settle the base's two and one by the largest smallest singular value; the value (0 when there are not three)."""
    base = [k for k, slot in enumerate(case.slots) if slot.laid == pose.base.number]
    pairs = [(case.slots[k].pair, k) for k in base if case.slots[k].pair is not None]
    if not pairs or not places[pairs[0][1]]:
        return 0.0
    first = pairs[0][1]
    axis = places[first][0].flank.axis
    others = [k for k in range(len(case.slots)) if places[k] and places[k][0].flank.axis != axis]
    others.sort(key=lambda k: (case.slots[k].laid != pose.base.number, k))
    if not others:
        return 0.0
    second = others[0]
    one, two = places[first], places[second]
    centre, size = middle_of(pose)
    apart = np.array([2 * one[0].device.room + 1, one[0].device.room + two[0].device.room + 1])
    contacts = [np.array([b.contact for b in places_]) for places_ in (one, two)]
    holes = np.array([b.hole for b in one]), np.array([b.hole for b in two])
    normals = -one[0].flank.normal, -two[0].flank.normal
    best = best_triple(contacts[0], contacts[1], normals, centre, size, apart, holes)
    if best is None:
        return 0.0
    pair = pairs[0]
    assert pair[0] is not None
    found = {pair[0]: _of_slot(places, pair[0], one[best[0]]), first: one[best[1]], second: two[best[2]]}
    for slot, bearing in found.items():
        if all(_apart(bearing, other) for other in chosen.values()):
            chosen[slot] = bearing
    return best[3] if len(chosen) == len(found) else 0.0


def _of_slot(places: list[list[Bearing]], slot: int, like: Bearing) -> Bearing:
    """The bearing of a slot at the same place along the flank as another's; its device may differ."""
    return min(places[slot], key=lambda b: abs(b.along - like.along)) if places[slot] else like


def middle_of(pose: Posed) -> tuple[Floats, float]:
    """Middle (2,) of the base as seen from above and half its diagonal [mm]."""
    points = np.array([p[:2] for run in pose.base.runs for p in (run.start, run.end)])
    low, high = points.min(axis=0), points.max(axis=0)
    return (low + high) / 2, max(float(np.linalg.norm(high - low)) / 2, 1.0)


def _places(case: Case, way: Way, number: int, edge: Floats) -> list[Bearing]:
    """Every hole from which a slot can bear in this way, on the bench and clear of everything."""
    bearing = way.bearings[number]
    if bearing is None:
        return []
    f, d, gap = bearing
    flank, device, grid = case.slots[number].options[f], case.devices[d], case.grid
    heat = way.heat[number]
    along = rows_for(flank, device, way.phase[1 - flank.axis], grid.pitch, case.beside, heat)
    if gap and len(along):
        along = along[clear(flank, device, along, gap, case.beside, heat)]
    holes = hole_points(flank, device, along, gap)
    return [
        Bearing(number, flank, device, gap, hole, float(at), heat == 0.0)
        for hole, at in zip(holes, along, strict=True)
        if _on_bench(grid, hole, edge)
    ]


def _on_bench(grid: Grid, hole: Floats, edge: Floats) -> bool:
    first = edge + np.array(grid.first)
    last = first + grid.pitch * (np.array(grid.count) - 1)
    return bool((hole > first - 0.01).all() and (hole < last + 0.01).all())


def _apart(one: Bearing, other: Bearing) -> bool:
    return float(np.linalg.norm(one.hole - other.hole)) >= one.device.room + other.device.room


def _is_paired(case: Case, number: int) -> bool:
    return case.slots[number].pair is not None or any(slot.pair == number for slot in case.slots)


def _worth(bearing: Bearing, role: str, partner: Bearing | None, paired: bool) -> float:
    """The first of a pair at one end of its flank, the second far from it; a bent leg's far from the bend; any other
    near the middle of its flank."""
    if partner is not None:
        return abs(bearing.along - partner.along)
    middle = (bearing.flank.low + bearing.flank.high) / 2
    if paired:
        return middle - bearing.along
    if role == "shape":
        run = bearing.flank.run
        free = run.start if run.first or not run.last else run.end
        return -float(np.linalg.norm(bearing.contact - free[:2]))
    return -abs(bearing.along - middle)


def _edge(pose: Posed, case: Case, way: Way, counted_from: tuple[bool, bool]) -> Floats:
    """The front left corner of the bench in the pose's axes, so that its holes fall on the phases (2,) [mm]."""
    edge = np.zeros(2)
    for axis in (0, 1):
        grid, line = case.grid, way.line[axis]
        if line is None:
            spare = grid.size[axis] - float(pose.high[axis])
            inset = min(INSET_PITCHES * grid.pitch, spare / 2)
            wished = -inset if counted_from[axis] else inset - spare
            edge[axis] = wished + _nearest(way.phase[axis] - grid.first[axis] - wished, grid.pitch)
        else:
            edge[axis] = way.phase[axis] + grid.pitch * line - grid.first[axis]
    return edge


def _nearest(off: float, pitch: float) -> float:
    """The shift to the nearest line of holes [mm]."""
    return off - pitch * float(np.round(off / pitch))
