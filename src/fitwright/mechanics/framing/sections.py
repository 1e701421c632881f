"""What the elements are made of: section and material as the frame wants them."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from fitwright.mechanics.bends import bend_softening
from fitwright.mechanics.framing.model import Framed
from fitwright.mechanics.model import Floats, FrameModel
from fitwright.stock import Angle, RoundTube, Section, SheetGoods, Stock


@dataclass(frozen=True)
class ElementData:
    """One member's stiffness, local y along the section's u, local z along its v (or against it: `turned` = -1)."""

    e: float
    g: float
    area: float
    i_y: float
    i_z: float
    i_yz: float
    j: float
    shear_centre: tuple[float, float]


def element_data(stock: Stock, turned: float) -> ElementData:
    """Section properties in local axes, for a section whose v is local z (turned = 1) or against it (-1)."""
    section, material = stock.section, stock.material
    y, z = shear_centre(section)
    return ElementData(
        e=material.e,
        g=material.g,
        area=section.area,
        i_y=section.i_u,
        i_z=section.i_v,
        i_yz=turned * section.i_uv,
        j=section.j,
        shear_centre=(y, turned * z),
    )


def shear_centre(section: Section) -> tuple[float, float]:
    """From centroid to shear centre along u and v [mm]; zero for all but angle.

    Holds for thin legs. Source: J. M. Gere, Mechanics of Materials, 7th ed., section 6.9: where the middle lines of the
    two legs meet (from memory).
    """
    if not isinstance(section, Angle):
        return 0.0, 0.0
    at = section.thickness / 2 - np.asarray(section.centroid)
    return float(at[0]), float(at[1])


def softening(stock: Stock, radius: float | None) -> float:
    """How many times softer in bending than straight stock; radius: of the bend [mm], None on a straight."""
    section = stock.section
    if radius is None or not isinstance(section, RoundTube):
        return 1.0
    return bend_softening(section.strength_wall, radius, section.od)


def with_stock(framed: Framed, key: str, stock: Stock) -> Framed:
    """The same lines with one of the job's stocks changed for another: for trying a heavier wall or size.

    Places of nodes and joints stay, so a change of outside size is an estimate; a change of wall alone is exact.
    """
    stocks = tuple(stock if old.key == key and _framed(old) else old for old in framed.stocks)
    changed = np.isin(framed.member_of, [k for k, new in enumerate(stocks) if new is not framed.stocks[k]])
    return replace(framed, model=_changed(framed, stocks, np.flatnonzero(changed)), stocks=stocks)


def _framed(stock: Stock) -> bool:
    return not isinstance(stock.section, SheetGoods)


def _changed(framed: Framed, stocks: tuple[Stock, ...], index: np.ndarray[tuple[int], np.dtype[np.intp]]) -> FrameModel:
    model = framed.model
    rows = {name: getattr(model, name).copy() for name in ("e", "g", "area", "i_y", "i_z", "i_yz", "j")}
    shear, soft, mass = model.shear_centre.copy(), model.softening.copy(), model.mass_per_mm.copy()
    for m in index.tolist():
        k = int(framed.member_of[m])
        data = element_data(stocks[k], float(framed.turned[m]))
        for name, values in rows.items():
            values[m] = getattr(data, name)
        shear[m] = data.shear_centre
        soft[m] = softening(stocks[k], _radius(framed, m))
        mass[m] *= stocks[k].mass_per_m / framed.stocks[k].mass_per_m
    return replace(model, **rows, shear_centre=shear, softening=soft, mass_per_mm=mass)


def _radius(framed: Framed, element: int) -> float | None:
    if not framed.curved[element]:
        return None
    line = framed.lines[int(framed.member_of[element])]
    return line.curvature_radius(float(framed.stations[element].mean()))


def outline_points(section: Section, turned: float) -> Floats:
    """(k, 2) local y and z of the section's outline from its centroid [mm]."""
    points = section.outline() - section.centroid
    return np.asarray(points * np.array([1.0, turned]))
