"""From what is seen to an old photo: light, the bow of the lens, softness, fading and grain."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFilter
from scipy.ndimage import gaussian_filter, map_coordinates

from builders.old_photo.seeing import Eye, Seen, lit
from builders.old_photo.shapes import Body
from builders.old_photo.surfaces import colour_of, noise

Floats = NDArray[np.float64]

SUN = np.array([-0.86, -0.28, 0.55])
SKY_SAMPLES, LAMP_SAMPLES = 18, 10


def lighted(picture: Seen, bodies: Sequence[Body], eye: Eye) -> Floats:
    """The picture in light (height, width, 3): sun and sky by the window, a lamp, light from all round."""
    there = picture.surface >= 0
    places, normals = picture.places[there], picture.normals[there]
    colours, tilted, shine = np.zeros_like(places), normals.copy(), np.zeros(len(places))
    for number, name in enumerate(picture.names):
        mine = picture.surface[there] == number
        if mine.any():
            colours[mine], tilted[mine], shine[mine] = colour_of(name, places[mine], normals[mine])
    total = _all_round(tilted) * _open(picture, eye)[there][:, None]
    gloss = np.zeros_like(places)
    for toward, strength in _lights():
        reaches = lit(bodies, toward, places, normals)
        facing = np.clip(tilted @ toward, 0, None) * reaches
        total += facing[:, None] * strength
        gloss += (_glint(places, tilted, toward, eye) * reaches * shine)[:, None] * strength
    image = np.full((*picture.surface.shape, 3), 1.0)
    bright = np.array([name == "outside" for name in picture.names])[picture.surface[there]]
    image[there] = np.where(bright[:, None], colours, colours * total + gloss)
    return image


def _lights() -> list[tuple[Floats, Floats]]:
    """Directions to light and its colours: the sun, parts of the sky, a shaded lamp with its softness."""
    chance = np.random.default_rng(12)
    found = [(_unit(SUN + 0.012 * chance.standard_normal(3)), np.array([1.05, 0.93, 0.74]) / 4 * 1.5) for _ in range(4)]
    for k in range(SKY_SAMPLES):
        around = -0.95 + 1.9 * (k + chance.random()) / SKY_SAMPLES
        up = chance.uniform(-0.05, 0.75)
        toward = _unit(np.array([-np.cos(around), np.sin(around), up]))
        found.append((toward, np.array([0.86, 0.95, 1.05]) * 2.2 / SKY_SAMPLES))
    for _ in range(LAMP_SAMPLES):
        toward = _unit(np.array([0.35, -0.80, 0.42]) + 0.30 * chance.standard_normal(3) * [1, 0.4, 0.8])
        found.append((toward, np.array([1.0, 0.86, 0.66]) * 0.62 / LAMP_SAMPLES))
    return found


def _all_round(normals: Floats) -> Floats:
    up = 0.5 + 0.5 * normals[:, 2:3]
    left = 0.5 - 0.5 * normals[:, 0:1]
    return np.asarray(
        np.array([0.19, 0.18, 0.165]) * up
        + np.array([0.15, 0.12, 0.09]) * (1 - up)
        + np.array([0.05, 0.06, 0.07]) * left
    )


def _glint(places: Floats, normals: Floats, toward: Floats, eye: Eye) -> Floats:
    back = eye.eye - places
    half = back / np.linalg.norm(back, axis=1, keepdims=True) + toward
    half /= np.linalg.norm(half, axis=1, keepdims=True)
    found: Floats = 1.3 * np.clip(np.einsum("nc,nc->n", half, normals), 0, 1) ** 42
    return found


def _open(picture: Seen, eye: Eye) -> Floats:
    """How open each place is to light from all round (height, width): less in corners and under things."""
    height, width = picture.surface.shape
    chance = np.random.default_rng(8)
    hidden, rows, columns = np.zeros((height, width)), *np.mgrid[0:height, 0:width]
    away = np.maximum((picture.places - eye.eye) @ eye.rotation[2], 100)
    samples = 28
    for k in range(samples):
        reach, angle = 420 * ((k + 0.5) / samples) ** 1.3 + 8, k * 2.399963 + chance.random((height, width)) * 2.4
        size = reach * eye.focal / away
        r = np.clip((rows + size * np.sin(angle)).round().astype(int), 0, height - 1)
        c = np.clip((columns + size * np.cos(angle)).round().astype(int), 0, width - 1)
        gap = picture.places[r, c] - picture.places
        long = np.linalg.norm(gap, axis=2) + 1e-6
        rise = np.einsum("ijc,ijc->ij", gap, picture.normals) / long
        hidden += np.clip(rise - 0.08, 0, 1) / (1 + (long / 420) ** 2)
    found: Floats = np.clip(1 - 2.1 * hidden / samples, 0.12, 1)
    return gaussian_filter(found, 2.5)


def bowed(
    image: Floats, eye: Eye, size: tuple[int, int], centre: tuple[float, float], barrel: float, focal: float
) -> Floats:
    """The picture as a lens with a bow draws it, `size` (width, height) pixels: straight = drawn / (1 + barrel r^2)."""
    width, height = size
    half = np.hypot(width, height) / 2
    found = np.zeros((height, width, 3))
    shifts = [(a, b) for a in (-0.25, 0.25) for b in (-0.25, 0.25)]
    for du, dv in shifts:
        v, u = np.mgrid[0:height, 0:width].astype(float)
        u, v = (u + du - centre[0]) / half, (v + dv - centre[1]) / half
        grown = 1 + barrel * (u * u + v * v)
        at = [
            v / grown * half * eye.focal / focal + eye.centre[1],
            u / grown * half * eye.focal / focal + eye.centre[0],
        ]
        for k in range(3):
            found[:, :, k] += map_coordinates(image[:, :, k], at, order=1, mode="nearest") / len(shifts)
    return found


def aged(light: Floats, seed: int = 4) -> Image.Image:
    """A print that has hung for thirty years: soft, dim in the corners, faded, yellowed, grained, scratched."""
    chance = np.random.default_rng(seed)
    height, width, _ = light.shape
    glow = np.dstack([gaussian_filter(np.clip(light[:, :, k] - 0.8, 0, 2), 14) for k in range(3)])
    soft = np.dstack([gaussian_filter(light[:, :, k], 0.75) for k in range(3)]) + 0.35 * glow
    v, u = np.mgrid[0:height, 0:width]
    far = ((u - width / 2) ** 2 + (v - height / 2) ** 2) / ((width**2 + height**2) / 4)
    soft = soft * (1 - 0.34 * far[:, :, None]) * 1.55
    toned = np.clip(soft, 0, None) / (np.clip(soft, 0, None) + 0.62) * 1.25
    shown = np.clip(toned, 0, 1) ** (1 / 1.5)
    grey = shown @ np.array([0.3, 0.59, 0.11])
    faded = 0.74 * shown + 0.26 * grey[:, :, None]
    faded = 0.055 + 0.90 * faded
    faded = faded * np.array([1.03, 0.985, 0.90]) + np.array([0.016, 0.006, 0.004])
    grain = gaussian_filter(chance.standard_normal((height, width)), 0.75)
    grain /= grain.std()
    colour_grain = np.dstack([gaussian_filter(chance.standard_normal((height, width)), 1.3) for _ in range(3)])
    colour_grain /= colour_grain.std()
    middle = np.clip(1.3 - np.abs(grey - 0.5), 0.5, 1.3)
    faded += 0.012 * middle[:, :, None] * grain[:, :, None] + 0.004 * colour_grain
    faded += 0.035 * (noise(u / 300.0, v / 300.0, 3) - 0.5)[:, :, None] * np.array([1.0, 0.8, 0.3])
    image = Image.fromarray((np.clip(faded, 0, 1) * 255 + 0.5).astype(np.uint8))
    return _scratched(image, chance)


def _scratched(image: Image.Image, chance: np.random.Generator) -> Image.Image:
    """A crease in a corner and a few specks of dust."""
    from PIL import ImageDraw

    marks = Image.new("L", image.size, 0)
    pen, (width, height) = ImageDraw.Draw(marks), image.size
    for _ in range(26):
        u, v = chance.uniform(0, width), chance.uniform(0, height)
        pen.ellipse(
            (u, v, u + chance.uniform(0.8, 2.2), v + chance.uniform(0.8, 2.2)), fill=int(chance.uniform(60, 150))
        )
    pen.line([(width - 95, 0), (width - 50, 38), (width, 70)], fill=120, width=2)
    for _ in range(3):
        u, v, angle = chance.uniform(0, width), chance.uniform(0, height), chance.uniform(0, np.pi)
        long = chance.uniform(20, 60)
        pen.line([(u, v), (u + long * np.cos(angle), v + long * np.sin(angle))], fill=55, width=1)
    light = Image.new("RGB", image.size, (236, 226, 205))
    return Image.composite(light, image, marks.filter(ImageFilter.GaussianBlur(0.8)))


def _unit(vector: Floats) -> Floats:
    found: Floats = vector / np.linalg.norm(vector)
    return found
