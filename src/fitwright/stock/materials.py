"""Materials: steel, stainless, aluminium, species, plywood, and how a maker names them."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from functools import cache
from typing import Any

from fitwright.stock.mistakes import StockError, nearest
from fitwright.stock.tables import entries, rows

METALS = ("steel", "stainless", "aluminium")
WOODS = ("softwood", "hardwood")
TIMBER = (*WOODS, "plywood")
MOISTURE = 0.12  # at which density and strength of wood are given


@dataclass(frozen=True)
class Material:
    """A material. density [kg/m3]; e, g, fy, fu, mor [MPa]; elongation a fraction; expansion [1/K].

    kind: steel, stainless, aluminium, softwood, hardwood or plywood. Metals have fy, fu and elongation; wood has
    specific_gravity and mor (at 12 % moisture) and the change of width per % of moisture, c_radial and c_tangential.
    basis: where the values come from.
    """

    name: str
    kind: str
    density: float
    e: float
    g: float
    fy: float | None = None
    fu: float | None = None
    elongation: float | None = None
    expansion: float | None = None
    specific_gravity: float | None = None
    mor: float | None = None
    c_radial: float | None = None
    c_tangential: float | None = None
    basis: str = "common practice"

    @property
    def is_metal(self) -> bool:
        """Whether it can be welded and bent at all."""
        return self.kind in METALS

    @property
    def is_timber(self) -> bool:
        """Whether it is cut, fastened and finished as wood: solid or plywood."""
        return self.kind in TIMBER


def wood_density(specific_gravity: float, moisture: float = MOISTURE) -> float:
    """Density [kg/m3] of wood from its specific gravity (oven-dry mass, volume as it is) and moisture (a fraction).

    Holds for the moisture at which the specific gravity's volume was taken.
    Source: Wood Handbook, FPL-GTR-190, chapter 4.

    >>> round(wood_density(0.35))
    392
    """
    return 1000.0 * specific_gravity * (1.0 + moisture)


def find_material(words: str, kinds: Collection[str], prefer: str = "") -> Material:
    """The material that `words` name among `kinds`; prefer: the name taken when the words name several.

    Raises StockError with the nearest right word.
    """
    said = _plain(words)
    named = [material for material, names in _catalogue() if material.kind in kinds and said in names]
    if not named:
        raise StockError(_unknown(words, kinds))
    return next((material for material in named if material.name == prefer), named[0])


def materials() -> tuple[Material, ...]:
    """Every material there is."""
    return tuple(material for material, _ in _catalogue())


@cache
def _catalogue() -> tuple[tuple[Material, frozenset[str]], ...]:
    metals = [_metal(entry) for entry in entries("metals", "metal")]
    panels = [_metal({**entry, "kind": "plywood"}) for entry in entries("panels", "panel")]
    return (*metals, *(_species(row) for row in rows("species")), *panels)


def _metal(entry: dict[str, Any]) -> tuple[Material, frozenset[str]]:
    words = frozenset(_plain(word) for word in (entry["name"], *entry["words"]))
    return Material(**{key: value for key, value in entry.items() if key != "words"}), words


def _species(row: dict[str, str]) -> tuple[Material, frozenset[str]]:
    words = frozenset(_plain(word) for word in (row["name"], *filter(None, row["words"].split("|"))))
    gravity, e = float(row["specific_gravity"]), float(row["e"])
    source = "Wood Handbook, FPL-GTR-190, Tables 5-3a and 13-5"
    return (
        Material(
            name=row["name"],
            kind=row["kind"],
            density=wood_density(gravity),
            e=e,
            g=e / 16,  # EN 338: mean shear modulus is a sixteenth of the mean modulus along the grain
            specific_gravity=gravity,
            mor=float(row["mor"]),
            c_radial=float(row["c_radial"]),
            c_tangential=float(row["c_tangential"]),
            basis=f"{source}; {row['basis']}" if row["basis"] else source,
        ),
        words,
    )


def _plain(words: str) -> str:
    return " ".join(words.lower().replace("aluminum", "aluminium").replace("-", " ").split())


def _unknown(words: str, kinds: Collection[str]) -> str:
    names = [material.name for material, _ in _catalogue() if material.kind in kinds]
    known = {word for material, said in _catalogue() if material.kind in kinds for word in said}
    return f"{words!r} is not a material known here{nearest(_plain(words), known)} accepted: {', '.join(names)}"
