"""Findings about a measured photo: what is doubtful about it, and which dims of the job leave its proportions."""

from __future__ import annotations

from fitwright.findings import Finding, Verdict
from fitwright.place.photo.answering import PhotoAnswer
from fitwright.place.photo.doubting import doubts
from fitwright.place.photo.wishing import DimProposal
from fitwright.place.photo_wanted import AREA, SUBJECT
from fitwright.units import Style

LIKELY_BASIS = "first-order covariance of the marks, 95 %; common practice"
VIEW_BASIS = "single-view geometry: vanishing points of parallel edges; common practice"
GRAVE = ("behind", "disagree", "untied", "unscaled")
"""Doubts without which no measure can be trusted, beside those that only widen its plus or minus."""


def photo_findings(answer: PhotoAnswer | None, style: Style) -> list[Finding]:
    """What the solved photo says of itself and of the job's dims."""
    if answer is None:
        return []
    if answer.solved is None or answer.wrong:
        return [Finding(AREA, SUBJECT, "measuring", Verdict.NEEDS_INPUT, basis=VIEW_BASIS, advice=answer.wrong)]
    told = [(doubt.kind, doubt.text) for doubt in doubts(answer.solved)] + [
        ("snapping", one) for one in answer.not_found
    ]
    found = [
        Finding(AREA, SUBJECT, f"view: {kind}", _verdict(kind), basis=VIEW_BASIS, advice=text) for kind, text in told
    ]
    rows = answer.dims.rows if answer.dims else ()
    return found + [_proportion(row, style) for row in rows if not row.mark.held]


def _verdict(kind: str) -> Verdict:
    return Verdict.NEEDS_INPUT if kind in GRAVE else Verdict.TIGHT


def _proportion(row: DimProposal, style: Style) -> Finding:
    """A dim against what the photo shows at the new size."""
    off, limit = abs(row.now - row.proposed.shown), row.spread + row.step / 2
    shown, now = style.length(row.proposed.shown), style.length(row.now)
    advice = ""
    if not row.agrees:
        advice = (
            f"the photo has it at {shown} for this size, the job at {now}: take {style.length(row.proposed.value)}, "
            "or keep it and know that it is not the old piece's proportion"
        )
    return Finding(
        AREA, row.mark.name, "proportion of the old piece", Verdict.HOLDS if row.agrees else Verdict.TIGHT,
        off, limit, limit - off, "mm", LIKELY_BASIS, advice,
        f"|{now} - {shown}| ≤ ± {style.length(row.spread)} + half a step of {style.length(row.step)}",
    )  # fmt: skip
