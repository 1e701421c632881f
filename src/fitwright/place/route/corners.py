"""Round a corner, and through a door whose walls before or behind it are near."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from fitwright.job.obstacles import Corner, Door
from fitwright.place.route.convex import supports
from fitwright.place.route.model import Bulk, Pose, Stance, Trial
from fitwright.place.route.placing import Frame, Held, laid, lift_of, rolls
from fitwright.place.route.stances import height, plan
from fitwright.place.route.straight import PAST, shadow
from fitwright.place.route.turning import Run, Turn

Bools = NDArray[np.bool_]

SQUARE = np.pi / 2


def corner_trial(one: Corner, bulk: Bulk, stance: Stance, steps: int = 720) -> Trial:
    """The exact room round a corner in this stance."""
    outline = plan(bulk, stance)
    turn = Turn(outline, one.first, one.second, one.turn, steps)
    held = Held(bulk, stance, lift_of(bulk, stance))
    above = one.height - height(bulk, stance) - held.lift
    if above < 0 and stance.tilt:  # no way, and the rests say better how much is missing
        return Trial(stance, min(turn.in_first.max(), turn.in_second.max()), above, "the height", lambda: ())
    run = turn.best()
    far = float(np.hypot(*outline.T).max()) + PAST
    return Trial(
        stance,
        run.room,
        above,
        "the corner",
        lambda: laid(held, turn, run, Frame(), far, far),
        turn.error,
        rolls(bulk, stance),
    )


def door_turn_trial(one: Door, bulk: Bulk, stance: Stance, steps: int = 720) -> Trial | None:
    """Turned into a door from along the wall before it, or out of it along the wall behind it; None when never."""
    outline = plan(bulk, stance)
    held = Held(bulk, stance, lift_of(bulk, stance))
    best: tuple[float, Run | None, Run | None] | None = None
    turns = tuple(
        None if free is None else Turn(outline, free, one.clear, SQUARE, steps) for free in (one.before, one.after)
    )
    for ends in _door_headings(one, outline, steps):
        runs = (
            turns[0].best(ends=_rolled(ends, -SQUARE, steps)) if turns[0] else None,
            turns[1].best(ends=_rolled(ends, SQUARE, steps)) if turns[1] else None,
        )
        straight = (one.clear - shadow(outline).widths.min()) / 2
        room = min((run.room for run in runs if run is not None), default=float(straight))
        if best is None or room > best[0]:
            best = (room, *runs)
    if best is None:
        return None
    room, entering, leaving = best
    return Trial(
        stance,
        room,
        one.height - height(bulk, stance) - held.lift,
        "the door and the wall near it",
        lambda: _through(one, held, turns, (entering, leaving)),
        float(np.hypot(*outline.T).max()) * 2 * np.pi / steps,
        rolls(bulk, stance),
    )


def _door_headings(one: Door, outline: NDArray[np.float64], steps: int) -> Iterable[Bools]:
    """Runs of neighbouring headings at which it goes straight through the door, each as (n,) on the plan."""
    headings = np.arange(steps) * 2 * np.pi / steps
    widths = supports(outline, -headings) + supports(outline, np.pi - headings)
    open_at = widths <= max(one.clear, float(widths.min()) + 1.0)
    if open_at.all():
        yield open_at
        return
    start = int(np.flatnonzero(~open_at)[0])
    order = (start + np.arange(steps)) % steps
    edges = np.flatnonzero(np.diff(open_at[order].astype(int)))
    for begin, end in zip(edges[::2], edges[1::2], strict=False):
        part = np.zeros(steps, dtype=bool)
        part[order[begin + 1 : end + 1]] = True
        yield part


def _rolled(mask: Bools, angle: float, steps: int) -> Bools:
    """Headings of the plan as those of a turn's own plane, which is turned by -angle on it."""
    return np.asarray(np.roll(mask, round(angle / (2 * np.pi) * steps)))


def _through(
    one: Door, held: Held, turns: tuple[Turn | None, ...], runs: tuple[Run | None, Run | None]
) -> tuple[Pose, ...]:
    """Into the door from the right, out of it to the left."""
    outline = plan(held.bulk, held.stance)
    far = float(np.hypot(*outline.T).max()) + PAST
    half, jamb = one.clear / 2, max(one.jamb, 1.0)
    poses: list[Pose] = []
    if turns[0] is not None and runs[0] is not None:
        # the turn's first outer wall is the one before the door, its second the door's left side
        frame = Frame(SQUARE, -half, -turns[0].first)
        poses += laid(held, turns[0], runs[0], frame, far, 0.0)
    if turns[1] is not None and runs[1] is not None:
        frame = Frame(-SQUARE, half, jamb + turns[1].first)
        out = list(laid(held, turns[1], runs[1], frame, far, 0.0))[::-1]
        poses += out
    if turns[0] is None:
        poses = [_moved(poses[0], -far - jamb), *poses]
    if turns[1] is None:
        poses = [*poses, _moved(poses[-1], far + jamb)]
    return tuple(poses)


def _moved(pose: Pose, along: float) -> Pose:
    return Pose(pose.turn, pose.at + np.array([0.0, along, 0.0]))
