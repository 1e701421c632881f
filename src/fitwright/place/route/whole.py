"""The whole route: a way through each leg, or the tightest spot and what would make it pass."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from fitwright.job.obstacles import Obstacle
from fitwright.piece import Piece
from fitwright.place.route import bulk as carried
from fitwright.place.route.chain import Standing, Turnover, chosen
from fitwright.place.route.legs import Leg, legs
from fitwright.place.route.model import Answer, Bulk, Passage, Trial
from fitwright.place.route.search import Looked, passed, refused
from fitwright.place.route.splitting import Split, split

Progress = Callable[[str, float], bool]

SECONDS = 18.0
"""After which no more is looked for [s]."""
ATTEMPTS = 4
"""Ways of holding tried for a leg whose first ones do not hold up."""


@dataclass(frozen=True, eq=False)
class Easing:
    """What would make it pass, or would not: without casters, without shelves, in two halves.

    missing: what is still lacking where it is tightest [mm]; where: the leg's name; passes: whether all of it passes.
    cut: where it is made in two, None where only parts come off.
    """

    name: str
    passes: bool
    missing: float
    where: str
    routes: tuple[Route, ...]
    cut: Split | None = None


@dataclass(frozen=True, eq=False)
class Route:
    """What came of the whole way with one bulk.

    legs and passages go together; turnovers say before which leg the piece is turned over, and whether it can be stood
    up in its place; easings were looked at only
    where it does not pass as built. seconds: how long it took; stopped: whether it was stopped before the end.
    """

    bulk: Bulk
    legs: tuple[Leg, ...]
    passages: tuple[Passage, ...]
    turnovers: tuple[Turnover, ...] = ()
    easings: tuple[Easing, ...] = ()
    seconds: float = 0.0
    stopped: bool = False

    @property
    def answer(self) -> Answer:
        """Passes only when every leg does and it can be turned over where that is needed."""
        answers = {passage.answer for passage in self.passages}
        if Answer.NO in answers or self.unturned is not None:
            return Answer.NO
        return Answer.NOT_FOUND if Answer.NOT_FOUND in answers or self.stopped else Answer.PASSES

    @property
    def unturned(self) -> Turnover | None:
        """Where there is not the height to turn it over, or to stand it up; None where there is, as far as is known."""
        return next((turn for turn in self.turnovers if not turn.fits), None)

    @property
    def shown(self) -> tuple[Route, ...]:
        """What to show and to carry: as built where that passes, else the first easing that does, each of its parts."""
        if self.answer is Answer.PASSES:
            return (self,)
        return next((easing.routes for easing in self.easings if easing.passes), (self,))

    @property
    def tightest(self) -> int:
        """Which leg is tightest, as an index."""
        return min(range(len(self.passages)), key=lambda at: (-self.passages[at].missing, self.passages[at].spot.room))


def find_route(
    route: Sequence[Obstacle],
    piece: Piece,
    progress: Progress | None = None,
    seconds: float = SECONDS,
    height: float | None = None,
) -> Route | None:
    """The way of a piece along a route, until it stands upright in its place; None for a route of nothing.

    height: of the opening in which it is to stand [mm], where it is known.
    progress: told what is looked at and the share done, answers whether to go on; seconds: after which to stop.
    The same route and piece give the same answer, as long as the time suffices.
    """
    way = legs(route)
    if not way:
        return None
    watch = Watch(progress or _silent, seconds)
    standing = Standing(height)
    found = through(way, carried.whole(piece), watch, 0.6, standing)
    if found.answer is not Answer.PASSES:
        found = replace(found, easings=tuple(_eased(way, piece, found, watch, standing)))
    return replace(found, seconds=watch.since, stopped=watch.stopped)


@dataclass(eq=False)
class Watch:
    """The clock and whoever is told of progress."""

    progress: Progress
    seconds: float

    def __post_init__(self) -> None:
        self.begun = time.monotonic()
        self.stopped = False

    @property
    def since(self) -> float:
        """Time since it began [s]."""
        return time.monotonic() - self.begun

    def tell(self, what: str, share: float) -> bool:
        """Tell what is looked at; whether to go on."""
        if not self.progress(what, share) or self.since > self.seconds:
            self.stopped = True
        return not self.stopped

    def over(self) -> bool:
        """Whether to stop."""
        return self.stopped or self.since > self.seconds


def _silent(_what: str, _share: float) -> bool:
    return True


def through(way: Sequence[Leg], bulk: Bulk, watch: Watch, share: float, standing: Standing | None = None) -> Route:
    """All legs with one bulk, taking so much of the whole progress; standing: its place, where it is stood up there."""
    looked = [Looked(leg, bulk) for leg in way]
    for at, one in enumerate(looked):
        watch.tell(f"{one.leg.name}, {bulk.name}", share * at / len(way) / 2)
        one.at_rest()
        if one.good or one.hopeless or watch.over():
            continue
        one.in_tilts()
        if not one.some:
            one.in_plane(watch.over)
    found, turned = _proved(looked, bulk, watch, share, standing)
    passages = [found[at] if at in found else refused(one) for at, one in enumerate(looked)]
    return Route(bulk, tuple(way), tuple(passages), tuple(turned))


def _proved(
    looked: Sequence[Looked], bulk: Bulk, watch: Watch, share: float, standing: Standing | None
) -> tuple[dict[int, Passage], list[Turnover]]:
    """Passages by leg, each way held against what stands round it; what does not hold up is tried another way."""
    known: dict[int, Passage] = {}
    tried: dict[int, Trial] = {}
    turned: list[Turnover] = []
    for _ in range(ATTEMPTS):
        at = [k for k, one in enumerate(looked) if one.some]
        if not at:
            break
        there = standing if at[-1] == len(looked) - 1 else None
        trials, turned = _chain([looked[k] for k in at], at, bulk, there)
        fresh = {k: trial for k, trial in zip(at, trials, strict=True) if tried.get(k) is not trial}
        for number, (k, trial) in enumerate(fresh.items()):
            watch.tell(f"the way through {looked[k].leg.name}", share * (0.5 + number / len(fresh) / 2))
            known[k], tried[k] = passed(looked[k], trial, watch.over), trial
        bad = [k for k in at if known[k].answer is not Answer.PASSES]
        if not bad or watch.over():
            break
        for k in bad:
            looked[k].drop(tried[k])
    return known, turned


def _chain(
    looked: Sequence[Looked], at: Sequence[int], bulk: Bulk, standing: Standing | None
) -> tuple[list[Trial], list[Turnover]]:
    """The easiest chain; where it has to be turned over without height for it, with tilts looked at as well."""
    trials, turned = chosen(looked, bulk, standing)
    if not all(turn.fits for turn in turned):
        for one in looked:
            one.in_tilts()
        trials, turned = chosen(looked, bulk, standing)
    onward = [*at, at[-1] + 1]
    return trials, [replace(turn, before=onward[turn.before]) for turn in turned]


def _eased(way: Sequence[Leg], piece: Piece, found: Route, watch: Watch, standing: Standing) -> list[Easing]:
    """The piece with parts off, then in two; the first that passes ends it."""
    shut = [at for at, passage in enumerate(found.passages) if passage.answer is not Answer.PASSES]
    near = [way[at] for at in shut] or list(way)
    easings: list[Easing] = []
    for make in (carried.shelves_out, carried.casters_off, carried.bare):
        one = make(piece)
        if one is not None and not watch.over() and not any(easing.passes for easing in easings):
            easings.append(_easing(one.name, (one,), near, way, watch, standing))
    if not any(easing.passes for easing in easings) and not watch.over():
        loose = carried.bare(piece) or carried.casters_off(piece) or carried.shelves_out(piece) or found.bulk
        for cut in split(loose):
            easings.append(replace(_easing(cut.name, cut.bulks, near, way, watch), cut=cut))
            if easings[-1].passes or watch.over():
                break
    return easings


def _easing(
    name: str,
    bulks: Sequence[Bulk],
    near: Sequence[Leg],
    way: Sequence[Leg],
    watch: Watch,
    standing: Standing | None = None,
) -> Easing:
    """The shut legs first; the whole way once they open. Halves are put together where they stand."""
    routes = [through(near, one, watch, 0.0, standing if len(near) == len(way) else None) for one in bulks]
    if len(near) < len(way) and all(one.answer is Answer.PASSES for one in routes):
        routes = [through(way, one, watch, 0.0, standing) for one in bulks]
    passes = all(one.answer is Answer.PASSES for one in routes)
    worst = max(routes, key=lambda one: one.passages[one.tightest].missing)
    spot = worst.passages[worst.tightest]
    return Easing(name, passes, spot.missing, worst.legs[worst.tightest].name, tuple(routes))
