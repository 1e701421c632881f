"""Everything about the making of one piece that virtual builds need, worked out once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from fitwright.job.model import Job
from fitwright.mechanics.framing import Framed
from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation.between import element_boxes, opening_sizes, shelf_plays
from fitwright.mechanics.variation.clearance import Demand, demands, gaps, survey_effects
from fitwright.mechanics.variation.corners import CORNERS, LEVELS, Corners, corners, overall
from fitwright.mechanics.variation.effects import Effect, columns, effects
from fitwright.mechanics.variation.groups import Sequence_, touching, usual_sequence
from fitwright.mechanics.variation.influences import Influences, influences
from fitwright.mechanics.variation.loose import Loose, loose
from fitwright.mechanics.variation.model import Correction, Outcome, Sensitivity, VariationError
from fitwright.mechanics.variation.questions import (
    FILL,
    FLAT,
    SHELVES,
    Limits,
    Question,
    Rule,
    room_questions,
    trimmed,
    usual_limits,
)
from fitwright.mechanics.variation.reading import Probe, Reading, distance, rows_of
from fitwright.mechanics.variation.rock import stances
from fitwright.mechanics.variation.sources import Drawing, Making, drawing
from fitwright.mechanics.variation.spreads import Spreads, usual_spreads
from fitwright.mechanics.variation.stops import Stage, usual_stages

UP = np.array([0.0, 0.0, 1.0])
OF_SHELVES = ("shelf:", "measured:")


@dataclass(frozen=True, eq=False)
class Variation:
    """A piece ready for virtual builds.

    felt: (o, e) what outcomes feel of the elementary errors found. demands: on gaps in the place.
    """

    framed: Framed
    parts: Loose
    stages: tuple[Stage, ...]
    readings: tuple[Reading, ...]
    found: tuple[Effect, ...]
    felt: Floats
    demands: tuple[Demand, ...]
    actions: tuple[Correction, ...]
    corrections: Floats
    spreads: Spreads
    making: Making
    limits: Limits

    @property
    def outcomes(self) -> tuple[Outcome, ...]:
        """What matters, in the order of the rows."""
        return tuple(reading.outcome for reading in self.readings)

    @cached_property
    def drawn(self) -> Drawing:
        """The errors that this way of making has."""
        return drawing(self.framed, self.parts, self.stages, self.found, self.spreads, self.making)

    @cached_property
    def acting(self) -> Floats:
        """(o, e) what is felt of the elementary errors; shelves that are fitted feel none but their own."""
        return _with_fitted_shelves(self) if self.making.fit_shelves else self.felt

    @cached_property
    def sensitivity(self) -> Sensitivity:
        """Outcomes as functions of the errors that this way of making has."""
        matrix = self.acting @ self.drawn.mix
        return Sensitivity(self.outcomes, self.drawn.sources, matrix, self.actions, self.corrections)

    @cached_property
    def decisive(self) -> tuple[tuple[Question, ...], Sensitivity]:
        """The questions, and the sensitivity of the outcomes that can decide them: the rows that the questions name."""
        questions, rows = trimmed(_questions(self), self.sensitivity)
        return questions, self.sensitivity.only(rows)


def variation(
    framed: Framed,
    job: Job,
    *,
    spreads: Spreads | None = None,
    making: Making | None = None,
    sequence: Sequence_ | None = None,
    stages: Sequence[Stage] | None = None,
    limits: Limits | None = None,
) -> Variation:
    """What virtual builds of a framed piece need; the usual where nothing is given.

    sequence: groups of members joined before the whole. stages: set-ups in full, in place of those from the sequence.

    Raises VariationError for a group with a member that is not there, or in two groups.
    Holds for what `influences` holds for.
    """
    parts = loose(framed)
    steps = tuple(stages) if stages is not None else usual_stages(parts, _checked(parts, sequence))
    bounds = limits or usual_limits(job.style.unit == "inch")
    readings, wanted = _readings(framed, job, parts, bounds.loosest)
    at = corners(parts)
    pulls = _pulls(at)
    filled = [i for i, meeting in enumerate(parts.meetings) if not meeting.seat.forces[0]]
    answers = influences(parts, steps, rows_of(parts, readings), _forces(parts, pulls), filled)
    answers = _less(answers, len(readings))
    readings += _joints(parts, filled, bounds.fill)
    found = (*effects(framed, parts, steps), *survey_effects(job), *_shelf_effects(readings))
    felt = columns(found, answers) + _direct(readings, found)
    actions, corrections = _corrections(parts, pulls, found, answers, felt)
    return Variation(
        framed,
        parts,
        steps,
        readings,
        found,
        felt,
        wanted,
        actions,
        corrections,
        spreads or usual_spreads(),
        making or usual_making(framed),
        bounds,
    )


def usual_making(framed: Framed, stop_reach: float = 0.0) -> Making:
    """As the piece itself says: feet that screw are levelled on the spot."""
    level = bool(framed.feet) and all(
        foot.kind == "foot" and foot.hardware is not None and "thread" in foot.hardware.properties
        for foot in framed.feet
    )
    return Making(stop_reach=stop_reach, level=level)


def with_making(setting: Variation, making: Making) -> Variation:
    """The same piece made in another way; no frame is solved again."""
    return replace(setting, making=making)


def sensitivity(setting: Variation) -> Sensitivity:
    """Outcomes as functions of the errors that this way of making has, and of corrections on the finished piece."""
    return setting.sensitivity


def _with_fitted_shelves(setting: Variation) -> Floats:
    """What is felt when shelves are cut to the frame as it came out: their play keeps their own errors alone."""
    felt = setting.felt.copy()
    plays = np.array([outcome.kind == "play" for outcome in setting.outcomes])
    others = np.array([not effect.key.startswith(OF_SHELVES) for effect in setting.found])
    felt[np.ix_(plays, others)] = 0.0
    return felt


def _checked(parts: Loose, sequence: Sequence_ | None) -> Sequence_:
    if sequence is None:
        return usual_sequence(parts)
    known = set(parts.nodes_of)
    for group in sequence:
        if not set(group) <= known:
            raise VariationError(f"a group names members {sorted(set(group) - known)}: use some of {sorted(known)}")
    if touching(sequence):
        raise VariationError("a member is in two groups: put it in the one where it is joined first")
    return sequence


def _readings(framed: Framed, job: Job, parts: Loose, loosest: float) -> tuple[tuple[Reading, ...], tuple[Demand, ...]]:
    boxes = element_boxes(framed)
    room = gaps(job, framed.piece, parts)
    readings = _distinct(parts, [*overall(corners(parts)), *opening_sizes(framed, parts, boxes)])
    readings += [*_feet(parts), *shelf_plays(framed, parts, boxes), *room]
    return tuple(readings), tuple(demands(job, room, loosest))


def _distinct(parts: Loose, readings: Sequence[Reading]) -> list[Reading]:
    """Without what reads nothing, or the same as one before it, as the back of a piece that lies in one plane."""
    rows = rows_of(parts, readings)
    first = dict.fromkeys(np.round(row, 9).tobytes() for row in rows if np.any(row))
    found = []
    for reading, row in zip(readings, rows, strict=True):
        key = np.round(row, 9).tobytes()
        if key in first:
            del first[key]
            found.append(reading)
    return found


def _feet(parts: Loose) -> list[Reading]:
    """Heights of the undersides of the feet; a taller caster reaches farther down."""
    return [
        Reading(Outcome(f"foot, {foot.name}", "foot", 0.0), (Probe(foot.node, foot.point, UP),), {f"foot:{f}": -1.0})
        for f, foot in enumerate(parts.feet)
    ]


def _shelf_effects(readings: Sequence[Reading]) -> list[Effect]:
    keys = dict.fromkeys(
        (key, reading.outcome.name.split(" between ")[0])
        for reading in readings
        for key in reading.direct
        if key.startswith(OF_SHELVES)
    )
    return [Effect(key, name, ()) for key, name in keys]


def _direct(readings: Sequence[Reading], found: Sequence[Effect]) -> Floats:
    column = {effect.key: i for i, effect in enumerate(found)}
    total = np.zeros((len(readings), len(found)))
    for row, reading in zip(total, readings, strict=True):
        for key, amount in reading.direct.items():
            row[column[key]] += amount
    return total


def _questions(setting: Variation) -> list[Question]:
    making = setting.making
    row = {outcome.name: i for i, outcome in enumerate(setting.outcomes)}
    found = list(room_questions(setting.demands, row))
    feet = tuple(i for i, outcome in enumerate(setting.outcomes) if outcome.kind == "foot")
    plan = np.array([foot.point[:2] for foot in setting.parts.feet]).reshape(-1, 2)
    possible = tuple(stances(plan, np.asarray(setting.framed.piece.centre)[:2])) if len(feet) > 3 else ()
    if possible:
        residual = "level" if making.level else "shim" if making.shim else ""
        step = setting.limits.level_range if making.level else setting.limits.shim_step
        found.append(Question("rock", (feet,), (Rule(FLAT, None, setting.limits.rock),), possible, residual, step))
    plays = tuple(i for i, outcome in enumerate(setting.outcomes) if outcome.kind == "play")
    if plays:
        found.append(Question("shelves", (plays,), (Rule(SHELVES, 0.0, None),)))
    welds = tuple(i for i, outcome in enumerate(setting.outcomes) if outcome.kind == "joint")
    if welds:
        found.append(Question("joints", (welds,), (Rule(FILL, 0.0, None, must=False),)))
    return found


def _joints(parts: Loose, which: Sequence[int], fill: float) -> tuple[Reading, ...]:
    """What is left of the gap that a weld can fill, at joints that are free along their branch; read before welding."""
    names = parts.model.node_labels
    return tuple(
        Reading(Outcome(f"weld {i + 1}, {names[meeting.nodes[0]]} on {names[meeting.nodes[1]]}", "joint", fill), ())
        for i, meeting in ((i, parts.meetings[i]) for i in which)
    )


def _less(answers: Influences, first: int) -> Influences:
    """The influences with the gaps at joints, from row `first` on, taken as what is left when they grow."""
    sign = np.ones((len(answers.gaps), 1))
    sign[first:] = -1.0
    return replace(
        answers,
        gaps=sign * answers.gaps,
        seats=sign * answers.seats,
        welds=sign * answers.welds,
        stops=tuple(sign * block for block in answers.stops),
    )


Pull = tuple[str, tuple[int, Floats], tuple[int, Floats]]


def _pulls(at: Corners) -> list[Pull]:
    """Pairs of corners that a clamp can draw together: at each level, and from bottom to top over the faces."""
    names = list(CORNERS)
    found: list[Pull] = []
    for level in LEVELS:
        for i, one in enumerate(names):
            for other in names[i + 1 :]:
                found.append((f"{one} to {other}, {level}", at.at[level, one], at.at[level, other]))
    for one in names:
        for other in names:
            if one != other:
                found.append((f"{one} bottom to {other} top", at.at["bottom", one], at.at["top", other]))
    return [pull for pull in found if pull[1][0] != pull[2][0]]


@dataclass(frozen=True, eq=False)
class NamedPulls:
    """Pulls on the finished piece: their names, as in its corrections, and forces (6n, p) of a newton at both ends."""

    names: tuple[str, ...]
    forces: Floats


def pulls_of(setting: Variation) -> NamedPulls:
    """The pulls among the corrections of a piece."""
    found = _pulls(corners(setting.parts))
    return NamedPulls(tuple(name for name, _, _ in found), _forces(setting.parts, found))


def pulls_ends(setting: Variation) -> dict[str, tuple[Floats, Floats]]:
    """Between which two points (3,) of the piece each pull goes [mm]."""
    return {name: (first[1], second[1]) for name, first, second in _pulls(corners(setting.parts))}


def _forces(parts: Loose, pulls: Sequence[Pull]) -> Floats:
    """(6n, p) a newton at both ends of each pull, toward each other."""
    forces = np.zeros((parts.model.dof_count, len(pulls)))
    for column, (_, first, second) in enumerate(pulls):
        _, probes = distance(first, second)
        for probe in probes:
            forces[6 * probe.node : 6 * probe.node + 3, column] -= probe.along
    return forces


def _corrections(
    parts: Loose, pulls: Sequence[Pull], found: Sequence[Effect], answers: Influences, felt: Floats
) -> tuple[tuple[Correction, ...], Floats]:
    actions = [Correction(name, "pull", "N") for name, _, _ in pulls]
    blocks = [answers.pushes]
    for column, effect in enumerate(found):
        if effect.key.startswith("bend:"):
            actions.append(Correction(effect.place, "bend", "rad"))
            blocks.append(
                np.sum([answers.finished_gaps[:, row] * amount for _, row, amount in effect.entries], axis=0)[:, None]
            )
        if effect.key.startswith("foot:"):
            actions.append(Correction(effect.place, "shim", "mm"))
            blocks.append(felt[:, column : column + 1])
    return tuple(actions), np.hstack(blocks)
