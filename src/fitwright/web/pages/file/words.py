"""Words that the editor offers: keys by where they stand, and the job's own names."""

from __future__ import annotations

from typing import Any

from fitwright.job import job_schema
from fitwright.job.arithmetic.formula import FUNCTIONS
from fitwright.job.model import Job

Word = dict[str, str]
PART_SHAPES = ("MemberShape", "PanelShape", "HardwareShape", "OpeningPartShape")
SECTION_SHAPES = {"job": "HeadShape", "brief": "BriefShape", "space": "SpaceShape"}


def completion_words(job: Job | None) -> dict[str, list[Word]]:
    """Words by place: `top` keys, `job`, `brief`, `space` and `parts` keys, and `values`."""
    schema = job_schema()
    found = {"top": _keys(schema), "parts": _merged([_keys(schema["$defs"][shape]) for shape in PART_SHAPES])}
    found |= {section: _keys(schema["$defs"][shape]) for section, shape in SECTION_SHAPES.items()}
    return {**found, "values": [] if job is None else _names(job)}


def _names(job: Job) -> list[Word]:
    dims = [{"label": name, "detail": dim.text} for name, dim in job.dims.items()]
    stock = [{"label": name, "detail": one.label} for name, one in job.stock.items()]
    sizes = [
        {"label": f"{name}.{size}", "detail": job.style.length(mm)}
        for name, one in job.stock.items()
        for size, mm in one.section.dimensions.items()
    ]
    return [*dims, *stock, *sizes, *({"label": name, "detail": "function"} for name in FUNCTIONS)]


def _keys(shape: dict[str, Any]) -> list[Word]:
    return [{"label": key, "detail": str(said.get("description", ""))} for key, said in shape["properties"].items()]


def _merged(lists: list[list[Word]]) -> list[Word]:
    return list({word["label"]: word for words in lists for word in words}.values())
