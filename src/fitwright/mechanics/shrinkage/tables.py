"""The tables of this room: CSV with `#` lines that carry the source."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

DATA = Path(__file__).parent / "data"


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """The rows of data/NAME.csv, column by column as text."""
    lines = (DATA / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    return tuple(csv.DictReader(line for line in lines if line and not line.startswith("#")))
