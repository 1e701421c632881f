"""The assessment of the demos: what is tight there is really cured by its advice."""

from __future__ import annotations

import re

import pytest

from fitwright.assess import assess
from fitwright.findings import Finding, Verdict
from fitwright.job import parse_job
from fitwright.shop import default_shop
from fitwright.units import parse_length
from tests.demos import EXAMPLES, NAMES, assessed

RACK = (EXAMPLES / "drying-rack" / "job.yaml").read_text(encoding="utf-8")
STRETCH = "stretch of the outside against the material's elongation"


def stretch_of(text: str) -> Finding:
    job = parse_job(text)
    (found,) = [f for f in assess(job, default_shop("inch")).findings if f.check == STRETCH]
    return found


def test_the_tight_bend_of_the_rack_is_cured_by_its_advice() -> None:
    """The advice names a radius; the next die of the shop from there up makes it hold."""
    tight = stretch_of(RACK)
    assert tight.verdict is Verdict.TIGHT
    said = re.match(r"a radius of (.+?) or more", tight.advice)
    assert said is not None
    least = parse_length(said[1])
    dies = [die for die in default_shop("inch").dies if die.name.startswith("1 1/8 x")]
    radii = [die.radius for die in dies if die.radius >= least - 0.5]
    cured = stretch_of(RACK.replace("radius: 4\n", f"radius: {min(radii) / 25.4:g}\n"))
    assert cured.verdict is Verdict.HOLDS


def test_no_demo_fails() -> None:
    for name in NAMES:
        bad = [f for f in assessed(name).all_findings if f.verdict is Verdict.FAILS]
        assert bad == [], name


def test_every_finding_that_does_not_hold_says_what_to_do() -> None:
    for name in NAMES:
        for finding in assessed(name).all_findings:
            assert finding.verdict is Verdict.HOLDS or finding.advice, (name, finding.check)
            assert finding.basis, (name, finding.check)


NODE = """
job: {name: Node, unit: mm}
stock: {tube: square tube 30 x 30 x 2 mm, post: lumber 2x2}
parts:
  post: {stock: tube, path: [[0, 0, 0], [0, 0, 600]], ends: {finish: free}}
  rail: {stock: tube, path: [[0, 0, 300], [500, 0, 300]], ends: {finish: free}}
  brace: {stock: tube, path: [[0, 0, 300], [500, 0, 100]], ends: {finish: free}}
  foot: {stock: tube, path: [[0, 500, 0], [100, 560, 500]], wide: right, ends: level}
  stick: {stock: post, path: [[900, 0, 0], [1000, 60, 500]], wide: right, ends: level}
"""


def test_the_saw_is_not_set_to_an_angle_where_no_one_pass_cuts_the_end() -> None:
    """Two planes, or a swing and a bevel at once: the saw cuts to length, a template has the rest. Not for timber."""
    node = assess(parse_job(NODE), default_shop("mm"))
    marks = {node.made[mark.mark].part: mark.mark for mark in node.member_marks}
    angles = {mark: (group.angle_start_deg, group.angle_end_deg) for group in node.cut_groups for mark in group.marks}
    for part in ("rail", "brace", "foot"):
        assert angles[marks[part]] == (0, 0), part
    assert angles[marks["stick"]] == pytest.approx((13.13, -13.13), abs=0.01)
    cut_to_paper = {use.template.mark for sheet in node.cope_templates for use in sheet.uses}
    assert {marks[part] for part in ("rail", "brace", "foot")} <= cut_to_paper


def test_what_the_saw_only_cuts_to_length_is_a_step_with_its_template() -> None:
    head, _, parts = NODE.partition("parts:\n")
    foot = next(line for line in parts.splitlines() if line.startswith("  foot:"))
    splayed = assess(parse_job(f"{head}parts:\n{foot}\n"), default_shop("mm"))
    upright = assess(parse_job(f"{head}parts:\n{foot.replace('100, 560', '0, 560')}\n"), default_shop("mm"))
    assert [step.marks for step in splayed.steps if step.kind == "cope"] == [("A1",)]
    assert not [step for step in upright.steps if step.kind == "cope"]
    (sawn,) = [step for step in upright.steps if step.kind == "saw"]
    assert [number.what for number in sawn.numbers] == ["A1, 6.8° both ends, leaning the same way"]
