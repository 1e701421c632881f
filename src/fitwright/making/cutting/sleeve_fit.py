"""Whether a sleeve slides into the real bore of its tube, as a finding."""

from __future__ import annotations

from fitwright.findings import Finding, Verdict, at_least
from fitwright.stock import Stock, fits_inside

AREA = "cutting"
SLIDES = 1.0
"""mm of clearance across up to which a sleeve still aligns the ends; common practice."""

GOES_IN = 0.05
"""mm of clearance across that a sleeve needs to go in by hand; common practice."""


def sleeve_finding(inner: Stock, outer: Stock) -> Finding:
    """Clearance across [mm] of a sleeve in its tube: below nought it fails, beyond a sliding fit it is loose, so tight.

    Raises StockError when `outer` has no bore. Holds for sections as round and square as nominal, welded tube with its
    inside bead controlled. Source: clearance from the real bore (stock); limits common practice.
    """
    clearance = fits_inside(inner.section, outer.section)
    formula = f"bore of {outer.label} less {inner.label}, weld bead allowed for = {clearance:.2f} mm"
    subject = f"{inner.label} in {outer.label}"
    if clearance > SLIDES:
        advice = "the sleeve backs up the weld but does not align the ends: shim it, or clamp the ends in line"
        return Finding(
            AREA, subject, "sleeve slides in", Verdict.TIGHT, clearance, SLIDES, SLIDES - clearance, "mm",
            "common practice", advice, formula,
        )  # fmt: skip
    return at_least(
        AREA, subject, "sleeve slides in", clearance, 0.0, "mm", tight=GOES_IN, basis="common practice",
        advice="file the bead inside the tube, turn the sleeve down, or take a smaller one", formula=formula,
    )  # fmt: skip
