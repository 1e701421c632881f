"""Reading the tables of this package: CSV with `#` comment lines that carry the source, and TOML."""

from __future__ import annotations

import csv
import tomllib
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

DATA = Path(__file__).parent / "data"


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """The rows of data/NAME.csv, column by column as text."""
    lines = (DATA / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    return tuple(csv.DictReader(line for line in lines if line and not line.startswith("#")))


@cache
def entries(name: str, kind: str) -> tuple[dict[str, Any], ...]:
    """The `[[kind]]` entries of data/NAME.toml."""
    return tuple(tomllib.loads((DATA / f"{name}.toml").read_text(encoding="utf-8"))[kind])


def inches(text: str) -> Fraction:
    """A size in a table, such as `1 1/4` or `0.145` [in]."""
    return sum((Fraction(word) for word in text.split()), Fraction(0))


def inch_mm(text: str) -> float:
    """The same size in mm, rounded once."""
    return float(inches(text) * Fraction(254, 10))
