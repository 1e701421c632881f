"""How nearly a reading is taken: as it says itself, else by its kind and length."""

from __future__ import annotations

import math

import pytest

from fitwright.job.readings import Of, Quantity, Reading
from fitwright.truing.precision import precision_of, precisions


def test_a_tape_by_its_length() -> None:
    assert precision_of(Reading(Of(Quantity.WIDTH), 2000.0)).value == pytest.approx(math.hypot(0.4, 0.6))


def test_what_a_reading_says_itself_is_nineteen_in_twenty() -> None:
    told = precision_of(Reading(Of(Quantity.WIDTH), 600.0, within=1.96))
    assert told.value == pytest.approx(1.0)
    assert told.basis == "as the reading says"


def test_every_default_has_a_basis() -> None:
    assert all(one.value > 0 and one.basis for one in precisions().values())
    assert precision_of(Reading(Of(Quantity.BEND, "A1", 1), 1.5)).value == pytest.approx(math.radians(0.15))
