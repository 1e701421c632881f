"""The assessment of the demos: what is tight there is really cured by its advice."""

from __future__ import annotations

import re

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
