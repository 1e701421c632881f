"""What can be read off the parts before the piece is finished: after each set-up, or with every part still loose."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation.effects import columns
from fitwright.mechanics.variation.influences import connected, influences
from fitwright.mechanics.variation.reading import Reading, rows_of
from fitwright.mechanics.variation.setting import Variation


def felt_after(setting: Variation, stage: int, readings: Sequence[Reading]) -> Floats:
    """(o, e) what readings taken after some stages, released, feel of the elementary errors.

    stage: how many stages are done; 0 for loose parts. Only what does not depend on how the parts lie has a meaning:
    distances and angles within what is joined by then.
    Holds for what `influences` holds for.
    """
    answers = influences(
        setting.parts,
        setting.stages[:stage],
        rows_of(setting.parts, readings),
        np.zeros((setting.parts.model.dof_count, 0)),
        standing=stage == len(setting.stages),
    )
    total = columns(setting.found, answers)
    column = {effect.key: i for i, effect in enumerate(setting.found)}
    for row, reading in zip(total, readings, strict=True):
        for key, amount in reading.direct.items():
            row[column[key]] += amount
    return total


def joined_after(setting: Variation, members: Sequence[int]) -> int:
    """How many stages it takes until some members are one; all of them where they never are. One alone takes none."""
    wanted = set(members)
    for stage in range(len(setting.stages) + 1):
        done = [i for one in setting.stages[:stage] for i in one.meetings]
        if any(wanted <= set(group) for group in connected(setting.parts, done)):
            return stage
    return len(setting.stages)
