"""The old rack as a job of its own, and the room in which it stood."""

from __future__ import annotations

import tempfile
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from builders.old_photo.shapes import Body, body, box, rope, sheet, turned
from fitwright.job import load_job
from fitwright.piece import Piece, build
from fitwright.piece.mesh import meshes

Floats = NDArray[np.float64]

INCH = 25.4
SIZES = {
    "width": 38.0, "depth": 31.0, "height": 89.25, "lowest": 9.625, "pitch": 10.875, "rail_height": 79.625,
    "tube": 1.375, "radius": 4.75, "slat": 4.25,
}  # fmt: skip
"""Of the old rack [in]: outside of its tubes; tops of its lowest ledge; middle line of its rail; its bends on the
middle line; its slats' width."""

OLD_RACK = """
job: {{name: Old rack, unit: inch}}
dims:
  {{width: {width}, depth: {depth}, height: {height}, lowest: {lowest}, pitch: {pitch}, rail_height: {rail_height},
   od: frame.od}}
stock:
  frame: round tube {tube} x 14 ga
  ledge: angle 1 1/2 x 1 1/2 x 1/8
  slat: flat {slat} x 3/4
parts:
  hoop:
    stock: frame
    outside: [[0, 0, 0], [0, 0, height], [width, 0, height], [width, 0, 0]]
    radius: {radius}
    repeat: {{y: [0, depth]}}
  ledge:
    stock: ledge
    path: [[od / 2, 0, lowest], [od / 2, depth, lowest]]
    legs: [right, down]
    repeat: {{z: {{every: pitch, count: 4}}}}
    mirror: {{x: width / 2}}
  tie:
    stock: frame
    path: [[od / 2, 0, rail_height], [od / 2, depth, rail_height]]
    mirror: {{x: width / 2}}
  stretcher:
    stock: frame
    path: [[od / 2, od / 2, 6], [width - od / 2, od / 2, 6]]
    mirror: {{y: depth / 2}}
  rail:
    stock: frame
    path: [[od / 2, depth / 2, rail_height], [width - od / 2, depth / 2, rail_height]]
"""

WALL = 31.0 * INCH + 95.0
"""Where the brick begins [mm], y; the plastered wall stands on the left at x."""
LEFT = -1050.0
TOP = 2900.0


