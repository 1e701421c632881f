"""The three shipped jobs, assessed once for all tests that look at them."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from fitwright.assess import Assessment, assess
from fitwright.job import load_job
from fitwright.shop import default_shop

EXAMPLES = Path(__file__).parent.parent / "examples"
NAMES = ("drying-rack", "coat-rail", "workbench")


@cache
def assessed(name: str) -> Assessment:
    """One demo in the shop that ships for its unit."""
    job = load_job(EXAMPLES / name / "job.yaml")
    return assess(job, default_shop(job.style.unit))
