"""What things are made of: colour and small bumps by place, from noise and the bond of bricks and boards."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

COURSE, BRICK = 203.2 / 3, 203.2
"""Three courses of brick to 8 in, each brick with its joint 8 in long [mm]: common practice for modular brick."""
BOARD = 133.0
_TABLE = np.random.default_rng(5).random((256, 256))


def noise(u: Floats, v: Floats, seed: int = 0) -> Floats:
    """Smooth noise from 0 to 1, about one bump for each unit of u and v."""
    u, v = u + 37.7 * seed, v + 91.3 * seed
    i, j = np.floor(u).astype(int), np.floor(v).astype(int)
    a, b = u - i, v - j
    a, b = a * a * (3 - 2 * a), b * b * (3 - 2 * b)
    corner = [_TABLE[(i + k) % 256, (j + m) % 256] for k in (0, 1) for m in (0, 1)]
    found: Floats = (corner[0] * (1 - b) + corner[1] * b) * (1 - a) + (corner[2] * (1 - b) + corner[3] * b) * a
    return found


def cloudy(u: Floats, v: Floats, seed: int = 0, octaves: int = 4) -> Floats:
    """Noise on several scales, from 0 to 1."""
    total, weight = np.zeros_like(u), 0.0
    for k in range(octaves):
        total += noise(u * 2**k, v * 2**k, seed + k) / 2**k
        weight += 1 / 2**k
    return total / weight


def colour_of(name: str, places: Floats, normals: Floats) -> tuple[Floats, Floats, float]:
    """Colour (n, 3) and tilted normals (n, 3) of a surface, and how much it shines."""
    maker = SURFACES.get(name)
    if maker is not None:
        return maker(places, normals)
    red, green, blue, shine, mottle = PLAIN[name]
    spots = cloudy(places @ [0.021, 0.013, 0.004], places @ [0.003, 0.011, 0.022], len(name))
    return np.array([red, green, blue]) * (1 + mottle * (spots[:, None] - 0.5)), normals, shine


PLAIN = {
    "steel": (0.30, 0.36, 0.33, 0.35, 0.25),
    "angle": (0.27, 0.32, 0.30, 0.2, 0.3),
    "rubber": (0.05, 0.05, 0.05, 0.1, 0.2),
    "oilskin": (0.78, 0.55, 0.10, 0.25, 0.25),
    "jersey": (0.10, 0.14, 0.26, 0.0, 0.5),
    "towel": (0.72, 0.70, 0.64, 0.0, 0.2),
    "boot": (0.055, 0.075, 0.06, 0.3, 0.4),
    "cork": (0.70, 0.64, 0.52, 0.05, 0.3),
    "red": (0.50, 0.07, 0.05, 0.15, 0.3),
    "pot": (0.56, 0.26, 0.15, 0.05, 0.35),
    "earth": (0.06, 0.045, 0.03, 0.0, 0.8),
    "leaf": (0.10, 0.21, 0.07, 0.25, 0.9),
    "rope": (0.56, 0.45, 0.28, 0.0, 0.7),
    "zinc": (0.48, 0.49, 0.49, 0.5, 0.4),
    "white": (0.74, 0.72, 0.66, 0.15, 0.15),
    "black": (0.05, 0.045, 0.04, 0.25, 0.3),
    "outside": (1.9, 2.0, 2.1, 0.0, 0.25),
    "tin": (0.13, 0.26, 0.42, 0.3, 0.2),
}


def _wall(places: Floats, normals: Floats) -> tuple[Floats, Floats, float]:
    """Brick in stretcher bond, joints a little uneven, with soot and lime on it."""
    x, z = places[:, 0], places[:, 2]
    wave = 2.2 * (noise(x / 31, z / 17, 3) - 0.5)
    course = np.floor(z / COURSE)
    along = x / BRICK + 0.5 * (course % 2)
    number = np.floor(along)
    to_bed = np.minimum(z - course * COURSE, (course + 1) * COURSE - z) + wave
    to_end = np.minimum(along - number, number + 1 - along) * BRICK + 2.2 * (noise(x / 13, z / 29, 8) - 0.5)
    joint = np.clip((5.4 - np.minimum(to_bed, to_end)) / 1.6, 0, 1)
    one = _TABLE[(number.astype(int) * 7) % 256, (course.astype(int) * 13) % 256]
    other = _TABLE[(number.astype(int) * 11 + 90) % 256, (course.astype(int) * 5 + 31) % 256]
    clay = (
        np.array([0.43, 0.205, 0.145]) * (0.72 + 0.55 * one[:, None]) + np.array([0.02, 0.05, 0.045]) * other[:, None]
    )
    clay *= 0.78 + 0.5 * cloudy(x / 16, z / 16, 11)[:, None]
    clay = np.where((other > 0.9)[:, None], clay * 0.55, clay)
    mortar = np.array([0.50, 0.46, 0.40]) * (0.8 + 0.4 * cloudy(x / 9, z / 9, 14)[:, None])
    colour = clay * (1 - joint[:, None]) + mortar * joint[:, None]
    stain = 0.72 + 0.5 * cloudy(x / 420, z / 300, 21)
    bumps = cloudy(x / 7, z / 7, 23) - 0.5
    tilt = np.column_stack([0.35 * bumps, np.zeros_like(x), 0.35 * (cloudy(x / 7, z / 7, 27) - 0.5)])
    below = np.clip((6.5 - (z - course * COURSE)) / 3, 0, 1) * 0.25
    tilt[:, 2] -= below
    return colour * stain[:, None], _unit(normals + tilt), 0.03


def _floor(places: Floats, normals: Floats) -> tuple[Floats, Floats, float]:
    """Boards that run towards the brick wall, worn, with dark gaps and ends."""
    x, y = places[:, 0], places[:, 1]
    number = np.floor(x / BOARD).astype(int)
    shift = 900 * _TABLE[(number * 17) % 256, 3]
    length = np.floor((y + shift) / 1850).astype(int)
    tone = _TABLE[(number * 5) % 256, (length * 29 + 7) % 256]
    streak = cloudy(x / 9 + 50 * tone, y / 260, 31, 5)
    fine = noise(x / 1.7 + 11 * tone, y / 90, 37)
    wood = np.array([0.40, 0.255, 0.145]) * (0.66 + 0.5 * tone[:, None]) * (0.62 + 0.6 * streak[:, None])
    wood *= 0.9 + 0.2 * fine[:, None]
    edge = np.minimum(x - number * BOARD, (number + 1) * BOARD - x)
    end = np.abs((y + shift) - (length + (y + shift - length * 1850 > 925)) * 1850)
    gap = np.clip((2.4 + 0.8 * noise(y / 60, x / 60, 41) - np.minimum(edge, end)) / 1.2, 0, 1)
    worn = 0.75 + 0.5 * cloudy(x / 500, y / 500, 43)
    tilt = np.column_stack([0.10 * (streak - 0.5), np.zeros_like(x), np.zeros_like(x)])
    return wood * worn[:, None] * (1 - 0.88 * gap[:, None]), _unit(normals + tilt), 0.22


def _plaster(places: Floats, normals: Floats) -> tuple[Floats, Floats, float]:
    y, z = places[:, 1] + places[:, 0], places[:, 2]
    tone = 0.86 + 0.22 * cloudy(y / 330, z / 330, 51) + 0.05 * (cloudy(y / 12, z / 12, 55) - 0.5)
    lime, dado = np.array([0.62, 0.60, 0.52]), np.array([0.36, 0.43, 0.40])
    low = np.clip((1010 - z) / 4, 0, 1)[:, None]
    return (lime * (1 - low) + dado * low) * tone[:, None], normals, 0.04


def _slat(places: Floats, normals: Floats) -> tuple[Floats, Floats, float]:
    """Pine along x, one board unlike the other."""
    x, y, z = places.T
    board = np.floor(y / 135.0 + 3 * np.floor(z / 100)).astype(int)
    tone = _TABLE[(board * 19) % 256, 77]
    grain = cloudy(y / 6 + 40 * tone, x / 300, 61, 5)
    wood = np.array([0.60, 0.43, 0.25]) * (0.75 + 0.35 * tone[:, None]) * (0.7 + 0.5 * grain[:, None])
    return wood, normals, 0.12


def _stool(places: Floats, normals: Floats) -> tuple[Floats, Floats, float]:
    x, y, z = places.T
    grain = cloudy((x + y) / 8, z / 160 + (x - y) / 220, 71, 5)
    return np.array([0.36, 0.20, 0.10]) * (0.6 + 0.7 * grain[:, None]), normals, 0.3


def _chart(places: Floats, normals: Floats) -> tuple[Floats, Floats, float]:
    """A sea chart: land, water, soundings."""
    x, z = places[:, 0] / 130, places[:, 2] / 130
    land = cloudy(x, z, 81, 5)
    shore = np.clip((land - 0.52) / 0.015, 0, 1)[:, None]
    line = (np.abs(land - 0.47) < 0.006) | (np.abs(land - 0.42) < 0.006)
    colour = np.array([0.62, 0.66, 0.62]) * (1 - shore) + np.array([0.66, 0.56, 0.34]) * shore
    colour = np.where(line[:, None], colour * 0.6, colour)
    dots = noise(places[:, 0] / 5, places[:, 2] / 4, 83) > 0.93
    return np.where((dots & (shore[:, 0] < 0.5))[:, None], colour * 0.55, colour), normals, 0.1


def _crate(places: Floats, normals: Floats) -> tuple[Floats, Floats, float]:
    x, y, z = places.T
    grain = cloudy((x - y) / 150, z / 6, 91, 5)
    slot = (np.abs(((z - 20) % 82) - 41) > 37)[:, None]
    colour = np.array([0.47, 0.36, 0.22]) * (0.62 + 0.65 * grain[:, None])
    return np.where(slot, colour * 0.25, colour), normals, 0.05


SURFACES: dict[str, Callable[[Floats, Floats], tuple[Floats, Floats, float]]] = {
    "brick": _wall, "floor": _floor, "plaster": _plaster, "slat": _slat, "stool": _stool, "chart": _chart,
    "crate": _crate,
}  # fmt: skip


def _unit(vectors: Floats) -> Floats:
    found: Floats = vectors / np.linalg.norm(vectors, axis=1, keepdims=True)
    return found
