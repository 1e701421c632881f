"""A solved photo in words and as plain data, for the terminal and for programs."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from fitwright.job.marks import Photo
from fitwright.place.photo.doubting import doubts
from fitwright.place.photo.helping import advice
from fitwright.place.photo.lens import half_diagonal
from fitwright.place.photo.solving import LIKELY, Measured, Solved
from fitwright.place.photo.unknowns import BARREL, CENTRE, LOG_FOCAL
from fitwright.place.photo.usual import DIAGONAL_35MM
from fitwright.place.photo.wishing import DimProposal, PhotoDims
from fitwright.units import Style


def told(solved: Solved, style: Style) -> list[str]:
    """The answer line by line: camera, measures, what is doubtful, what would help."""
    lines = [camera_line(solved), ""]
    width = max((len(one.name) for one in solved.measures), default=0)
    lines += [f"{one.name:<{width}}  {amount(one, style)}" for one in solved.measures]
    lines += [f"note: {doubt.text}" for doubt in doubts(solved)]
    helps = advice(solved)
    lines += [
        f"would help {one.measure}: {one.text} (± {give(one.now, style)} would become ± {give(one.then, style)})"
        for one in helps
    ]
    return lines


def dims_told(dims: PhotoDims | None, style: Style) -> list[str]:
    """The dims that the photo proposes, line by line, under a line of their own."""
    if dims is None:
        return []
    rows = [_dim_told(row, dims.sized, style) for row in dims.rows]
    widths = [max(len(row[k]) for row in rows) for k in range(len(rows[0]))]
    head = f"dims, {100 * dims.scale:.0f} % as large as the old piece:" if dims.sized else "dims, in its proportions:"
    return [
        "",
        head,
        *("  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows),
    ]


def _dim_told(row: DimProposal, sized: bool, style: Style) -> tuple[str, ...]:
    why = "held" if row.mark.held else row.proposed.why.value
    now = "as in the job" if row.taken else f"the job has {style.length(row.now)}"
    return (
        row.mark.name,
        f"old {style.length(row.old.value)}" if sized else f"old {row.old.value:.3f}",
        f"in proportion {style.length(row.proposed.shown)} ± {give(row.spread, style)}",
        f"proposed {style.length(row.proposed.value)} ({why})",
        now if row.agrees else f"{now}, which is not the old proportion",
    )


def dims_as_json(dims: PhotoDims | None) -> dict[str, Any] | None:
    """The same as plain data; lengths in mm, plus or minus at 95 %."""
    if dims is None:
        return None
    return {
        "scale": dims.scale if dims.sized else None,
        "proposed": {
            row.mark.name: {
                "old_mm": row.old.value if dims.sized else None,
                "shown_mm": row.proposed.shown,
                "shown_plus_minus_mm": row.spread,
                "proposed_mm": row.proposed.value,
                "job_mm": row.now,
                "decided_by": row.proposed.why.value,
                "agrees": row.agrees,
            }
            for row in dims.rows
        },
    }


def amount(one: Measured, style: Style) -> str:
    """A measure with its plus or minus; its share of another where no length is known."""
    if one.value is None or one.plus_minus is None:
        return f"{one.share:.3f} ± {one.share_plus_minus:.3f} of {one.share_of}"
    part = 100 * one.plus_minus / max(one.value, 1e-9)
    return f"{style.length(one.value)} ± {give(one.plus_minus, style)} ({part:.1f} %)"


def give(plus_minus: float, style: Style) -> str:
    """A plus or minus [mm], never printed smaller than it is."""
    return style.length(math.ceil(plus_minus / style.step_mm - 1e-9) * style.step_mm)


def as_json(solved: Solved) -> dict[str, Any]:
    """The same as plain data; lengths in mm, plus or minus at 95 %."""
    lens = solved.estimate.state.lens
    helps = advice(solved)
    return {
        "picture": solved.photo.picture,
        "size_px": list(solved.size),
        "camera": {
            "focal_px": lens.focal,
            "focal_35mm": _on_film(solved),
            "focal_part_plus_minus": LIKELY * solved.spread(LOG_FOCAL),
            "centre_px": list(lens.centre),
            "centre_plus_minus_px": LIKELY * solved.spread(CENTRE.start) * lens.half_diagonal,
            "barrel": lens.barrel,
            "barrel_plus_minus": LIKELY * solved.spread(BARREL),
            "expected_from": solved.estimate.equations.expected.focal_from,
        },
        "measures": {
            one.name: {
                "value_mm": one.value,
                "plus_minus_mm": one.plus_minus,
                "share": one.share,
                "share_plus_minus": one.share_plus_minus,
                "share_of": one.share_of,
            }
            for one in solved.measures
        },
        "doubts": [{"kind": doubt.kind, "text": doubt.text} for doubt in doubts(solved)],
        "would_help": [
            {"text": one.text, "measure": one.measure, "now_mm": one.now, "then_mm": one.then} for one in helps
        ],
    }


def camera_line(solved: Solved) -> str:
    """What was found of the camera, in words."""
    lens, spread = solved.estimate.state.lens, solved.spread(LOG_FOCAL)
    bow = f"{100 * lens.barrel:+.1f} ± {100 * LIKELY * solved.spread(BARREL):.1f} %"
    down = math.degrees(math.asin(float(np.clip(-solved.estimate.state.rotation[2, 2], -1, 1))))
    return (
        f"camera: sees as {_on_film(solved):.0f} mm on 35 mm film (within {100 * LIKELY * spread:.0f} %), "
        f"corners drawn {bow}, looks {abs(down):.0f}° {'down' if down >= 0 else 'up'}"
    )


def _on_film(solved: Solved) -> float:
    return solved.estimate.state.lens.focal * DIAGONAL_35MM / (2 * half_diagonal(*solved.size))


def labels(photo: Photo) -> dict[str, str]:
    """What is written on the picture beside known lengths (letters) and measures (numbers)."""
    known = {name: chr(ord("A") + k % 26) for k, name in enumerate(photo.known)}
    return {**known, **{name: str(k) for k, name in enumerate(photo.measures, 1)}}
