"""The photo of the old piece in the report: its camera, measures with their plus or minus, dims proposed."""

from __future__ import annotations

from fitwright.assess import Assessment
from fitwright.place.photo.doubting import doubts
from fitwright.place.photo.solving import LIKELY
from fitwright.place.photo.wishing import PhotoDims
from fitwright.report.figures import Json, number, vector


def photos(assessment: Assessment) -> Json | None:
    """Null without a photo or where its marks give no answer, which a finding says."""
    answer = assessment.photo
    if answer is None or answer.solved is None:
        return None
    solved = answer.solved
    lens = solved.estimate.state.lens
    return {
        "picture": solved.photo.picture,
        "size_px": list(solved.size),
        "camera": {"focal_px": number(lens.focal), "centre_px": vector(lens.centre), "barrel": number(lens.barrel)},
        "known": [
            {"name": name, "value_mm": number(one.value), "plus_minus_mm": number(LIKELY * one.sigma)}
            for name, one in solved.photo.known.items()
        ],
        "measures": [
            {
                "name": one.name,
                "value_mm": number(one.value),
                "plus_minus_mm": number(one.plus_minus),
                "share": number(one.share),
                "share_of": one.share_of,
            }
            for one in solved.measures
        ],
        "doubts": [{"kind": doubt.kind, "text": doubt.text} for doubt in doubts(solved)],
        "dims": _dims(answer.dims),
    }


def _dims(dims: PhotoDims | None) -> list[Json]:
    rows = dims.rows if dims is not None else ()
    return [
        {
            "dim": row.mark.name,
            "from": row.mark.text,
            "old_mm": number(row.old.value) if dims is not None and dims.sized else None,
            "shown_mm": number(row.proposed.shown),
            "plus_minus_mm": number(row.spread),
            "proposed_mm": number(row.proposed.value),
            "job_mm": number(row.now),
            "held": row.mark.held,
            "decided_by": row.proposed.why.value,
            "agrees": row.agrees,
        }
        for row in rows
    ]
