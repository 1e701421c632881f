"""What a job comes to in a few figures."""

from __future__ import annotations

import pytest

from fitwright.findings import Verdict
from fitwright.pricing.exploring import Base, alternatives_of, explore
from fitwright.report.point import figures_of, judge
from tests.demos import assessed
from tests.stand import SHOP, TEXT, missing, stand, with_prices


def test_figures_are_those_of_the_whole_job() -> None:
    found = figures_of(stand())
    assert (found.net, found.total, found.cost) == (stand().price.net, stand().price.total, stand().cost.total)
    assert found.mass == stand().piece.mass
    assert found.verdict == stand().all_findings[0].verdict.value
    assert found.hours == stand().cost.hours.mean


def test_what_gives_is_the_worst_of_sag_and_sway_by_its_limit() -> None:
    moving = [
        one for one in assessed("coat-rail").findings if one.check.startswith(("sag", "sway")) and one.unit == "mm"
    ]
    shares = [one.value / one.limit for one in moving if one.value is not None and one.limit]
    found = figures_of(assessed("coat-rail"))
    assert found.give == pytest.approx(max(shares))
    assert found.sway == pytest.approx(max(one.value or 0.0 for one in moving if one.check.startswith("sway")))


def test_a_job_that_lacks_a_price_has_none() -> None:
    poor = with_prices(SHOP, paint=missing(SHOP.prices.paint, "enamel"))
    found = judge(TEXT, poor)
    assert found.net is None
    assert found.total is None


def test_the_same_job_gives_the_same_figures_wherever_it_is_worked_out() -> None:
    """In this process and in others: nothing hangs on where or when it is worked out."""
    points = alternatives_of(TEXT, stand().job, SHOP)[:3]
    base = Base(TEXT, SHOP)
    here = explore(points, base, judge, workers=1)
    assert here[0].figures == figures_of(stand())
    assert explore(points, base, judge, workers=2) == here


def test_the_worst_finding_is_named() -> None:
    found = figures_of(stand())
    worst = stand().all_findings[0]
    assert worst.verdict is Verdict.FAILS
    assert found.finding == f"{worst.area}, {worst.subject}: {worst.check}"
