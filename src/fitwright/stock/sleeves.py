"""What slides inside what, from the real bore of the tube and the weld bead along it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from math import sqrt

from fitwright.stock.bought import Stock
from fitwright.stock.mistakes import StockError
from fitwright.stock.rectangles import Flat, RectTube
from fitwright.stock.rounds import RoundBar, RoundTube
from fitwright.stock.section import Section
from fitwright.stock.spelling import parse_stock
from fitwright.stock.tables import rows

BEAD = (
    0.010 * 25.4
)  # mm; ASTM A513 tube with its inside flash controlled to 0.010 in (from memory); left as it comes, more
LEAST = 0.05  # mm that the sleeve needs beside the nominal sizes to go in at all; common practice
SNUG_UP_TO = 0.25  # mm on the size across; common practice: driven in by hand or with a mallet
SLIDES_UP_TO = 1.0  # mm; common practice: goes in freely and still aligns the ends
LOOSE_UP_TO = 3.5  # mm; common practice: backs up the weld but does not align
ROUND_OFF = 1e-6  # mm


class Fit(StrEnum):
    """How a sleeve goes in."""

    SNUG = "snug"
    SLIDING = "sliding"
    LOOSE = "loose"


@dataclass(frozen=True)
class SleeveFit:
    """A sleeve for a tube: its stock, the clearance across [mm] with the bead allowed for, and how it goes in.

    over_bead: the clearance [mm] where the bead has been filed away.
    """

    stock: Stock
    clearance: float
    over_bead: float
    fit: Fit

    @property
    def file_bead(self) -> bool:
        """Whether the bead inside the tube has to be filed before the sleeve goes in."""
        return self.clearance < -ROUND_OFF


def weld_bead(outer: Section) -> float:
    """Height [mm] allowed for the weld bead inside tube; 0 where there is no bore.

    Holds for welded tube with the inside flash controlled; tube sold with the flash left in may have as much as its
    wall, so try it on the real tube. Source: ASTM A513 (from memory).
    """
    return BEAD if isinstance(outer, RoundTube | RectTube) else 0.0


def fits_inside(inner: Section, outer: Section, bead: bool = True) -> float:
    """Clearance across [mm] of `inner` in the real bore of `outer`: size of the bore less size of the sleeve.

    Negative when it does not go in. bead: take the weld bead inside the tube off the bore. Rounded corners count: where
    the corners of the sleeve would touch those of the bore first, the clearance is what is left there.
    Raises StockError when `outer` has no bore. Holds for sections that are as round, square and straight as nominal.
    Source: geometry.

    >>> round(fits_inside(RoundTube(28.0, 2.0), RoundTube(32.0, 1.6), bead=False), 3)
    0.8
    """
    room = weld_bead(outer) if bead else 0.0
    if isinstance(outer, RoundTube):
        return outer.id - _round_about(inner) - room
    if isinstance(outer, RectTube):
        return _in_rectangle(inner, outer) - room
    raise StockError(f"a {outer.shape} has no bore: only round, square and rectangular tube and pipe take a sleeve")


def sleeves_for(tube: Stock, catalogue: tuple[Stock, ...] | None = None) -> tuple[SleeveFit, ...]:
    """Stock that goes inside `tube` as a sleeve, closest first; catalogue: what to choose from, else common sizes.

    Only stock of the tube's own kind of material and outline (round in round, square in square) is offered.
    Raises StockError when the tube has no bore. Source: `fits_inside`; the limits of the fits are common practice.
    """
    choice = common_sleeves(_usual(tube)) if catalogue is None else catalogue
    if tube.section.bore() is None:
        raise StockError(f"{tube.label} has no bore for a sleeve: only tube and pipe have one")
    fits: list[SleeveFit] = []
    for stock in choice:
        if stock.material.kind != tube.material.kind or not _alike(stock.section, tube.section):
            continue
        over_bead = fits_inside(stock.section, tube.section, bead=False)
        clearance = over_bead - weld_bead(tube.section)
        if (fit := fit_of(clearance, over_bead)) is not None:
            fits.append(SleeveFit(stock, clearance, over_bead, fit))
    return tuple(sorted(fits, key=lambda sleeve: (sleeve.file_bead, sleeve.clearance, sleeve.stock.label)))


def fit_of(clearance: float, over_bead: float) -> Fit | None:
    """How something goes in by its clearance with the bead and without [mm]; None when not, or too loose to serve.

    What goes in only once the bead is filed is snug.
    """
    if over_bead < LEAST or clearance > LOOSE_UP_TO:
        return None
    if clearance <= SNUG_UP_TO + ROUND_OFF:
        return Fit.SNUG
    return Fit.SLIDING if clearance <= SLIDES_UP_TO + ROUND_OFF else Fit.LOOSE


@cache
def common_sleeves(material: str) -> tuple[Stock, ...]:
    """Common tube and bar of a material by its name, inch and metric, to look for sleeves in."""
    return tuple(parse_stock(row["text"], grade=material) for row in rows("sleeve_stock"))


def _usual(tube: Stock) -> str:
    """Steel sleeves are of the usual grade of their shape, others of the tube's own."""
    return "steel" if tube.material.kind == "steel" else tube.material.name


def _alike(inner: Section, outer: Section) -> bool:
    if isinstance(outer, RoundTube):
        return isinstance(inner, RoundTube | RoundBar)
    return isinstance(inner, RectTube | Flat)


def _round_about(inner: Section) -> float:
    """Diameter of the smallest circle about the centre that holds the section [mm]."""
    if isinstance(inner, RoundTube):
        return inner.od
    if isinstance(inner, RoundBar):
        return inner.diameter
    u, v, r = _rounded(inner)
    return 2 * (sqrt((u / 2 - r) ** 2 + (v / 2 - r) ** 2) + r)


def _rounded(inner: Section) -> tuple[float, float, float]:
    """Sizes across and corner radius [mm] of a rectangular section."""
    if isinstance(inner, RectTube):
        return inner.width, inner.height, inner.outer_radius
    low_u, high_u, low_v, high_v = inner.extents
    return high_u - low_u, high_v - low_v, 0.0


def _in_rectangle(inner: Section, outer: RectTube) -> float:
    """Clearance [mm] in a rectangular bore, the wider side along the wider; twice the least gap all round."""
    if isinstance(inner, RoundTube | RoundBar):
        return outer.bore_height - _round_about(inner)
    u, v, r = _rounded(inner)
    sides = min(outer.bore_width - u, outer.bore_height - v)
    # The sleeve's corner arc (or point) has its centre inside the bore's; the gap there is along their line.
    du = (outer.bore_width - u) / 2 + r - outer.bore_radius
    dv = (outer.bore_height - v) / 2 + r - outer.bore_radius
    if du >= 0 or dv >= 0:
        return sides
    at_corner = outer.bore_radius - r - sqrt(du * du + dv * dv)
    return min(sides, 2 * at_corner)
