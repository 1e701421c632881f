from __future__ import annotations

import re
from pathlib import Path

import pytest

from fitwright.checks.frame_findings import frame_findings
from fitwright.findings import Finding, Verdict
from fitwright.job import parse_job
from fitwright.job.model import Job
from fitwright.piece import Piece, build
from fitwright.units import Style
from tests.unit.checks.frames import findings, one, rack

RACK = (Path(__file__).parent / "jobs" / "rack-without-stretchers.yaml").read_text(encoding="utf-8")
CURE = re.compile(
    r"^(?P<new>.+?) instead of (?P<old>.+?) for (?P<key>.+?) brings this from .+? to (?P<value>.+?) \(limit "
)


def printed(finding: Finding, style: Style) -> str:
    """A value as advice tells it."""
    assert finding.value is not None
    if finding.unit == "mm":
        return style.figure(finding.value)
    if finding.unit == "MPa":
        return style.stress(finding.value)
    figures = f"{finding.value:.0f}" if finding.value >= 100 else f"{finding.value:.{1 if finding.value >= 10 else 2}f}"
    return f"{figures} {finding.unit}".strip()


def built(text: str) -> tuple[Job, Piece]:
    """A job from its text, and its piece."""
    job = parse_job(text)
    return job, build(job)


def applied(text: str, advice: str) -> Job:
    """The job with the advised stock written in place of the one of that name, in the job's own file."""
    said = CURE.match(advice)
    assert said is not None, advice
    changed, count = re.subn(rf"^(  {said['key']}: ).*$", rf"\g<1>{said['new']}", text, flags=re.MULTILINE)
    assert count == 1
    return parse_job(changed)


@pytest.mark.parametrize("wall", ["16 ga", "18 ga", "20 ga"])
def test_advice_on_the_drying_rack_made_lighter_cures_it(wall: str) -> None:
    """Every finding that other stock cures: written into the job, it holds, with the number that was told."""
    text = RACK.replace("x 16 ga", f"x {wall}")
    bad = [f for f in findings(built(text)) if " instead of " in f.advice]
    assert bad
    for found in bad:
        job = applied(text, found.advice)
        cured = one(frame_findings(build(job), job), found.check, found.subject)
        assert cured.verdict is Verdict.HOLDS
        said = CURE.match(found.advice)
        assert said is not None
        assert printed(cured, job.style) == said["value"]


INCH = """
job: {name: Bars, unit: inch}
brief: {loads: {bar: 400 lb, push: {force: 10 lb, height: 20}}}
stock:
  frame: square tube 1 x 16 ga
parts:
  bar: {stock: frame, path: [[0, 0, 20], [30, 0, 20]], mirror: {y: 8}}
  post: {stock: frame, path: [[0, 0, 0], [0, 0, 20]], mirror: {x: 15, y: 8}}
  side: {stock: frame, path: [[0, 0, 20], [0, 16, 20]], mirror: {x: 15}}
"""


def test_numbers_are_told_in_the_units_of_the_job() -> None:
    told = {f.check: f.advice for f in findings(built(INCH)) if " instead of " in f.advice}
    assert " psi (limit " in told["stress"]
    assert "MPa" not in told["stress"]
    assert re.search(r'from 0\.\d+" to 0\.\d+" \(limit 0\.125"\)', told["sag"])


TIGHT = """
job: {name: Stand, unit: mm}
brief: {loads: {top: 60 kg, push: {force: 160 N, height: 900}}, rules: {tight: 10 %}}
stock:
  frame: round tube 22 x 1.5
parts:
  leg: {stock: frame, path: [[0, 0, 0], [0, 0, 900]], ends: free, mirror: {x: 300, y: 200}}
  top: {stock: frame, path: [[0, 0, 880], [600, 0, 880]], mirror: {y: 200}}
  side: {stock: frame, path: [[0, 0, 600], [0, 400, 600]], mirror: {x: 300}}
"""


def test_a_tight_stand_is_cured_by_its_advice() -> None:
    job = parse_job(TIGHT)
    tight = [f for f in frame_findings(build(job), job) if f.verdict is Verdict.TIGHT]
    assert tight
    for found in tight:
        heavier = applied(TIGHT, found.advice)
        cured = one(frame_findings(build(heavier), heavier), found.check, found.subject)
        assert cured.verdict is Verdict.HOLDS
        assert (cured.value or 0) < (found.value or 0)


def test_what_holds_needs_no_advice() -> None:
    assert all(not f.advice for f in findings(rack()) if f.verdict is Verdict.HOLDS)


def test_what_no_stock_cures_gets_words() -> None:
    found = findings(rack("shelf: 90000 kg"))
    bad = [f for f in found if f.verdict is Verdict.FAILS]
    assert bad
    assert all(f.advice for f in bad)
    assert not any("instead of" in f.advice for f in bad if f.check == "stress" and f.subject.startswith("ledge"))


def test_worst_comes_first() -> None:
    found = findings(built(RACK.replace("x 16 ga", "x 18 ga")))
    verdicts = [f.verdict for f in found]
    assert verdicts[0] is Verdict.FAILS
    assert verdicts == sorted(verdicts, key=list(Verdict).index)