def old_rack() -> Piece:
    """The old rack's steel, from the same program that builds the new one's."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "job.yaml"
        file.write_text(OLD_RACK.format(**SIZES))
        return build(load_job(file))


def things() -> list[Body]:
    """Everything in view."""
    return [*_rack(), *_room(), *_window(), *_on_the_rack(), *_around()]


def _rack() -> list[Body]:
    found = [
        body(mesh.vertices, mesh.faces, "angle" if mesh.name.startswith("ledge") else "steel")
        for mesh in meshes(old_rack())
    ]
    half, width, depth = SIZES["tube"] * INCH / 2, SIZES["width"] * INCH, SIZES["depth"] * INCH
    foot = turned([(half + 5, 0), (half + 5, 4), (half + 3, 26), (half, 27)], "rubber")
    found += [foot.moved(x, y, 0) for x in (half, width - half) for y in (half, depth - half)]
    for shelf in range(4):
        found += _shelf((SIZES["lowest"] + shelf * SIZES["pitch"]) * INCH)
    return found


def _shelf(at: float) -> list[Body]:
    """Slats along x on their ledges, two battens below."""
    tube, width, depth = SIZES["tube"] * INCH, SIZES["width"] * INCH, SIZES["depth"] * INCH
    slat, low, high = SIZES["slat"] * INCH, tube + 2, width - tube - 2
    count = 5
    gap = (depth - 14 - count * slat) / (count - 1)
    begins = [7 + k * (slat + gap) for k in range(count)]
    slats = [box((low, y, at), (high, y + slat, at + 19), "slat") for y in begins]
    battens = [box((x, 12, at - 19), (x + 60, depth - 12, at), "slat") for x in (low + 110, high - 170)]
    return slats + battens


def _room() -> list[Body]:
    floor = box((LEFT, -4200, -20), (3400, WALL, 0), "floor")
    brick = box((LEFT, WALL, 0), (3400, WALL + 100, TOP), "brick")
    skirting = box((LEFT, -4200, 0), (LEFT + 18, WALL, 120), "white")
    ceiling = box((LEFT, -1200, TOP), (3400, WALL, TOP + 30), "white")
    beam = box((LEFT, -330, TOP - 190), (3400, -180, TOP), "stool")
    return [floor, brick, skirting, ceiling, beam]


def _window() -> list[Body]:
    """The wall on the left with a window in it: four panes, a board below, and what is bright outside."""
    thick, low, high, near, far = 160.0, 1000.0, 2280.0, -1150.0, 250.0
    walls = [
        box((LEFT - thick, -4200, 0), (LEFT, near, TOP), "plaster"),
        box((LEFT - thick, far, 0), (LEFT, WALL, TOP), "plaster"),
        box((LEFT - thick, near, 0), (LEFT, far, low), "plaster"),
        box((LEFT - thick, near, high), (LEFT, far, TOP), "plaster"),
    ]
    bars = [box((LEFT - 120, y - 22, low), (LEFT - 80, y + 22, high), "white") for y in (near + 22, -450, far - 22)]
    bars += [box((LEFT - 120, near, z - 22), (LEFT - 80, far, z + 22), "white") for z in (low + 22, 1700, high - 22)]
    board = box((LEFT - 80, near - 60, low - 30), (LEFT + 70, far + 60, low), "white")
    return [*walls, *bars, board]


def outside() -> Body:
    """The sky behind the window, which casts no shadow."""
    return box((LEFT - 700, -2600, -300), (LEFT - 690, 2500, 4000), "outside")


def _on_the_rack() -> list[Body]:
    width, depth = SIZES["width"] * INCH, SIZES["depth"] * INCH
    rail = SIZES["rail_height"] * INCH
    shelf = [(SIZES["lowest"] + k * SIZES["pitch"]) * INCH + 19 for k in range(4)]
    found = [*_coat(390, depth / 2, rail - 30, "oilskin", 0.12), *_coat(640, depth / 2 + 10, rail - 30, "jersey", -0.2)]
    found += _boots(230, 190, shelf[0], 0.1) + _boots(560, 230, shelf[0], -0.25)
    found += _coil(300, 300, shelf[1], 120) + _coil(690, 420, shelf[2], 105)
    found.append(box((480, 200, shelf[1]), (760, 420, shelf[1] + 120), "crate").moved(40, 0, 0))
    found += [
        box((170, 150, shelf[3] + 34 * k), (450, 480, shelf[3] + 34 * k + 30), s)
        for k, s in enumerate(("towel", "jersey", "towel"))
    ]
    found.append(turned([(0, 0), (62, 0), (62, 130), (55, 142), (20, 150), (0, 150)], "tin").moved(700, 260, shelf[3]))
    found.append(turned([(0, 0), (45, 0), (45, 90), (0, 92)], "red").moved(560, 380, shelf[3]))
    found += _towel(width - 190, depth / 2, rail)
    return found


def _coat(x: float, y: float, top: float, surface: str, turn: float) -> list[Body]:
    """A coat on a hanger: a body that widens downwards in folds, two sleeves."""

    def hung(u: Floats, v: Floats) -> Floats:
        angle = 2 * np.pi * u
        folds = 1 + v**0.7 * (
            0.16 * np.sin(5 * angle + 2) + 0.09 * np.sin(11 * angle + 5 * v) + 0.05 * np.sin(17 * angle)
        )
        shoulder = np.clip(v / 0.1, 0, 1) ** 0.5
        wide, deep = (40 + 165 * shoulder + 45 * v) * folds, (30 + 32 * shoulder + 38 * v) * folds
        wave = 8 * np.sin(9 * v + 3 * angle)
        return np.column_stack([deep * np.cos(angle), wide * np.sin(angle) + wave, -60 - 740 * v])

    found = [sheet(hung, 80, 40, surface)]
    for side in (-1, 1):
        path = np.array(
            [[20 * np.sin(3 * t), side * (185 + 75 * t**0.6), -110 - 560 * t] for t in np.linspace(0, 1, 24)]
        )
        found.append(rope(path, 56, surface, 16))
    found.append(rope(np.array([[0, 0, 30 - 90 * t] for t in np.linspace(0, 1, 5)]), 4, "zinc"))
    return [one.moved(x, y, top, turn) for one in found]


def _towel(x: float, y: float, rail: float) -> list[Body]:
    half = SIZES["tube"] * INCH / 2

    def hung(u: Floats, v: Floats) -> Floats:
        over = np.clip((v - 0.47) / 0.06, 0, 1) * np.pi
        down = np.where(v < 0.47, (0.47 - v) * 1000, np.where(v > 0.53, (v - 0.53) * 900, 0.0))
        loose = 10 * np.sin(11 * u + 1.5 * v) * np.clip(down / 300, 0, 1)
        return np.column_stack([
            -120 + 240 * u + 6 * np.sin(7 * v), -(half + 3) * np.cos(over) + loose, (half + 3) * np.sin(over) - down
        ])  # fmt: skip

    return [sheet(hung, 30, 60, "towel").moved(x, y, rail)]


def _boots(x: float, y: float, at: float, turn: float) -> list[Body]:
    found = []
    for side in (-1, 1):
        leg = turned(
            [(0, 8), (44, 8), (46, 60), (50, 150), (57, 235), (58, 236), (54, 236), (50, 160), (0, 120)], "boot"
        )
        found.append(leg.moved(65 * side, 60, 0))

        def foot(u: Floats, v: Floats, side: int = side) -> Floats:
            angle, tip = 2 * np.pi * u, np.sin(np.pi * np.clip(v, 0.02, 0.98)) ** 0.4
            return np.column_stack([
                65 * side + 44 * tip * np.cos(angle), 105 - 235 * v,
                np.maximum(38 + (42 - 8 * v) * tip * np.sin(angle), 2)
            ])  # fmt: skip

        found.append(sheet(foot, 24, 20, "boot"))
        found.append(box((65 * side - 40, -120, 0), (65 * side + 40, 100, 9), "rubber"))
    return [one.moved(x, y, at, turn) for one in found]


def _coil(x: float, y: float, at: float, radius: float) -> list[Body]:
    turns = np.linspace(0, 2 * np.pi * 6, 260)
    grow = radius + 9 * np.sin(turns * 0.37) + 6 * np.sin(turns * 1.7)
    path = np.column_stack(
        [grow * np.cos(turns), grow * np.sin(turns), 11 + 17 * turns / (2 * np.pi) + 4 * np.sin(2.3 * turns)]
    )
    return [rope(path, 10, "rope", 8).moved(x, y, at)]


def _around() -> list[Body]:
    found = [*_stool(1590, 40), *_plant(1690, 610), *_lifebuoy(1440, 1850), *_chart()]
    found.append(box((0, 0, 0), (430, 330, 262), "crate").moved(-760, 420, 0, 0.2))
    found += _coil(-560, 640, 262, 120)
    bucket = turned(
        [(0, 3), (105, 3), (108, 0), (140, 250), (145, 252), (145, 258), (136, 256), (104, 30), (0, 28)], "zinc"
    )
    found.append(bucket.moved(-420, -120, 0))
    found.append(
        rope(
            np.array([[142 * np.cos(t), 30 * np.sin(t), 235 - 90 * np.sin(t)] for t in np.linspace(0, np.pi, 30)]),
            3,
            "zinc",
        ).moved(-420, -120, 0, 0.6)
    )
    oar = np.array([[-880 + 130 * t, WALL - 70 - 180 * (1 - t), 20 + 2300 * t] for t in np.linspace(0, 1, 12)])
    found.append(rope(oar, 23, "stool", 14))
    found.append(box((-70, -14, 0), (70, 14, 560), "red").moved(-866, WALL - 235, 40, 0.15))
    return found


def _stool(x: float, y: float) -> list[Body]:
    seat = turned([(0, 470), (160, 470), (168, 474), (170, 486), (165, 497), (155, 500), (0, 496)], "stool", 48)
    found = [seat]
    feet = [np.array([150 * np.cos(a), 150 * np.sin(a), 0.0]) for a in np.radians([20, 110, 200, 290])]
    for foot in feet:
        found.append(
            rope(
                np.array(
                    [foot + t * (np.array([0.55, 0.55, 0]) * foot + [0, 0, 472] - foot) for t in np.linspace(0, 1, 6)]
                ),
                17,
                "stool",
                14,
            )
        )
    for one, other in zip(feet, feet[1:] + feet[:1], strict=True):
        a, b = (0.83 * one + [0, 0, 180], 0.83 * other + [0, 0, 180])
        found.append(rope(np.array([a + t * (b - a) for t in np.linspace(0, 1, 4)]), 10, "stool", 10))
    mug = turned([(0, 3), (38, 0), (40, 88), (36, 88), (34, 10), (0, 10)], "white").moved(40, -30, 500)
    return [one.moved(x, y, 0, 0.4) for one in [*found, mug]]


def _plant(x: float, y: float) -> list[Body]:
    chance = np.random.default_rng(3)
    pot = turned([(0, 2), (92, 0), (128, 200), (140, 202), (142, 236), (128, 238), (122, 212), (0, 210)], "pot")
    found = [pot, turned([(0, 214), (124, 208)], "earth")]
    for _ in range(34):
        way, lean, long, wide = (
            chance.uniform(0, 2 * np.pi),
            chance.uniform(0.15, 1.15),
            chance.uniform(330, 780),
            chance.uniform(20, 36),
        )

        def leaf(
            u: Floats, v: Floats, way: float = way, lean: float = lean, long: float = long, wide: float = wide
        ) -> Floats:
            bend = lean * (0.35 + v * 1.1)
            out, up = long * v * np.sin(bend), long * v * np.cos(bend * 0.9) + 205
            across = wide * (u - 0.5) * 2 * np.sin(np.pi * np.clip(0.05 + 0.95 * v, 0, 1)) ** 0.7
            fold = 7 * np.abs(u - 0.5)
            return np.column_stack([
                out * np.cos(way) - across * np.sin(way), out * np.sin(way) + across * np.cos(way), up + fold
            ])  # fmt: skip

        found.append(sheet(leaf, 4, 10, "leaf"))
    return [one.moved(x, y, 0) for one in found]


def _lifebuoy(x: float, z: float) -> list[Body]:
    found = []
    for k in range(8):
        turns = np.linspace(np.pi / 4 * k, np.pi / 4 * (k + 1), 10)
        path = np.column_stack([270 * np.cos(turns), np.zeros(10), 270 * np.sin(turns)])
        found.append(rope(path, 66, "red" if k % 2 else "cork", 18))
    return [one.moved(x, WALL - 70, z) for one in found]


def _chart() -> list[Body]:
    low, high, at = (-760.0, 1330.0), (-210.0, 1750.0), WALL - 22
    sides = [
        box((low[0], at, low[1]), (high[0], WALL, low[1] + 26), "black"),
        box((low[0], at, high[1] - 26), (high[0], WALL, high[1]), "black"),
        box((low[0], at, low[1]), (low[0] + 26, WALL, high[1]), "black"),
        box((high[0] - 26, at, low[1]), (high[0], WALL, high[1]), "black"),
    ]
    return [*sides, box((low[0], at + 12, low[1]), (high[0], WALL, high[1]), "chart")]
