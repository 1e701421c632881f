"""Directions: words and vectors made into unit vectors."""

from __future__ import annotations

import math

from fitwright.job.model import Point
from fitwright.job.resolve.scope import NAN, Scope, known
from fitwright.job.written import Listed, Written

UNIT_VECTORS: dict[str, Point] = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}
WORDS = {"left": "-x", "right": "x", "front": "-y", "back": "y", "down": "-z", "up": "z"}
AXES = "xyz"


def is_direction(word: str) -> bool:
    """Whether a word is a direction."""
    return WORDS.get(word, word).lstrip("+-") in UNIT_VECTORS and word.count("-") + word.count("+") <= 1


def direction(written: Written | Listed, scope: Scope) -> Point:
    """The unit vector of a word or of a list of three numbers; left is -x, front is -y, down is -z."""
    if isinstance(written, Written):
        return of_word(written.text.strip().lower())
    vector = scope.point(written)
    size = math.hypot(*vector)
    if known(size) and size < 1e-9:
        scope.wrong(written.place, written.where, "a direction of length zero points nowhere")
        return NAN, NAN, NAN
    return vector[0] / size, vector[1] / size, vector[2] / size


def of_word(word: str) -> Point:
    """The unit vector of a word."""
    axis = WORDS.get(word, word)
    sign = -1.0 if axis.startswith("-") else 1.0
    x, y, z = UNIT_VECTORS[axis.lstrip("+-")]
    return sign * x or 0.0, sign * y or 0.0, sign * z or 0.0


def parallel(one: Point, other: Point) -> bool:
    """Whether two unit vectors lie on one line."""
    return abs(abs(sum(a * b for a, b in zip(one, other, strict=True))) - 1) < 1e-9
