"""A leg looked at in every stance, the easiest first, and what came of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from fitwright.place.route.bounds import ball_inside
from fitwright.place.route.legs import Leg
from fitwright.place.route.model import Answer, Bulk, Passage, Spot, Stance, Trial
from fitwright.place.route.proving import Proving
from fitwright.place.route.searching import searchable, searched
from fitwright.place.route.stances import rests, tilted

Stop = Callable[[], bool]

SEARCHED = 2  # stances for which a leg is searched

EXACT = "exact for its outline as a solid"
BALL = "whichever way it is turned, as a solid"


@dataclass(eq=False)
class Looked:
    """The trials of one leg with one bulk, more of them looked at when they are wanted."""

    leg: Leg
    bulk: Bulk
    trials: tuple[Trial, ...] = ()
    tilts: bool = False

    def at_rest(self) -> None:
        """Look at the rests."""
        if not self.trials:
            self.trials = tuple(_trials(self.leg, self.bulk, rests()))

    def in_tilts(self) -> None:
        """Look at the tilts too."""
        self.at_rest()
        if not self.tilts:
            self.trials += tuple(_trials(self.leg, self.bulk, tilted(self.leg.slope)))
            self.tilts = True

    def in_plane(self, stop: Stop) -> None:
        """Search the roomiest stances where nothing exact fits."""
        if not searchable(self.leg):
            return
        high = [trial for trial in self.trials if trial.above >= 0]
        for trial in sorted(high, key=lambda one: -one.side)[:SEARCHED]:
            found = None if stop() else searched(self.leg, self.bulk, trial.stance, stop)
            if found is not None:
                self.trials += (found,)
            if found is not None and found.fits:
                return

    def drop(self, trial: Trial) -> None:
        """Leave one out that turned out to be no way."""
        self.trials = tuple(one for one in self.trials if one is not trial)

    @property
    def hopeless(self) -> bool:
        """Whether no way of holding can help: a ball inside it is larger than the opening."""
        return ball_inside(self.bulk) > self.leg.narrowest

    @property
    def good(self) -> bool:
        """Whether one of them leaves the room that is wanted."""
        return any(trial.fits and trial.side >= self.leg.obstacle.spare for trial in self.trials)

    @property
    def some(self) -> bool:
        """Whether one of them fits at all."""
        return any(trial.fits for trial in self.trials)

    @property
    def roomiest(self) -> Trial:
        """The one with the most room, or that lacks least."""
        return min(self.trials, key=lambda trial: (trial.missing, -trial.least))


def _trials(leg: Leg, bulk: Bulk, stances: Sequence[Stance]) -> list[Trial]:
    return [trial for stance in stances for trial in leg.trials(bulk, stance)]


def passed(looked: Looked, trial: Trial, stop: Stop) -> Passage:
    """The passage that a trial gives, its way held against everything round it."""
    leg, bulk = looked.leg, looked.bulk
    poses = trial.lay()
    proof = Proving(bulk, leg.around()).along(poses, stop)
    told = Passage(
        leg.obstacle, bulk.name, Answer.PASSES, Spot(trial.side, proof.what or trial.what, proof.at), trial.stance,
        poses, proof.least, 0.0, "every step held against what stands round it", len(looked.trials),
        rolled=trial.rolled,
    )  # fmt: skip
    if proof.free:
        return told
    unproven = "the way that the outline suggests could not be shown to be free in the time"
    return replace(told, answer=Answer.NOT_FOUND, spot=Spot(min(trial.side, proof.least), proof.what, proof.at),
                   proof=unproven, poses=poses[: proof.at + 1])  # fmt: skip


def refused(looked: Looked) -> Passage:
    """What to say where no stance has a way."""
    leg, bulk, best = looked.leg, looked.bulk, looked.roomiest
    what = best.what if -2 * best.side >= -best.above else "the height"
    room = best.side if -2 * best.side >= -best.above else best.above / 2
    told = Passage(leg.obstacle, bulk.name, Answer.NO, Spot(room, what), best.stance, (), None, best.missing,
                   f"{EXACT}, {len(looked.trials)} ways of holding", len(looked.trials), best.rolled)  # fmt: skip
    if looked.hopeless:
        return replace(told, proof=BALL)
    if best.missing <= 2 * best.error:
        unsure = f"lacks less than can be told apart, {len(looked.trials)} ways of holding"
        return replace(told, answer=Answer.NOT_FOUND, proof=unsure)
    return told
