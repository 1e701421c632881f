"""What is doubtful about a solved photo, said in words: views that tell little, marks that do not agree."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.job.marks import AXES
from fitwright.place.photo.facing import plane_normals
from fitwright.place.photo.solving import LIKELY, Solved
from fitwright.place.photo.unknowns import BARREL, CENTRE, LOG_FOCAL
from fitwright.place.photo.usual import LOOSE

Floats = NDArray[np.float64]

LEARNT = 0.7
"""A spread that the marks have not brought under this part of the expected one was not learnt from them."""
PARALLEL_RAD = np.radians(3)
SQUARE_RAD = np.radians(4)
FACE_ON_RAD = np.radians(15)
FAR_CENTRE = 2.5
UNKNOWN_BOW = 0.015
"""Part of a length at the marks farthest from the middle that the bow leaves open, from which it is worth saying."""
WIDE = 0.05
MOST_FACTOR = 100.0


@dataclass(frozen=True)
class Doubt:
    """One thing to know about the answer: kind, a short fixed word for programs; text, for the maker."""

    kind: str
    text: str


def doubts(solved: Solved) -> tuple[Doubt, ...]:
    """All that is doubtful, the gravest first."""
    found = [
        *_behind(solved),
        *_disagreeing(solved),
        *_unscaled(solved),
        *_directions(solved),
        *_view(solved),
        *_nearly_parallel(solved),
        *_focal(solved),
        *_centre(solved),
        *_bow(solved),
        *_wide(solved),
    ]
    return tuple(found)


def _behind(solved: Solved) -> list[Doubt]:
    state, scene = solved.estimate.state, solved.estimate.state.unknowns.scene
    names = [
        name for name, ahead in zip(scene.names, (state.points @ state.rotation.T)[:, 2], strict=True) if ahead <= 0
    ]
    text = f"{', '.join(names[:4])} would lie behind the camera: an edge or a plane there is marked the wrong way"
    return [Doubt("behind", text)] if names else []


def _disagreeing(solved: Solved) -> list[Doubt]:
    estimate = solved.estimate
    if estimate.raised <= 1:
        return []
    scene = estimate.state.unknowns.scene
    misses = estimate.equations.misses(estimate.state.row)[: 2 * len(scene.names)].reshape(-1, 2)
    off = np.linalg.norm(misses, axis=1)
    worst = f"; {scene.names[int(off.argmax())]} is the furthest off" if len(off) else ""
    return [
        Doubt(
            "disagree",
            f"the marks miss one another by {estimate.raised:.1f} times what their clicks allow{worst}: "
            "look at it again; every plus or minus is that much wider",
        )
    ]


def _unscaled(solved: Solved) -> list[Doubt]:
    found = [
        Doubt(
            "untied",
            f"known {name} joins spots that no edge or plane ties together, so it is not used: say along what it runs",
        )
        for name in solved.ignored
    ]
    lost = [one.name for one in solved.measures if one.value is None]
    if lost:
        text = "a known length on spots tied to it by edges or planes is needed; only its share of "
        found.append(Doubt("unscaled", f"{', '.join(lost)}: {text}{solved.measures[0].share_of} is known"))
    return found


def _directions(solved: Solved) -> list[Doubt]:
    lines = solved.estimate.state.unknowns.scene.lines
    marked = [axis for axis in AXES if axis in lines]
    if len(marked) > 1:
        return []
    said = f"only edges along {marked[0]} are marked" if marked else "no edges along x, y or z are marked"
    return [Doubt("directions", f"{said}: the camera is taken to be about level; mark edges along a second direction")]


def _view(solved: Solved) -> list[Doubt]:
    """One-point perspective: two axes lie across the view; face-on: one axis goes nearly straight away."""
    lines = solved.estimate.state.unknowns.scene.lines
    forward = np.abs(solved.estimate.state.rotation[2])
    across = [axis for k, axis in enumerate(AXES) if axis in lines and forward[k] < np.sin(SQUARE_RAD)]
    away = AXES[int(forward.argmax())]
    if len(across) > 1:
        return [
            Doubt(
                "one-point",
                f"edges along {' and '.join(across)} lie square across the view (one-point perspective): "
                f"they say nothing of the focal length, so depth along {away} hangs on what is expected of the camera",
            )
        ]
    if forward.max() > np.cos(FACE_ON_RAD):
        text = f"the piece is seen nearly face-on, along {away}: sizes along {away} and the focal length are weak"
        return [Doubt("face-on", text)]
    return []


def _nearly_parallel(solved: Solved) -> list[Doubt]:
    scene, lens = solved.estimate.state.unknowns.scene, solved.estimate.state.lens
    found = []
    for name, rows in plane_normals(scene, lens).items():
        open_by = 1 / max(float(np.linalg.svd(rows, compute_uv=False)[1]), 1e-9) if len(rows) > 1 else 0.0
        if open_by > PARALLEL_RAD:
            text = f"edges along {name} are too short or too close together: alone they leave that direction open by"
            found.append(Doubt("parallel", f"{text} {min(np.degrees(open_by), 90):.0f}°"))
    return found


def _focal(solved: Solved) -> list[Doubt]:
    expected, spread = solved.estimate.equations.expected, solved.spread(LOG_FOCAL)
    if expected.focal_from not in LOOSE or spread < LEARNT * expected.log_focal_sigma:
        return []
    return [
        Doubt(
            "focal",
            f"the marks say little of the focal length; {expected.focal_from} is used, right within a factor of "
            f"{np.exp(min(LIKELY * spread, np.log(MOST_FACTOR))):.1f}",
        )
    ]


def _centre(solved: Solved) -> list[Doubt]:
    expected, lens = solved.estimate.equations.expected, solved.estimate.state.lens
    off = float(np.hypot(lens.centre[0] - expected.centre[0], lens.centre[1] - expected.centre[1]))
    if solved.photo.cropped:
        spread = solved.spread(CENTRE.start) * lens.half_diagonal
        return [
            Doubt(
                "cropped",
                f"cropped: where the lens pointed is found from the marks only, within {LIKELY * spread:.0f} px",
            )
        ]
    if off > FAR_CENTRE * expected.centre_sigma:
        text = f"the lens seems to have pointed {off:.0f} px from the middle of the picture"
        return [Doubt("centre", f"{text}: if it was cropped, say cropped: true")]
    return []


def _bow(solved: Solved) -> list[Doubt]:
    scene, lens = solved.estimate.state.unknowns.scene, solved.estimate.state.lens
    pixels = np.vstack([scene.pixels, *(one.pixels for one in scene.straights)])
    reach = float(np.linalg.norm(pixels - np.array(lens.centre), axis=1).max()) / lens.half_diagonal
    if solved.spread(BARREL) * reach**2 < UNKNOWN_BOW:
        return []
    return [
        Doubt(
            "bow",
            "how much the lens bows straight lines is not known, which alone may be 2 to 5 % of a length: mark three "
            "or more straight edges along their length, far from the middle",
        )
    ]


def _wide(solved: Solved) -> list[Doubt]:
    wide = [one.name for one in solved.measures if one.plus_minus and one.value and one.plus_minus > WIDE * one.value]
    return [Doubt("wide", f"{', '.join(wide)}: known to no better than 5 % from this picture")] if wide else []
