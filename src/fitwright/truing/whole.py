"""From readings to what follows: believed or questioned, the piece as it probably is, what to do, what changes."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

import numpy as np

from fitwright.job.model import Job
from fitwright.job.readings import Of, Quantity, Reading
from fitwright.making.bench.groups import Group
from fitwright.making.bending import BendSheet
from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation import Variation
from fitwright.truing.asking import Asking
from fitwright.truing.chances import chances_now
from fitwright.truing.correcting import chosen
from fitwright.truing.doubting import Doubt, sifted
from fitwright.truing.errors import TruingError
from fitwright.truing.estimate import Estimate, unread
from fitwright.truing.estimate import estimate as estimate_of
from fitwright.truing.following import Following, own_aside
from fitwright.truing.functional import Functional, worked_out
from fitwright.truing.learning import commands_of
from fitwright.truing.model import Lost, Standing, Taken, Touch, Truing
from fitwright.truing.options import leg_error, options
from fitwright.truing.precision import precision_of
from fitwright.truing.prior import plain, prior
from fitwright.truing.progress import Made, made_so_far
from fitwright.truing.telling import touch_of
from fitwright.truing.wanting import Wants

AGREE = 3.0
SHAPE = (Quantity.SPREAD, Quantity.WIDTH, Quantity.DEPTH, Quantity.DIAGONAL, Quantity.ALONG, Quantity.TWIST)


def truing(
    setting: Variation,
    job: Job,
    groups: Sequence[Group],
    sheets: Mapping[str, BendSheet],
    leave: Collection[str] = (),
) -> Truing:
    """What follows from a job's readings.

    setting: the virtual builds' model of the piece. groups: the set-ups on the bench; sheets: bend sheets by mark.
    leave: kinds of correction that the maker does not want (shim, bend, trim, tack, pull).

    Never raises for what a reading says: one that means nothing on this piece is told in `lost`, one that cannot be
    believed in `doubts`.
    Holds for what `influences` holds for; bends and spreads of loose parts in full geometry.
    """
    asking = Asking(setting, tuple(groups), sheets, job.style)
    readings, lost = _known(asking, job.readings)
    functionals = worked_out(setting, [asking.of(reading.of) for reading in readings])
    counted, words = _counted(readings, functionals)
    known = prior(setting, sheets)
    precision = np.array([precision_of(reading).value for reading in readings])
    live = [i for i, counts in enumerate(counted) if counts and readings[i].of.quantity is not Quantity.PAINT]
    confirmed = _confirmed(readings, precision, live)
    estimate, doubts = sifted(
        known, [functionals[i] for i in live], [readings[i] for i in live], precision[live], confirmed, job.style
    )
    doubts = tuple(replace(doubt, number=live[doubt.number]) for doubt in doubts)
    made = made_so_far(setting, job, groups, [(r.of, f) for r, f in zip(readings, functionals, strict=True)])
    before, tight = unread(plain(setting)), _tightened(setting, readings, functionals, precision, live, doubts)
    expected = set_right(setting, made, estimate.errors)
    touches, after = _touches(setting, made, expected, tight, job, leave)
    corrected = _corrected(setting, made, expected, touches)
    following = Following(setting, made, corrected, after)
    after = after + following.carried() - own_aside(setting) @ carried_over(setting, made, corrected)
    wants = Wants(setting)
    nominal, now = setting.sensitivity.nominal, own_aside(setting) @ expected
    taken = _taken(readings, functionals, estimate, precision, counted, words, {d.number for d in doubts})
    film = _film(readings, taken)
    return Truing(
        taken=taken,
        lost=lost,
        doubts=doubts,
        made=made,
        estimate=estimate,
        corrected=corrected,
        matters=_standing(setting, before, tight, now),
        chances=chances_now(setting, before, tight, np.zeros(len(now)), follows(setting, made, after)),
        touches=touches,
        moves=following.painted(film),
        rock=wants.rock(now + nominal),
        rock_after=wants.rock(after + nominal),
        misfit=wants.misfit(now + nominal),
        misfit_after=wants.misfit(after + nominal),
        paint=film,
        commands=commands_of(setting, made, estimate, sheets),
        outcomes_after=after + nominal,
    )


def _known(asking: Asking, readings: Sequence[Reading]) -> tuple[tuple[Reading, ...], tuple[Lost, ...]]:
    """Readings that mean something on this piece, and those that do not."""
    good, lost = [], []
    for reading in readings:
        try:
            asking.of(reading.of)
            good.append(reading)
        except TruingError as error:
            lost.append(Lost(reading, str(error)))
    return tuple(good), tuple(lost)


def _counted(readings: Sequence[Reading], functionals: Sequence[Functional]) -> tuple[list[bool], list[str]]:
    """Whether each reading counts: the last of the same thing does; shapes read before a bend was read again do not."""
    counts, words = [True] * len(readings), [""] * len(readings)
    last = {_thing(reading.of): i for i, reading in enumerate(readings)}
    again = {_thing(r.of): i for i, r in enumerate(readings) if any(_thing(o.of) == _thing(r.of) for o in readings[:i])}
    for i, reading in enumerate(readings):
        if last[_thing(reading.of)] != i:
            counts[i], words[i] = False, "read again since"
        elif reading.of.quantity in SHAPE and any(
            _touches_shape(readings[j].of, functionals[j], functionals[i]) for j in again.values() if j > i
        ):
            counts[i], words[i] = False, "read before the bend was touched up"
    return counts, words


def _thing(of: Of) -> Of:
    return replace(of, thing=of.thing.lower(), other=of.other.lower())


def _touches_shape(bend: Of, of_bend: Functional, shape: Functional) -> bool:
    """Whether a bend that was read again is in a part whose shape was read."""
    return bend.quantity in (Quantity.BEND, Quantity.ROTATION) and set(of_bend.members) <= set(shape.members)


def _confirmed(readings: Sequence[Reading], precision: Floats, live: Sequence[int]) -> list[bool]:
    """Whether each counted reading was taken twice, one after the other, with one result."""
    found = []
    for i in live:
        earlier = [j for j in range(i) if _thing(readings[j].of) == _thing(readings[i].of)]
        near = AGREE * math.sqrt(2) * float(precision[i])
        found.append(bool(earlier) and abs(readings[earlier[-1]].value - readings[i].value) <= near)
    return found


def _taken(
    readings: Sequence[Reading],
    functionals: Sequence[Functional],
    estimate: Estimate,
    precision: Floats,
    counted: Sequence[bool],
    words: Sequence[str],
    doubted: set[int],
) -> tuple[Taken, ...]:
    found = []
    for i, (reading, functional) in enumerate(zip(readings, functionals, strict=True)):
        paint = reading.of.quantity is Quantity.PAINT
        now = reading.value if paint else functional.value(estimate.errors)
        spread = float(precision[i]) if paint else estimate.spread(functional.slope(estimate.errors))
        word = "questioned" if i in doubted else words[i]
        believed = counted[i] and i not in doubted
        found.append(Taken(reading, functional.drawn, now, spread, float(precision[i]), believed, word))
    return tuple(found)


def set_right(setting: Variation, made: Made, errors: Floats) -> Floats:
    """(e,) elementary errors as they will be: parts not made yet by the machine set anew, end legs that nobody measured
    on loose bent parts at the length they are set to by their stop or trimmed to."""
    to_come = np.array([_to_come(effect.key, made) for effect in setting.found])
    column = {effect.key: i for i, effect in enumerate(setting.found)}
    right = np.where(to_come, 0.0, errors)
    for k in made.loose:
        if setting.framed.piece.members[k].path.bent and not setting.framed.piece.members[k].path.closed:
            for end in (0, 1):
                if (k, end) not in made.legs:
                    right[column[f"tip:{k}:{end}"]] -= leg_error(setting, k, end, right)
    return right


def _to_come(key: str, made: Made) -> bool:
    """Whether an error is of shaping a part that is not made yet."""
    kind, _, rest = key.partition(":")
    return kind in ("bend", "place", "tip", "turn") and int(rest.split(":")[0]) not in made.members


def carried_over(setting: Variation, made: Made, errors: Floats) -> Floats:
    """(e,) those errors of loose parts that the rest of the piece is built around, and not forced out of them."""
    lengths = np.array(
        [
            effect.key.startswith(("place:", "tip:")) and int(effect.key.split(":")[1]) in made.loose
            for effect in setting.found
        ]
    )
    return np.where(lengths, errors, 0.0)


def follows(setting: Variation, made: Made, off: Floats) -> Floats:
    """(o,) how far outcomes will be off once what is not made yet follows: shelves and cut lengths by what is made."""
    members = {m.name: m.index for m in setting.framed.piece.members}
    found = off.copy()
    for i, outcome in enumerate(setting.outcomes):
        if outcome.kind == "play" and outcome.name.split(" between ")[0] not in made.panels:
            found[i] = 0.0
        if outcome.kind == "joint":
            names = outcome.name.split(", ", 1)[1].split(" on ")
            pair = {members.get(name, -1) for name in names}
            fastened = any(pair <= set(group) for group in made.tacked)
            if fastened or members.get(names[0]) not in made.members:
                found[i] = 0.0
    return found


def _tightened(
    setting: Variation,
    readings: Sequence[Reading],
    functionals: Sequence[Functional],
    precision: Floats,
    live: Sequence[int],
    doubts: Sequence[Doubt],
) -> Estimate:
    """The estimate by the virtual builds' own spreads, for how unsure things are; its mean is not used."""
    doubted = {doubt.number for doubt in doubts}
    good = [i for i in live if i not in doubted]
    if not good:
        return unread(plain(setting))
    values = np.array([functionals[i].drawn for i in good])
    return estimate_of(plain(setting), [functionals[i] for i in good], values, precision[good])


