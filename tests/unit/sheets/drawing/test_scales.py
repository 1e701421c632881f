"""Usual scales."""

from __future__ import annotations

from fitwright.sheets.drawing.scales import fitting, scales


def test_metric_scales_are_those_of_iso_5455() -> None:
    # ISO 5455:1979, table: reductions 1:2, 1:5, 1:10, 1:20, 1:50, 1:100, 1:200, 1:500, 1:1000
    labels = [s.label for s in scales("metric") if s.factor < 1]
    assert labels == ["1:2", "1:5", "1:10", "1:20", "1:50", "1:100", "1:200", "1:500", "1:1000"]


def test_inch_scales_hold_those_of_the_rules() -> None:
    labels = {s.label for s in scales("inch")}
    assert {"1:1", "1:2", "1:4", "1:8", "1:10", "1:12", "1:16", "1:20", "1:24", "1:48"} <= labels


def test_largest_that_fits() -> None:
    found = fitting("metric", (800, 1880), (180, 200))
    assert found is not None
    assert found.label == "1:10"
    assert fitting("metric", (1e6, 1), (10, 10)) is None
