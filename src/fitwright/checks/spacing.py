"""Whether slats come out near the gap that was wanted: whole boards seldom fill a width exactly."""

from __future__ import annotations

from fitwright.findings import Finding, Verdict
from fitwright.job.model import Job, PanelKind, PanelSpec
from fitwright.piece.model import Piece

AREA = "timber"
OFF_MM = 6.0  # more than the gap wanted before a maker would call it another one
OFF_SHARE = 0.5  # or this share of it


def spacing_findings(job: Job, piece: Piece) -> list[Finding]:
    """One finding for each part of slats whose gap does not come near the one wanted; a maker may accept that."""
    found = []
    for spec in job.parts:
        if isinstance(spec, PanelSpec) and spec.kind is PanelKind.SLATS:
            panel = next(panel for panel in piece.panels if panel.part == spec.name)
            boards = [board for board in panel.boards if board.role == "slat"]
            found += _spacing(job, spec, len(boards), panel.gap)
    return found


def _spacing(job: Job, spec: PanelSpec, count: int, even: float) -> list[Finding]:
    """The even gap between so many boards, or what a lone board leaves free, against the gap wanted [mm]."""
    figure = job.style.figure
    width = spec.stock.section.dimensions["width"]
    across = 3 - spec.normal - spec.along
    whole = abs(spec.high[across] - spec.low[across])
    gap = even if count > 1 else whole - width
    limit = spec.gap + max(OFF_MM, OFF_SHARE * spec.gap)
    if gap <= limit:
        return []
    fewer, more = (n * width + (n - 1) * spec.gap for n in (count, count + 1))
    told = job.style.length
    return [
        Finding(
            AREA, spec.name, "gap between slats against the one wanted", Verdict.TIGHT, gap, limit, limit - gap, "mm",
            "common practice: half as much again, or 6 mm (1/4 in) more",
            f"make it {told(fewer)} or {told(more)} across instead of {told(whole)}, or take boards of another width: "
            f"{count} of {told(width)} leave {told(gap)} where {told(spec.gap)} was wanted",
            f"({figure(whole, 1)} - {count} x {figure(width, 1)}) / {max(count - 1, 1)} = {figure(gap, 1)}, "
            f"wanted {figure(spec.gap, 1)}, at most {figure(limit, 1)}",
        )
    ]  # fmt: skip
