"""What is computed aside: the findings that take longer, and the sheets."""

from __future__ import annotations

from fitwright.assess import Assessment
from fitwright.findings import Finding
from fitwright.web.aside import Tell, follows_longer
from fitwright.web.leaves import Leaf, leaves
from fitwright.web.packed import PulledShape, pulled_shape

WELDING_SHARE = 0.7
"""Of the longer findings' time, what the order of welding takes."""


def longer_findings(assessment: Assessment, tell: Tell) -> tuple[Finding, ...]:
    """Every finding, with how welding pulls the piece and whether it comes out right made many times over."""
    tell("the loads", 0.02)
    _ = assessment.findings
    assessment.weld(lambda step, share: tell(step, WELDING_SHARE * share))
    tell("virtual builds", WELDING_SHARE)
    _ = assessment.builds
    return assessment.all_findings


@follows_longer
def pulled(assessment: Assessment, tell: Tell) -> PulledShape | None:
    """The piece as welding pulls it; None where nothing is welded."""
    assessment.weld(lambda step, share: tell(step, 0.95 * share))
    return pulled_shape(assessment)


@follows_longer
def sheets(assessment: Assessment, tell: Tell) -> tuple[Leaf, ...]:
    """Every sheet as it prints."""
    longer_findings(assessment, lambda step, share: tell(step, 0.6 * share))
    tell("drawing the sheets", 0.65)
    return leaves(assessment)
