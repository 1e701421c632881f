"""Hardware and openings, copied to their places."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.job.model import HardwareSpec, OpeningSpec
from fitwright.piece.model import Hardware
from fitwright.piece.path import Vector
from fitwright.piece.placing import copies


@dataclass(frozen=True, eq=False)
class CasterShape:
    """A caster as drawn: its wheel from `hub` (3,) along `axle` (3,), `wheel` across [mm]; fork and plate a block."""

    hub: Vector
    axle: Vector
    wheel: float
    fork_low: Vector
    fork_high: Vector


def hardware_of(spec: HardwareSpec) -> list[Hardware]:
    """Every piece of hardware that a spec places."""
    points = np.array(spec.at or ((0.0, 0.0, 0.0),), dtype=float)
    placed = [copy.points(point) for point in points for copy in copies(spec.placings)]
    return [
        Hardware(
            f"{spec.name} {number}" if len(placed) > 1 else spec.name,
            spec.name,
            spec.kind,
            spec.label,
            at,
            spec.properties,
            spec.mass,
            spec.price,
            spec.each,
            placed=bool(spec.at),
        )
        for number, at in enumerate(placed, 1)
    ]


def opening_boxes(spec: OpeningSpec) -> list[tuple[str, Vector, Vector]]:
    """Name, low and high corner (3,) [mm] of every copy of an opening."""
    corners = np.array([spec.low, spec.high], dtype=float)
    placed = [copy.points(corners) for copy in copies(spec.placings)]
    return [
        (f"{spec.name} {number}" if len(placed) > 1 else spec.name, box.min(axis=0), box.max(axis=0))
        for number, box in enumerate(placed, 1)
    ]


def swivel_reach(item: Hardware) -> float:
    """How far from its swivel axis a caster's wheel reaches when it turns [mm]; 0 for anything else."""
    if item.kind != "caster":
        return float(item.properties.get("diameter", 0.0)) / 2 if item.kind == "foot" else 0.0
    lead, wheel = float(item.properties.get("lead", 0.0)), float(item.properties.get("wheel", 0.0))
    half = float(item.properties.get("width", 0.0)) / 2
    if not item.properties.get("swivel", True):
        return wheel / 2
    return float(np.hypot(lead + wheel / 2, half))


def caster_shape(item: Hardware) -> CasterShape:
    """A caster with its wheel trailing to the back."""
    wheel, width = float(item.properties.get("wheel", item.drop)), float(item.properties.get("width", item.drop / 3))
    lead = float(item.properties.get("lead", 0.0)) if item.properties.get("swivel", True) else 0.0
    hub = item.at + np.array([-width / 2, lead, -item.drop + wheel / 2])
    half = np.array([width * 0.6, width * 0.6, 0.0])
    low = item.at - half - np.array([0, 0, max(item.drop - wheel, 1.0)])
    return CasterShape(hub, np.array([width, 0.0, 0.0]), wheel, low, item.at + half)
