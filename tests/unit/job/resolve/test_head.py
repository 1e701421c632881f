from __future__ import annotations

from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest

from fitwright.job import Job, JobFileError, parse_job
from fitwright.job.model import Brief

REST = "stock: {tube: round tube 30 x 2 mm}\nparts: {post: {stock: tube, path: [[0, 0, 0], [0, 0, 100]]}}\n"


def head(text: str) -> Job:
    return parse_job(f"job: {{{text}}}\n{REST}")


def brief(text: str, unit: str = "inch") -> Brief:
    return parse_job(f"job: {{name: a, unit: {unit}}}\nbrief: {{{text}}}\n{REST}").brief


def test_all_of_the_head() -> None:
    job = head("name: Rack, unit: inch, client: Club, due: 2026-03-14, fraction: 1/32, notes: by van")
    assert (job.name, job.client, job.due, job.notes) == ("Rack", "Club", date(2026, 3, 14), "by van")
    assert (job.style.unit, job.style.step) == ("inch", Fraction(1, 32))


@pytest.mark.parametrize(
    ("unit", "fraction", "step"),
    [
        ("inch", None, Fraction(1, 16)),
        ("inch", "1/64 in", Fraction(1, 64)),
        ("mm", None, Fraction(1, 2)),
        ("mm", "0.1 mm", Fraction(1, 10)),
        ("cm", "1/2", Fraction(1, 2)),
    ],
)
def test_the_printed_step(unit: str, fraction: str | None, step: Fraction) -> None:
    given = f", fraction: {fraction}" if fraction else ""
    assert head(f"name: a, unit: {unit}{given}").style.step == step


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("name: a, unit: inch, fraction: 1/10", "not a step that is printed"),
        ("name: a, unit: mm, fraction: 1/16", "not a step that is printed"),
        ("name: a, unit: mm, due: 14 March", "not a date"),
        ("name: a", "unit is missing"),
        ("unit: mm", "name is missing"),
        ("name: a, unit: feet", "not a word for this"),
    ],
)
def test_what_a_head_cannot_be(text: str, says: str) -> None:
    with pytest.raises(JobFileError) as error:
        head(text)
    (mistake,) = error.value.mistakes
    assert says in mistake.what


def test_all_of_the_brief() -> None:
    found = brief(
        "use: boots, loads: {post: 40 lb, push: {force: 20 lb, height: 40}}, cautions: [floor], "
        "rules: {safety: 2, tight: 15 %, sag: L/360, clear_tight: 1/4}, budget: '$1,200.50'"
    )
    assert found.loads.on["post"] == pytest.approx(40 * 4.4482216, rel=1e-7)  # 1 lbf in N, NIST SP 811
    assert found.loads.push == pytest.approx(20 * 4.4482216, rel=1e-7)
    assert found.loads.push_height == pytest.approx(1016)
    assert (found.rules.safety, found.rules.tight, found.rules.sag) == (2, 0.15, 360)
    assert found.rules.clear_tight == pytest.approx(6.35)
    assert (found.use, found.cautions, found.budget) == ("boots", ("floor",), Decimal("1200.50"))


def test_without_a_brief_the_usual_rules_hold_in_the_unit_of_the_job() -> None:
    inch, metric = brief("use: a"), brief("use: a", unit="cm")
    assert inch.rules.clear_tight == pytest.approx(3.175)
    assert metric.rules.clear_tight == 3
    assert (inch.rules.safety, inch.rules.tight, inch.rules.sag) == (1.67, 0.1, 240)


def test_a_caution_may_be_one_word_and_sag_one_number() -> None:
    assert brief("cautions: floor").cautions == ("floor",)
    assert brief("rules: {sag: 300}").rules.sag == 300


@pytest.mark.parametrize(
    ("text", "says", "nearest"),
    [
        ("loads: {pots: 3 lb}", "not the name of a part", "post"),
        ("loads: {post: 3}", "has no unit", None),
        ("loads: {push: 3 lb}", "needs its height", None),
        ("loads: {post: {force: 3 lb, height: 3}}", "belong to push", None),
        ("loads: {post: -3 lb}", "0 to", None),
        ("rules: {safety: 1/2}", "1 to 20", None),
        ("rules: {tight: 120 %}", "0 to 100", None),
        ("rules: {sag: L/2}", "10 to 10000", None),
        ("budget: lots", "not an amount of money", None),
    ],
)
def test_what_a_brief_cannot_be(text: str, says: str, nearest: str | None) -> None:
    with pytest.raises(JobFileError) as error:
        brief(text)
    (mistake,) = error.value.mistakes
    assert says in mistake.what
    assert mistake.nearest == nearest
