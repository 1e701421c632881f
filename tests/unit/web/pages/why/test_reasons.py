"""Numbers answer with arithmetic that gives the number."""

from __future__ import annotations

import re

import pytest

from fitwright.web.errors import NotThere
from fitwright.web.pages.why.dims import reason_of_dim
from fitwright.web.pages.why.findings import reason_of_finding
from fitwright.web.pages.why.parts import reason_of_part
from fitwright.web.words import finding_key
from tests.demos import EXAMPLES, NAMES, assessed


def text_of(name: str) -> str:
    return (EXAMPLES / name / "job.yaml").read_text(encoding="utf-8")


def test_arithmetic_is_told_with_its_values() -> None:
    reason = reason_of_dim(assessed("drying-rack").job, text_of("drying-rack"), "ledge_in")
    assert reason.steps == ("ledge in = frame.od / 2", '= 1 1/8" / 2', '= 9/16"')
    assert reason.inputs[0].name.startswith("od of frame")
    assert [one.name for one in reason.moves] == ["ledge"]


@pytest.mark.parametrize("name", NAMES)
def test_the_steps_of_every_part_add_up(name: str) -> None:
    """The lengths of the lines, added as they are signed, give the last line but for the rounding of each."""
    assessment = assessed(name)
    for mark in assessment.made:
        steps = reason_of_part(assessment, text_of(name), mark).steps
        total, results = 0.0, []
        for step in steps:
            number = metric(step)
            if step.startswith("="):
                results.append(number)
            else:
                total += -number if step.startswith("−") else number
        assert abs(total - results[-1]) < 0.8 * len(steps)


def test_weights_are_in_the_units_of_the_job() -> None:
    """Round tube 1 1/8 x 0.065 in of 490 lb/ft3: pi (1.125 - 0.065) 0.065 / 144 x 490 = 0.7366 lb/ft (arithmetic)."""
    rack = dict(reason_of_part(assessed("drying-rack"), text_of("drying-rack"), "A1").rows)
    assert float(rack["weight"].split(" lb/ft: ")[0]) == pytest.approx(0.7366, rel=0.005)
    rail = dict(reason_of_part(assessed("coat-rail"), text_of("coat-rail"), "A1").rows)
    assert " kg/m: " in rail["weight"]
    for name, unit in (("drying-rack", "lb/ft³"), ("workbench", "")):
        assessment = assessed(name)
        boards = [one.mark for one in assessment.piece.marks if one.mark not in assessment.made]
        weights = [dict(reason_of_part(assessment, text_of(name), mark).rows)["weight"] for mark in boards]
        unit = unit or ("lb/ft³" if assessment.job.style.unit == "inch" else "kg/m³")
        assert any(f" {unit}: " in weight for weight in weights)
        assert not any("kg/" in weight for weight in weights if unit == "lb/ft³")


def metric(step: str) -> float:
    """The first length of a line [mm]."""
    found = re.match(r"[=+−]?\s*((?:\d+ )?\d+(?:/\d+)?(?:\.\d+)?)([+-]?)(\"| mm)", step)
    assert found is not None, step
    parts = [float(top) / float(bottom or 1) for top, _, bottom in (part.partition("/") for part in found[1].split())]
    return sum(parts) * (25.4 if found[3] == '"' else 1.0)


@pytest.mark.parametrize("name", NAMES)
def test_every_finding_can_be_asked(name: str) -> None:
    assessment = assessed(name)
    for finding in assessment.findings:
        reason = reason_of_finding(assessment, assessment.findings, text_of(name), finding_key(finding))
        assert reason.basis
        assert reason.inputs, finding


def test_what_is_not_there_is_told() -> None:
    assessment = assessed("coat-rail")
    with pytest.raises(NotThere):
        reason_of_part(assessment, text_of("coat-rail"), "ZZ1")
    with pytest.raises(NotThere):
        reason_of_dim(assessment.job, text_of("coat-rail"), "nothing")
    with pytest.raises(NotThere):
        reason_of_finding(assessment, assessment.findings, text_of("coat-rail"), "a:b:c")