def _touches(
    setting: Variation, made: Made, expected: Floats, tight: Estimate, job: Job, leave: Collection[str]
) -> tuple[tuple[Touch, ...], Floats]:
    """The corrections, and outcomes' deviations (o,) after them."""
    wants, off = Wants(setting), own_aside(setting) @ expected
    spread = np.linalg.norm(setting.acting @ tight.root, axis=1)
    every = options(setting, made, expected, job.style.unit == "inch") if made.members else iter(())
    possible = [option for option in every if option.kind not in leave]
    touches, at = [], off
    for one in chosen(wants, off, possible):
        touches.append(touch_of(one, setting, wants, at, spread, job.style))
        at = at + one.amount * one.option.effect
    return tuple(touches), at


def _corrected(setting: Variation, made: Made, expected: Floats, touches: Sequence[Touch]) -> Floats:
    """(e,) elementary errors once loose bends are touched up."""
    column = {effect.key: i for i, effect in enumerate(setting.found)}
    errors = expected.copy()
    for touch in touches:
        if touch.kind in ("bend", "trim") and int(touch.key.split(":")[1]) in made.loose:
            errors[column[touch.key]] += touch.amount
    return errors


def _standing(setting: Variation, before: Estimate, now: Estimate, off: Floats) -> tuple[Standing, ...]:
    spreads = [np.linalg.norm(setting.acting @ estimate.root, axis=1) for estimate in (before, now)]
    return tuple(
        Standing(o.name, o.kind, o.nominal, o.nominal + float(m), float(a), float(b))
        for o, m, a, b in zip(setting.outcomes, off, *spreads, strict=True)
    )


def _film(readings: Sequence[Reading], taken: Sequence[Taken]) -> float | None:
    """The thickness of the paint that counts, if it was read [mm]."""
    films = [r.value for r, t in zip(readings, taken, strict=True) if r.of.quantity is Quantity.PAINT and t.believed]
    return films[-1] if films else None
