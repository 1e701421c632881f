"""The piece under load as lines, its movement exaggerated so that it can be seen."""

from __future__ import annotations

import numpy as np

from fitwright.assess import Assessment
from fitwright.checks.frame_results import FrameResults
from fitwright.web.errors import NotThere
from fitwright.web.packed.scene import packed_lines


def packed_bent(assessment: Assessment, revision: str, case: int | None = None) -> bytes:
    """The middles of the members moved in a load case; without one in the case in which most moves.

    The head has the cases that there are as `cases`, pairs of number and name, and which this is as `case`. Raises
    NotThere for a piece that does not stand by itself, which a finding tells too, and for a case that there is not.
    """
    results = assessment.frame
    if results is None:
        raise NotThere("it does not stand by itself, so nothing can be loaded: see the findings")
    cases = load_cases(results)
    chosen = _most_moved(results) if case is None else case
    if chosen not in dict(cases):
        raise NotThere(f"there is no load case {chosen}")
    lines, scale = results.deflected(chosen)
    style = assessment.job.style
    moved = results.framed.moved_ends(results.displacements[:, :, chosen])
    most = float(np.nanmax(np.linalg.norm(moved, axis=2), initial=0.0))
    said = f"{dict(cases)[chosen]}: moves {style.length(most)} at most, drawn {scale:.0f} times as much"
    return packed_lines(lines, said, revision, cases=cases, case=chosen)


def load_cases(results: FrameResults) -> list[tuple[int, str]]:
    """The cases in which it keeps standing, by number and name; equal names are numbered."""
    names = [(k, case.name) for k, case in enumerate(results.cases.cases) if not results.tips[k]]
    seen: dict[str, int] = {}
    found = []
    for k, name in names:
        seen[name] = seen.get(name, 0) + 1
        found.append((k, name if seen[name] == 1 else f"{name} ({seen[name]})"))
    return found


def _most_moved(results: FrameResults) -> int:
    """The case of the brief's own loads in which a place moves farthest."""
    usual = [
        k
        for k, case in enumerate(results.cases.cases)
        if case.kind in ("full", "single", "push") and not results.tips[k]
    ]
    moved = np.linalg.norm(results.displacements[:, :3, :], axis=1).max(axis=0)
    return max(usual, key=lambda k: float(moved[k])) if usual else 0
