"""One record of each kind, invented."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from fitwright.shop.records import Built, Hours, Measured, OnHand, Price, Purchase, Quoted, Record, Trial

DAY = date(2027, 2, 3)
TUBE = "round tube 1 1/8 x 14 ga"
TRIAL = Trial(DAY, "1 1/8 x 4", TUBE, 90.0, 85.8, "A513 1010 hot rolled", "H7431", 101.6, 500.0, 280.0, 259.8, 182.5,
              note="first of the bundle")  # fmt: skip
OFFCUT = OnHand(TUBE, 1130.3, 2, Decimal("4.25"), True, "rack, second arm", "H7431", "left from a shelf")
EACH: tuple[Record, ...] = (
    TRIAL,
    Measured(DAY, "Drying rack", "bend 1 of hoop 1", 90.0, 91.2, "deg", 0.1, "bend A1"),
    OFFCUT,
    Price(DAY, TUBE, 6096.0, Decimal("38.125"), "Dockside Steel"),
    Hours(DAY, "Drying rack", "bend A1", "bend", 0.75, 2, 0.5, "the roller was stiff"),
    Purchase(DAY, TUBE, 3, Decimal("38.00"), 6096.0, "Dockside Steel", "Drying rack"),
    Quoted(DAY, "Drying rack", Decimal("2745.00"), "USD", "accepted", Decimal("2190.55"), "wants it by March"),
    Built(DAY, "Drying rack", 3, 2),
)
