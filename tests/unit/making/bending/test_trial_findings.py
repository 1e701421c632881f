from __future__ import annotations

import math
from dataclasses import replace

from fitwright.findings import Finding, Verdict
from fitwright.making.bending import bend_findings, bend_from_legs
from fitwright.shop import default_shop
from fitwright.shop.learning import learn
from fitwright.stock import parse_stock
from fitwright.units import Style
from tests.unit.shop.records.samples import TRIAL, TUBE

SHOP = default_shop("inch")
STOCK = parse_stock(TUBE)
GOOD = [replace(TRIAL, got_deg=90 - opened) for opened in (4.2, 4.3, 4.1, 4.2, 4.4, 4.2, 4.1)]


def of_trials(*got: float) -> list[Finding]:
    learnt = learn(SHOP, [*GOOD, *(replace(TRIAL, got_deg=one) for one in got)])
    sheet = bend_from_legs([500.0, 500.0], [math.radians(90)], radius=101.6, stock=STOCK, shop=SHOP, learnt=learnt)
    return [one for one in bend_findings(sheet, STOCK, SHOP, Style.inch(), learnt=learnt) if "trials" in one.check]


def test_good_trials_hold_and_say_what_they_make_it() -> None:
    (finding,) = of_trials()
    assert finding.verdict is Verdict.HOLDS
    assert "from 7 trials on this die" in finding.formula
    assert finding.advice == ""


def test_an_odd_trial_is_said_where_the_job_is_checked() -> None:
    (finding,) = of_trials(80.0)
    assert finding.verdict is Verdict.TIGHT
    assert "Trial 8 came out at 80.0°" in finding.advice


def test_without_trials_nothing_is_said() -> None:
    sheet = bend_from_legs([500.0, 500.0], [math.radians(90)], radius=101.6, stock=STOCK, shop=SHOP)
    for learnt in (None, learn(SHOP)):
        assert not [one for one in bend_findings(sheet, STOCK, SHOP, learnt=learnt) if "trials" in one.check]
