from __future__ import annotations

from dataclasses import replace

from fitwright.assess import assess
from fitwright.job import parse_job
from fitwright.shop import default_shop
from tests.unit.mechanics.variation.test_stops import RINGS

READ = """
readings:
  - {of: length along the front of ring 1, is: 326.5}
"""


def test_a_rolled_ring_has_no_angle_to_set_anew() -> None:
    """It is one bend at the machine, though drawn in several: a reading on it is told, and asks for no angle."""
    shop = default_shop("mm")
    plain = assess(parse_job(RINGS), shop)
    found = replace(plain, job=parse_job(RINGS + READ)).truing
    assert found is not None
    assert found.commands == ()
