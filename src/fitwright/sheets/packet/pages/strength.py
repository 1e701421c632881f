"""How the piece stands under its loads: bent in exaggerated scale, with the numbers that come nearest to a limit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from fitwright.assess import Assessment
from fitwright.checks.frame_results import FrameResults
from fitwright.checks.strength import AREA, Stresses, governing_case, stresses
from fitwright.findings import URGENCY, Finding
from fitwright.sheets.drawing import Drawing
from fitwright.sheets.packet.cautioning import DEFER
from fitwright.sheets.packet.deflected import Bent, bent_by, bent_picture
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.pages.cover import LONGEST_UNIT, verdict_of
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.sheets.wording import amount
from fitwright.units import INCH, Style

TITLE = "How it stands"
ROOM = (92.0, 94.0)
MOST = 7
OF_SECTIONS = ("width of wall over its thickness",)
DOTS = 2  # stations of an element at which stresses are known, less one

ASSUMED = (
    "The frame is taken as elastic bars on their centrelines: walls, sections and bends as the parts list has them, no "
    "dents and no rust.",
    "Welded joints are stiff; bolted ones turn. Panels spread their loads onto what they rest on.",
    "Feet and wheels bear on a level floor and may lift off it; they roll and spread freely unless somebody leans "
    "against the piece, when they grip.",
    "Loads rest, or are pushed by hand: no drop, no blow, nobody standing or climbing on it.",
)


def strength_page(assessment: Assessment, whole: Drawing) -> Page | None:
    """The governing case as a picture and in words; None for a piece that is no frame, or goes over by itself."""
    results, job = assessment.frame, assessment.job
    if results is None or not results.cases.cases:
        return None
    case = governing_case(job, results)
    if results.tips[case]:
        return None
    bent = bent_by(results, case, _most_stressed(stresses(results), case))
    content: Json = {
        "case": _capital(results.cases.cases[case].name),
        "told": list(_told(assessment, bent, case)),
        "exaggeration": f"Drawn {bent.factor:g} times as far as it moves; thin: unloaded",
        "findings": _findings(assessment.findings, job.style),
        "assumed": [*_loads(assessment, results), *ASSUMED],
        "defer": DEFER,
    }
    isometric = next(view for view in whole.views if view.name == "isometric")
    return Page("strength", TITLE, content, {"bent": bent_picture(bent, isometric, job.style, ROOM)})


def _most_stressed(found: Stresses, case: int) -> tuple[int, int]:
    """Element and end with the largest stress in a case."""
    ends = found.values[:, ::DOTS, case]
    element, end = np.unravel_index(int(np.nanargmax(ends)), ends.shape)
    return int(element), int(end)


def _capital(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}"


def _told(assessment: Assessment, bent: Bent, case: int) -> Iterator[str]:
    """What the case is, and what it does."""
    results, style = bent.results, assessment.job.style
    yield f"Of {len(results.cases.cases)} cases of loading this one brings the frame nearest to its limit of stress."
    worst = float(np.nanmax(stresses(results).values[:, :, case]))
    member, moving = (_member(results, element) for element in (bent.stressed[0], bent.most[0]))
    yield f"Most stressed: {member}, {style.stress(worst)}. Moves most: {moving}, by {_small(bent.movement, style)}."
    if results.magnified > 1.005:
        yield f"Bending is magnified by {results.magnified:.2f}, for what leans under its load bends a little more."


def _small(movement: float, style: Style) -> str:
    return f'{movement / INCH:.2f}"' if style.unit == "inch" else f"{movement:.1f} mm"


def _member(results: FrameResults, element: int) -> str:
    name = results.framed.piece.members[int(results.framed.member_of[element])].name
    mark = results.framed.piece.mark_of.get(name, "")
    return f"{mark} ({name})" if mark else name


def _loads(assessment: Assessment, results: FrameResults) -> Iterator[str]:
    """Which loads there are, and where they come from."""
    style, push = assessment.job.style, results.cases.push
    loads = [f"{part} {style.force(force)}" for part, force in assessment.job.brief.loads.on.items() if force > 0]
    if loads:
        yield f"Loads of the brief, besides its own weight: {', '.join(loads)}."
    else:
        yield "Its own weight only: the brief names no loads."
    yield f"Somebody leaning: {style.force(push.force)} at {style.length(push.height)} from any side ({push.basis})."


def _findings(findings: Sequence[Finding], style: Style) -> Json:
    """One line for each check of strength, sag and sway: the subject nearest to its limit."""
    columns: list[ColumnTold] = [
        ("verdict", "verdict", None), ("check, and where it is nearest to its limit", "text", 4),
        ("value", "number", None), ("limit", "number", None),
    ]  # fmt: skip
    rows = [
        (
            verdict_of(found),
            (f"{found.check}: {found.subject}", found.formula) if found.formula else f"{found.check}: {found.subject}",
            _number(found.value, found.unit, style),
            _number(found.limit, found.unit, style),
        )
        for found in nearest_to_limit(findings)
    ]
    return table(columns, rows)


def _number(value: float | None, unit: str, style: Style) -> str:
    """A value as on every other sheet; without a unit that is a phrase, which the line beside it says."""
    told = amount(value, unit, style)
    return told if len(unit) <= LONGEST_UNIT else told.removesuffix(unit).strip()


def nearest_to_limit(findings: Sequence[Finding]) -> list[Finding]:
    """The findings of strength, one for each check, worst verdict first, then by how much of the limit is left.

    Without what is a property of the section alone, and no more than have room on the sheet.
    """
    worst: dict[str, Finding] = {}
    for found in findings:
        if (
            found.area == AREA
            and found.check not in OF_SECTIONS
            and (found.check not in worst or _urgency(found) < _urgency(worst[found.check]))
        ):
            worst[found.check] = found
    return sorted(worst.values(), key=_urgency)[:MOST]


def _urgency(found: Finding) -> tuple[int, float]:
    left = found.margin / abs(found.limit) if found.margin is not None and found.limit else 0.0
    return URGENCY.index(found.verdict), left
