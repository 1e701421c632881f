"""The tables of this trade."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

DATA = Path(__file__).parent / "data"


@dataclass(frozen=True)
class Product:
    """Something put on in coats, as the table has it; spread: [m2/litre] where it leaves no film; out: days away."""

    name: str
    words: tuple[str, ...]
    role: str
    basis: str
    not_for: tuple[str, ...]
    metal: bool = False
    timber: bool = False
    bare: bool = False
    rags: bool = False
    solids: float | None = None
    dry: float | None = None
    spread: float | None = None
    recoat: float = 0.0
    handle: float = 0.0
    hard: float = 0.0
    at: float = 20.0
    least: float = 10.0
    out: int = field(default=0)


@cache
def table(file: str) -> dict[str, Any]:
    """The whole of data/FILE.toml."""
    return tomllib.loads((DATA / f"{file}.toml").read_text(encoding="utf-8"))


@cache
def products() -> tuple[Product, ...]:
    """Every product of the table, in its order."""
    return tuple(_product(row) for row in table("coatings")["product"])


def _product(row: dict[str, Any]) -> Product:
    values: dict[str, Any] = {key: tuple(value) if isinstance(value, list) else value for key, value in row.items()}
    return Product(**values)


def product(name: str) -> Product:
    """The product of this name. Raises KeyError for none."""
    return {one.name: one for one in products()}[name]
