"""Writing what was explored: CSV, JSON, SVG, PDF, PNG."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable, Sequence
from pathlib import Path

from fitwright.assess import Assessment
from fitwright.errors import FitwrightError
from fitwright.pricing.exploring.front import best_few, not_beaten
from fitwright.pricing.exploring.trying import Tried
from fitwright.pricing.exploring.varying import Vary
from fitwright.report.costs import tried_as_json
from fitwright.sheets.exploring.picture import Frame, explored_svg
from fitwright.sheets.packet.folder import made, write

ENDINGS = (".csv", ".json", ".svg", ".pdf", ".png")
SHARP = 160.0
"""Dots to the inch of a PNG."""
FIGURES = (
    *("before_tax", "total", "cost", "hours", "mass_kg", "sag_mm", "sway_mm", "give", "chance", "verdict", "finding"),
)


class EndingError(FitwrightError, ValueError):
    """A file of a kind that is not written."""


def check_endings(files: Sequence[Path]) -> None:
    """Raises EndingError for a file of a kind that is not written, before anything is worked out."""
    for file in files:
        if file.suffix.lower() not in ENDINGS:
            raise EndingError(f"{file} cannot be written: take a name that ends in {', '.join(ENDINGS)}")


def write_explored(file: Path, rows: Sequence[Tried], varies: Sequence[Vary], assessment: Assessment) -> Path:
    """Write the table or the picture, by the file's ending. Raises EndingError, PacketError."""
    check_endings([file])
    made(file.parent)
    return write(file, _content(file.suffix.lower(), rows, varies, assessment))


def _content(ending: str, rows: Sequence[Tried], varies: Sequence[Vary], assessment: Assessment) -> bytes:
    if ending == ".csv":
        return as_csv(rows, varies).encode()
    if ending == ".json":
        return as_json(rows).encode()
    title = f"{assessment.job.name}: {len(rows)} ways of making it"
    svg = explored_svg(rows, assessment.job.style, assessment.shop.currency, Frame(title=title))
    return svg.encode() if ending == ".svg" else _printed(svg, ending[1:])


def as_csv(rows: Sequence[Tried], varies: Sequence[Vary]) -> str:
    """A line for each way; `beaten by none`: nothing else is as cheap, as stiff and as light."""
    front, best = not_beaten(rows), best_few(rows)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["number", *(vary.name for vary in varies), *FIGURES, "beaten by none", "best", "wrong"])
    for row in rows:
        told = tried_as_json(row)
        figures = told["figures"] or {}
        values = [told["settings"].get(".".join(vary.path), "") for vary in varies]
        number = row.point.number
        found = ["" if figures.get(name) is None else figures[name] for name in FIGURES]
        writer.writerow(
            [
                number,
                *values,
                *found,
                "yes" if number in front else "",
                best.get(number, ""),
                " ".join(row.wrong.split()),
            ]
        )
    return out.getvalue()


def as_json(rows: Sequence[Tried]) -> str:
    """The same, for another program."""
    front, best = not_beaten(rows), best_few(rows)
    told = [
        {**tried_as_json(row), "beaten_by_none": row.point.number in front, "best": best.get(row.point.number, "")}
        for row in rows
    ]
    return json.dumps(told, indent=2, ensure_ascii=False) + "\n"


def _printed(svg: str, kind: str) -> bytes:
    import typst

    sources = {
        "main": b'#set page(width: auto, height: auto, margin: 4mm)\n#image("picture.svg", width: 190mm)\n',
        "picture.svg": svg.encode(),
    }
    setter: Callable[..., bytes] = typst.compile
    more = {"ppi": SHARP} if kind == "png" else {}
    return setter(sources, format=kind, ignore_system_fonts=True, **more)
