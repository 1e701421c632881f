"""The table of this trade."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

DATA = Path(__file__).parent / "data" / "timber.toml"


@cache
def table(name: str) -> dict[str, Any]:
    """One section of the table."""
    found: dict[str, Any] = tomllib.loads(DATA.read_text(encoding="utf-8"))[name]
    return found
