"""Why a check came out as it did."""

from __future__ import annotations

from collections.abc import Sequence
from urllib.parse import quote, unquote

from fitwright.assess import Assessment
from fitwright.findings import Finding
from fitwright.sheets.wording import amount
from fitwright.web.dependents import dims_of, users
from fitwright.web.errors import NotThere
from fitwright.web.pages.why.dims import dim_input
from fitwright.web.pages.why.parts import part_inputs
from fitwright.web.pages.why.reason import Input, Reason
from fitwright.web.words import finding_key


def reason_of_finding(assessment: Assessment, findings: Sequence[Finding], text: str, key: str) -> Reason:
    """A finding with its arithmetic; text: the job file's. Raises NotThere when the check is no longer made."""
    wanted = unquote(key)
    found = next((one for one in findings if unquote(finding_key(one)) == wanted), None)
    if found is None:
        raise NotThere("this check is not made any more: the job has changed")
    style = assessment.job.style
    rows = [
        (name, amount(value, found.unit, style))
        for name, value in (("value", found.value), ("limit", found.limit), ("margin", found.margin))
        if value is not None
    ]
    return Reason(
        f"{found.subject}: {found.check}",
        found.verdict.value,
        (found.formula,) if found.formula else (),
        found.basis,
        _inputs(assessment, text, found),
        advice=found.advice,
        rows=tuple(rows),
    )


def _inputs(assessment: Assessment, text: str, found: Finding) -> tuple[Input, ...]:
    """What the finding hangs on: its part's dims, else those of every part that it may be about, and the place."""
    parts = _parts_named(assessment, found)
    if parts:
        marks = [Input(mark, "part", f"/why/part/{quote(mark)}") for mark in _marks_named(assessment, found)]
        inputs = [one for part in parts for one in part_inputs(assessment, text, part)]
        return tuple(dict.fromkeys([*marks, *inputs]))
    using = users(text)
    all_parts = [("part", part.name) for part in assessment.job.parts]
    names = dict.fromkeys(name for place in all_parts for name in dims_of(using, place))
    dims = [dim_input(assessment.job, name) for name in assessment.job.dims if name in names]
    place = [Input("the place, in the job file", "", "/file?find=space")] if found.area == "space" else []
    return (*dims, *place)


def _parts_named(assessment: Assessment, found: Finding) -> list[str]:
    """The job's parts that a finding's subject is or names."""
    made = assessment.made
    if found.subject in made:
        return [made[found.subject].part]
    words = found.subject.split(" (")[0]
    stock = [member.part for member in assessment.piece.members if member.stock.label == found.subject]
    named = [part.name for part in assessment.job.parts if part.name in words.split(" to ") or part.name == words]
    return list(dict.fromkeys([*named, *stock]))


def _marks_named(assessment: Assessment, found: Finding) -> list[str]:
    return [found.subject] if found.subject in assessment.made else []
