"""The piece under load as lines, its movement exaggerated so that it can be seen."""

from __future__ import annotations

import numpy as np

from fitwright.assess import Assessment
from fitwright.checks.frame_findings import frame_results
from fitwright.checks.frame_results import FrameResults
from fitwright.web.packed.scene import packed_lines


def packed_bent(assessment: Assessment, revision: str) -> bytes:
    """The middles of the members moved, in the case in which most moves.

    Raises NotFramed or Mechanism, which are told as findings too, for a piece that does not stand by itself.
    """
    results = frame_results(assessment.piece, assessment.job)
    case = _most_moved(results)
    lines, scale = results.deflected(case)
    style = assessment.job.style
    most = float(
        np.nanmax(np.linalg.norm(results.framed.moved_ends(results.displacements[:, :, case]), axis=2), initial=0.0)
    )
    said = f"{results.cases.cases[case].name}: moves {style.length(most)} at most, drawn {scale:.0f} times as much"
    return packed_lines(lines, said, revision)


def _most_moved(results: FrameResults) -> int:
    """The case of the brief's own loads in which a place moves farthest."""
    usual = [
        k
        for k, case in enumerate(results.cases.cases)
        if case.kind in ("full", "single", "push") and not results.tips[k]
    ]
    moved = np.linalg.norm(results.displacements[:, :3, :], axis=1).max(axis=0)
    return max(usual, key=lambda k: float(moved[k])) if usual else 0
