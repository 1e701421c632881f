"""The piece in its place as pictures, and what was found about it, computed for a state of the job."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess import Assessment
from fitwright.sheets.drawing import Drawing, to_svg
from fitwright.sheets.drawing.arrangement import picture
from fitwright.sheets.drawing.directions import FRONT, TOP, Direction
from fitwright.sheets.drawing.model import View
from fitwright.sheets.drawing.scales import scales
from fitwright.sheets.drawing.solids import gather
from fitwright.sheets.packet.surroundings import Surroundings, front_picture, plan_picture
from fitwright.web.pages.piece.findings_told import FindingsTold, findings_told

AREA = "space"


@dataclass(frozen=True)
class InPlace:
    """Pictures by name (front, plan) as SVG, numbered names of things and doors, and the findings."""

    pictures: dict[str, str]
    numbered: dict[str, int]
    told: FindingsTold


def in_place(assessment: Assessment) -> InPlace:
    """The same drawings as the packet's sheet has; none without a survey."""
    job, fit, opening = assessment.job, assessment.fit, assessment.job.space.opening
    told = findings_told([one for one in assessment.findings if one.area == AREA], job.style)
    if fit is None or opening is None:
        return InPlace({}, {}, told)
    around = Surroundings(job, opening, fit, assessment.piece.envelope)
    found: dict[str, Drawing] = {}
    if around.walls.widths or opening.tops:
        found["front"] = front_picture(around, _seen(assessment, FRONT))
    if around.walls.depths:
        found["plan"] = plan_picture(around, _seen(assessment, TOP))
    return InPlace({name: to_svg(drawing) for name, drawing in found.items()}, around.numbered, told)


def _seen(assessment: Assessment, direction: Direction) -> View:
    strokes = picture(gather(assessment.meshes), direction).strokes
    return View(direction.name, scales("metric")[0], strokes)
