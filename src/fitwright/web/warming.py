"""What is imported and read on first use, used once before anybody waits for it."""

from __future__ import annotations

import gc
from contextlib import suppress
from threading import Event

from fitwright.assess import assess
from fitwright.errors import FitwrightError
from fitwright.job import load_job, starters
from fitwright.shop import default_shop
from fitwright.web.packed import packed_scene
from fitwright.web.still import still_picture

EXAMPLES = 3
"""The first starters are whole examples: they use more of what is to be warm than a plain one."""
WARM = Event()
"""Set when everything has been used once: till then a page does not wait for what follows it anyway."""


def warm() -> None:
    """Assess the smallest starter."""
    try:
        _assess_smallest()
        # what is imported stays: searches for garbage went through it again for a sixth of the time that findings take
        gc.collect()
        gc.freeze()
    finally:
        WARM.set()


def _assess_smallest() -> None:
    with suppress(FitwrightError):
        smallest = min(starters()[:EXAMPLES], key=lambda starter: starter.path.stat().st_size)
        job = load_job(smallest.path)
        assessment = assess(job, default_shop(job.style.unit))
        packed_scene(assessment, "")
        still_picture(assessment.meshes)
        _ = assessment.findings
