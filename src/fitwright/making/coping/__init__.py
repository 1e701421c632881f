"""Coping: paper to wrap round the end of a member, with the line to cut to."""

from fitwright.making.coping.errors import NoTemplate
from fitwright.making.coping.model import CopeSheet, FlatLine, Measured, Placement, Seam, Template, Use
from fitwright.making.coping.sheets import cope_sheets, title_of
from fitwright.making.coping.template import has_template, template_of

__all__ = [
    "CopeSheet",
    "FlatLine",
    "Measured",
    "NoTemplate",
    "Placement",
    "Seam",
    "Template",
    "Use",
    "cope_sheets",
    "has_template",
    "template_of",
    "title_of",
]
