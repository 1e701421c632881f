"""How the piece stands on the floor as it is: level, rock, shims."""

from __future__ import annotations

from math import degrees

import numpy as np

from fitwright.findings import Finding, at_most, needs_input
from fitwright.job.model import Job
from fitwright.piece import Piece
from fitwright.place.model import Fit
from fitwright.place.resting import Stance, feet_of
from fitwright.place.survey.tape import LEVEL_MM, USUAL

AREA = "space"
LEVEL_PER_MM = 0.003  # out of level that is not seen or felt, 3 mm in a metre: common practice
ROCK_MM = {"inch": 25.4 / 32, "mm": 1.0, "cm": 1.0}  # a foot off the floor by more is felt: common practice
FOOT_RANGE_MM = 10.0  # what a levelling foot gives: common practice
SHIM_MM = 6.0  # packing under a bare foot that stays put: common practice
STIFF = "rigid feet on the floor as measured, a smooth surface through the places; the frame taken as stiff"


def floor_findings(job: Job, piece: Piece, placed: Fit) -> list[Finding]:
    """Level, rock and shims where the floor was measured; what is lacking where it was not."""
    if len(feet_of(piece)) < 3:
        return []
    if placed.stance is None:
        return [needs_input(AREA, "floor", "level on the floor", "space: floor: heights at three places or more")]
    stands = placed.stance
    if stands.rolls:
        return [_rock(job, stands), _level(job, piece, stands)]
    return [_shims(job, stands)]


def shims_said(job: Job, stands: Stance) -> str:
    """Each foot and what goes under it, in words."""
    return ", ".join(
        f"{foot.name} {job.style.length(shim)}" for foot, shim in zip(stands.feet, stands.shims.tolist(), strict=True)
    )


def _rock(job: Job, stands: Stance) -> Finding:
    worst = int(np.argmax(stands.open))
    limit = ROCK_MM[job.style.unit] if job.brief.rules.rock is None else job.brief.rules.rock
    return at_most(
        AREA, "floor", "rock on the floor as it is", stands.rock, limit, "mm", tight=0.0, basis=STIFF,
        advice=f"{stands.feet[worst].name} is off the floor: stand it elsewhere, or put casters with levelling stems",
        formula=f"{stands.touching} of {len(stands.feet)} touch; {stands.feet[worst].name} is "
        f"{job.style.length(float(stands.open[worst]))} off the floor",
    )  # fmt: skip


def _level(job: Job, piece: Piece, stands: Stance) -> Finding:
    size = piece.envelope.size
    across, along = float(stands.slope[0] * size[0]), float(stands.slope[1] * size[1])
    longer = float(max(size[0], size[1]))
    out = float(np.hypot(*stands.slope)) * longer
    limit = LEVEL_PER_MM * longer if job.space.level is None else job.space.level
    known = USUAL * float(np.hypot(LEVEL_MM, (job.space.uneven or 0.0) / USUAL))
    style = job.style
    return at_most(
        AREA, "floor", "level on the floor", out, limit, "mm", tight=min(known, limit),
        basis="3 mm in a metre, common practice" if job.space.level is None else "space: level",
        advice=f"it leans by {degrees(stands.tilt):.2f}° and on free wheels rolls downhill: lock the brakes, or put "
        "casters with levelling stems",
        formula=f"{style.length(abs(across))} higher on the {'right' if across > 0 else 'left'}, "
        f"{style.length(abs(along))} higher at the {'back' if along > 0 else 'front'}; its top stands "
        f"{style.length(float(np.hypot(*stands.slope)) * float(size[2]))} aside; ± {style.length(known)}",
    )  # fmt: skip


def _shims(job: Job, stands: Stance) -> Finding:
    feet = any(foot.kind == "foot" for foot in stands.feet)
    limit, what = (FOOT_RANGE_MM, "levelling foot") if feet else (SHIM_MM, "shim")
    return at_most(
        AREA, "floor", "level by feet" if feet else "level by shims", float(stands.shims.max()), limit, "mm",
        tight=USUAL * LEVEL_MM, basis=f"what a {what} gives, common practice; {STIFF}",
        advice="have the floor levelled there, or make the feet longer",
        formula=f"for level, {'turn out' if feet else 'under'} {shims_said(job, stands)}",
    )  # fmt: skip
