"""Marks on the old photo as a careful maker clicks them, and the true sizes that they are to give back.

Run: `python -m builders.old_photo.marking` prints the marks of the photo section, and writes the true sizes down.
"""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from builders.old_photo.camera import CAMERA
from builders.old_photo.room import INCH, LEFT, SIZES, WALL
from builders.old_photo.surfaces import BOARD, COURSE
from fitwright.place.photo import read_picture, snapped

Floats = NDArray[np.float64]

ROOT = Path(__file__).parents[2]
PICTURE = ROOT / "examples" / "drying-rack" / "old-rack.jpg"
TRUE = ROOT / "tests" / "unit" / "place" / "photo" / "old_rack_sizes.csv"
CLICK_PX = 0.7
HALF = SIZES["tube"] * INCH / 2
WIDE, DEEP, HIGH = SIZES["width"] * INCH - HALF, SIZES["depth"] * INCH - HALF, SIZES["height"] * INCH - HALF
"""Of the middle lines on the right, at the back, of the top bar [mm]."""
RAIL, LOWEST, PITCH = (SIZES[name] * INCH for name in ("rail_height", "lowest", "pitch"))
BEND = SIZES["radius"] * INCH


def spots() -> dict[str, Floats]:
    """Where each named spot is in space [mm]."""
    bar = {f"bar {k}": [x, HALF, HIGH] for k, x in enumerate((200, 480, 760), 1)}
    back_bar = {f"back bar {k}": [x, DEEP, HIGH] for k, x in enumerate((300, 540, 800), 1)}
    ledges = {f"ledge {k}": [WIDE, HALF, LOWEST + (k - 1) * PITCH] for k in range(1, 5)}
    angles = np.radians([8, 22, 36, 50, 64, 78])
    bend = {
        f"bend {k}": [WIDE - BEND + BEND * np.cos(a), HALF, HIGH - BEND + BEND * np.sin(a)]
        for k, a in enumerate(angles, 1)
    }
    places = {
        "left foot": [HALF, HALF, 0], "left low": [HALF, HALF, 560], "left middle": [HALF, HALF, 1300],
        "left top": [HALF, HALF, 2000],
        "right foot": [WIDE, HALF, 0], "right middle": [WIDE, HALF, 1500], "right top": [WIDE, HALF, 2060],
        "tie": [WIDE, HALF, RAIL],
        "back foot": [WIDE, DEEP, 0], "back low": [WIDE, DEEP, 620], "back middle": [WIDE, DEEP, 1450],
        "back tie": [WIDE, DEEP, RAIL],
        **bar, **back_bar, **ledges, **bend,
        "stretcher left": [90, HALF, 152.4], "stretcher right": [860, HALF, 152.4],
        "joint 3": [1240, WALL, 3 * COURSE], "joint 27": [1260, WALL, 27 * COURSE],
        "wall left": [1030, WALL, 0], "wall middle": [1180, WALL, 0], "wall right": [1380, WALL, 0],
    }  # fmt: skip
    return {name: np.array(place, dtype=float) for name, place in places.items()}


def loose_edges() -> dict[str, list[tuple[str, list[Floats]]]]:
    """Edges in the room by direction: gaps between boards, the window, the corner of the room."""
    boards = [
        [np.array([k * BOARD, y, 0.0]) for y in ys]
        for k, ys in ((2, (-1000, -650, -300)), (7, (-750, -450, -150)), (9, (-700, -350, 0)))
    ]
    corner = [np.array([LEFT, WALL, z]) for z in (500.0, 1300.0, 2300.0)]
    joint = [[np.array([x, WALL, k * COURSE]) for x in (1080.0, 1300.0, 1560.0)] for k in (16, 37)]
    return {"y": [("board", one) for one in boards], "z": [("corner", corner)], "x": [("brick", one) for one in joint]}


def outlines() -> tuple[list[Floats], list[Floats]]:
    """Both outlines of the right upright: where planes through the eye touch it, low and high (k, 2) [mm]."""
    toward = CAMERA.eye[:2] - np.array([WIDE, HALF])
    middle, open_by = np.arctan2(toward[1], toward[0]), np.arccos(HALF / np.linalg.norm(toward))
    found = []
    for side in (1, -1):
        angle = middle + side * open_by
        foot = np.array([WIDE, HALF]) + HALF * np.array([np.cos(angle), np.sin(angle)])
        found.append([np.array([*foot, z]) for z in (1130.0, 1420.0)])
    return found[0], found[1]


def true_sizes() -> dict[str, float]:
    """What each measure of the job is in truth [mm]."""
    return {
        "uprights": WIDE - HALF, "hoops": DEEP - HALF, "bar": HIGH, "rail": RAIL, "lowest": LOWEST, "pitch": PITCH,
        "tube": 2 * HALF, "bend": BEND,
    }  # fmt: skip


def clicked(chance: np.random.Generator, place: Floats, click: float = CLICK_PX) -> str:
    """A pixel as written in the file, off by chance."""
    u, v = CAMERA.draws(place)[0] + click * chance.standard_normal(2)
    return f"[{u:.1f}, {v:.1f}]"


def main() -> None:
    """Print the section, write the sizes."""
    chance = np.random.default_rng(2027)
    lines = ["  spots:"]
    for name, place in spots().items():
        rough = name.endswith("foot") or name.startswith(("ledge", "tie"))
        said = clicked(chance, place, 1.2 if rough else CLICK_PX)
        if name == "left foot":
            lines.append(f"    {name}: {{at: {said}, click: 1.5, is: [frame.od / 2, frame.od / 2, 0]}}")
        else:
            lines.append(f"    {name}: {{at: {said}, click: 1.5}}" if rough else f"    {name}: {said}")
    lines.append("  # loose edges:")
    for along, edges in loose_edges().items():
        for what, edge in edges:
            lines.append(
                f"    - {{along: {along}, marks: [{', '.join(clicked(chance, one) for one in edge)}]}}   # {what}"
            )
    lines.append("  # tube sides:")
    grey = read_picture(PICTURE.read_bytes()).grey if PICTURE.exists() else None
    for side in outlines():
        rough_ends = [CAMERA.draws(one)[0] + 1.5 * chance.standard_normal(2) for one in side]
        if grey is not None:
            found = snapped(grey, rough_ends[0], rough_ends[1], reach=5.0, spots=4)
            lines.append(
                f"    # within {found.sigma:.2f} px: " + ", ".join(f"[{u:.2f}, {v:.2f}]" for u, v in found.spots)
            )
    print("\n".join(lines))
    with TRUE.open("w", newline="") as file:
        rows = csv.writer(file, lineterminator="\n")
        rows.writerow(["measure", "true_mm"])
        rows.writerows([name, f"{value:.3f}"] for name, value in true_sizes().items())


if __name__ == "__main__":
    main()
