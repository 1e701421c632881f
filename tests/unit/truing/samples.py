"""A small rack with readings, quickly trued."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from fitwright.assess import Assessment, assess
from fitwright.job import parse_job
from fitwright.shop import default_shop
from tests.unit.mechanics.variation.samples import RACK


@cache
def rack() -> Assessment:
    """The small rack without readings."""
    return assess(parse_job(RACK), default_shop("mm"))


@cache
def read(*entries: str) -> Assessment:
    """The small rack with readings, each as `of: is`."""
    lines = "".join(f"  - {{of: {one.rpartition(': ')[0]}, is: {one.rpartition(': ')[2]}}}\n" for one in entries)
    plain = rack()
    return replace(plain, job=parse_job(f"{RACK}\nreadings:\n{lines}"))
