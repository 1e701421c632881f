"""How wide text comes out, so that nothing is placed over it, and the box that it fills."""

from __future__ import annotations

import csv
from functools import cache, lru_cache
from importlib.resources import files
from math import cos, sin

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

# Helvetica: height of capitals and depth of descenders, per font size (Adobe Font Metrics, Helvetica, 1990:
# CapHeight 718, Descender -207). A text of height 3.5 mm has capitals 3.5 mm high, as ISO 3098-1 counts.
CAPITALS = 0.718
DESCENDERS = 0.207
DESCENDING = frozenset("gjpqyçQ,;()[]{}|@_$&§µ")
# a letter that is not in the table, as wide as the widest common capital of it
OTHER = 778
FONTS = "Liberation Sans, Arimo, Helvetica, Arial, DejaVu Sans, sans-serif"


@cache
def _widths() -> dict[str, int]:
    """Width of each letter per mille of the font size (Adobe Font Metrics, Helvetica, 1990)."""
    text = files(__package__).joinpath("lettering.csv").read_text(encoding="utf-8")
    return {
        chr(int(row["code_point"][2:], 16)): int(row["width_per_mille"]) for row in csv.DictReader(text.splitlines())
    }


def font_size(height: float) -> float:
    """Font size for capitals of a height, both in mm."""
    return height / CAPITALS


@lru_cache(maxsize=4096)
def width(text: str, height: float) -> float:
    """Width of a text with capitals of a height, both in mm.

    Source: Adobe Font Metrics of Helvetica; the SVG asks for this width whatever the font at hand.

    >>> round(width("238.0", 3.5), 2)
    12.2
    """
    widths = _widths()
    return sum(widths.get(letter, OTHER) for letter in text) / 1000 * font_size(height)


def shortened(text: str, height: float, room: float) -> str:
    """The text, or as much of its beginning as fits the room [mm], with an ellipsis."""
    if width(text, height) <= room:
        return text
    while text and width(text + "…", height) > room:
        text = text[:-1]
    return text.rstrip() + "…"


def box(text: str, centre: tuple[float, float], height: float, angle: float = 0.0) -> Floats:
    """Corners (4, 2) of the rectangle that a text fills, descenders included; centre is that of its capitals [mm]."""
    half = width(text, height) / 2
    below = DESCENDERS * font_size(height) if DESCENDING & set(text) else 0.0
    low, high = -height / 2 - below, height / 2
    flat = np.array([[-half, low], [half, low], [half, high], [-half, high]])
    turn = np.array([[cos(angle), -sin(angle)], [sin(angle), cos(angle)]])
    corners: Floats = flat @ turn.T + np.array(centre)
    return corners
