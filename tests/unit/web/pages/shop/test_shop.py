"""The shop's pages, by the forms that a browser sends."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from fitwright.assess import assess
from fitwright.job import load_job
from fitwright.shop import default_shop
from fitwright.shop.learning.hours import HoursSeen, hours_factors
from fitwright.shop.read import shop_from_text
from fitwright.shop.records import ENVIRONMENT, Built, Hours, OnHand, Quoted, Trial, Where, open_records
from tests.unit.shop.records.samples import DAY, OFFCUT, TRIAL, TUBE
from tests.unit.web.serving import client, hidden, send, some_jobs

STOCK = {
    "label": TUBE,
    "length": "62 1/2",
    "count": "2",
    "price": "4.25",
    "place": "second arm",
    "heat": "",
    "note": "",
}


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Where:
    """Where the records of these tests are; nothing there yet."""
    file = tmp_path / "records" / "records.db"
    monkeypatch.setenv(ENVIRONMENT, str(file))
    return Where(file)


@pytest.fixture
def opened(tmp_path: Path, place: Where) -> Iterator[TestClient]:
    with client(some_jobs(tmp_path)) as found:
        yield found


@pytest.mark.parametrize("path", ["/shop", "/shop/stock", "/shop/dies", "/shop/hours", "/shop/quotes"])
def test_looking_makes_no_records(opened: TestClient, place: Where, path: str) -> None:
    assert opened.get(path).status_code == 200
    assert place.file is not None
    assert not place.file.exists()


def test_the_shop_is_shown_in_short(opened: TestClient) -> None:
    page = opened.get("/shop").text
    for words in (
        "A small shop",
        "cold saw",
        "20 dies, 8 sets of rolls",
        "fixture table",
        "0.030",
        "<strong>0</strong> trials",
    ):
        assert words in page


def test_stock_is_put_on_changed_and_taken_off(opened: TestClient, place: Where) -> None:
    assert send(opened, "/shop/stock/put", STOCK, "/shop/stock").status_code == 303
    with open_records(place) as records:
        (held,) = records.all(OnHand)
    assert held == OnHand(TUBE, 1587.5, 2, Decimal("4.25"), True, "second arm", id=1, version=1)
    page = opened.get("/shop/stock")
    assert '2 × 62 1/2"' in page.text.replace("&#34;", '"')
    assert send(opened, "/shop/stock/1/take", {"version": "1"}, "/shop/stock").status_code == 303
    changed = {**STOCK, "version": "2", "count": "7", "whole": "yes"}
    assert send(opened, "/shop/stock/1/change", changed, "/shop/stock").status_code == 303
    with open_records(place) as records:
        assert records.all(OnHand) == (replace(held, count=7, offcut=False, version=3),)
    assert send(opened, "/shop/stock/1/remove", {"version": "3"}, "/shop/stock").status_code == 303
    with open_records(place) as records:
        assert records.all(OnHand) == ()


def test_the_second_who_changes_an_entry_is_told_both_values(opened: TestClient, place: Where) -> None:
    with open_records(place) as records:
        read = records.add(OFFCUT)
        records.replace(replace(read, count=1))
    answer = send(opened, f"/shop/stock/{read.id}/change", {**STOCK, "version": "1", "count": "9"}, "/shop/stock")
    assert answer.status_code == 409
    assert "count is now 1, you wrote 9" in answer.text
    assert 'value="2"' in answer.text, "the form goes on from the newest version"
    answer = send(opened, f"/shop/stock/{read.id}/take", {"version": "1"}, "/shop/stock")
    assert answer.status_code == 409
    with open_records(place) as records:
        assert records.one(OnHand, read.id).count == 1


def test_what_cannot_be_kept_is_told_and_what_was_typed_stays(opened: TestClient, place: Where) -> None:
    wrong = {**STOCK, "label": "roundish", "length": "x", "count": "two", "note": "from <b>the</b> shed"}
    answer = send(opened, "/shop/stock/put", wrong, "/shop/stock")
    assert answer.status_code == 422
    for words in (
        "label is &#39;roundish&#39;",
        "length is &#39;x&#39;",
        "count is &#39;two&#39;",
        'value="roundish"',
        "from &lt;b&gt;the",
    ):
        assert words in answer.text
    assert send(opened, "/shop/stock/put", {**STOCK, "count": "-3"}, "/shop/stock").status_code == 422
    assert send(opened, "/shop/stock/99/take", {"version": "1"}, "/shop/stock").status_code == 422
    assert send(opened, "/shop/stock/1/take", {"version": "9" * 40}, "/shop/stock").status_code == 422


def test_a_trial_is_kept_and_shown_with_its_picture(opened: TestClient, place: Where) -> None:
    sent = {"die": TRIAL.die, "stock": "Round tube 1-1/8 x 14ga", "asked": "90", "got": "85.8; 85.6", "heat": "H1",
            "blank": "", "legs": "", "mark": "", "note": ""}  # fmt: skip
    answer = send(opened, "/shop/dies/trial", sent, "/shop/dies")
    assert answer.status_code == 303
    page = opened.get(answer.headers["location"]).text
    assert "from 2 trials on this die, heat H1" in page
    assert page.count('class="trial"') == 2
    assert 'class="band"' in page
    with open_records(place) as records:
        kept = records.all(Trial)
    assert [(one.got_deg, one.day) for one in kept] == [(85.8, date.today()), (85.6, date.today())]
    out = send(opened, f"/shop/dies/{kept[0].id}/leave-out", {"version": "1", "out": "yes"}, answer.headers["location"])
    assert out.status_code == 303
    page = opened.get(out.headers["location"]).text
    assert "from 1 trial on this die" in page
    assert page.count('class="left-out"') == 1
    assert TUBE in opened.get("/shop/dies").text


def test_a_trial_that_cannot_be_is_told_and_stays_typed(opened: TestClient, place: Where) -> None:
    sent = {"die": "1 1/8 x 4", "stock": "square tube 1 x 16 ga", "asked": "90", "got": "86", "note": "odd"}
    answer = send(opened, "/shop/dies/trial", sent, "/shop/dies")
    assert answer.status_code == 422
    assert "does not take square tube" in answer.text
    assert 'value="square tube 1 x 16 ga"' in answer.text
    answer = send(opened, "/shop/dies/trial", {**sent, "stock": TUBE, "got": "9"}, "/shop/dies")
    assert "set to 90° and got 9°" in answer.text


@pytest.mark.parametrize(
    "query", ["", "die=none&stock=x", "die=1+1/8+x+4&stock=nothing", "die=1+1/8+x+4&stock=angle+1+x+1+x+1/8"]
)
def test_a_die_or_stock_that_there_is_not_is_told(opened: TestClient, query: str) -> None:
    assert opened.get(f"/shop/dies/of?{query}").status_code in (404, 422)


def test_a_job_that_was_built_changes_the_rack_once(opened: TestClient, place: Where) -> None:
    answer = send(opened, "/shop/built", {"job": "drying-rack"}, "/shop/stock")
    assert answer.status_code == 200
    assert "On the rack: 1 ×" in answer.text
    with open_records(place) as records:
        held = records.all(OnHand)
        assert len(records.all(Built)) == 1
    assert held
    assert all(one.length >= 12 * 25.4 - 1e-6 for one in held)
    again = send(opened, "/shop/built", {"job": "drying-rack"}, "/shop/stock")
    assert again.status_code == 422
    assert "off the rack on" in again.text


def test_recorded_hours_stand_against_the_table(opened: TestClient, place: Where) -> None:
    assert "Reckoned with" not in opened.get("/shop/hours").text, "columns that nothing stands in"
    with open_records(place) as records:
        records.add_all([Hours(DAY, "Rack", "bend A1", "bend", 2.0, 1, 1.0)] * 3)
    page = opened.get("/shop/hours").text
    assert "Reckoned with" in page
    assert "5 min, 10 for each setting, 4 for each bend" in page
    factor = hours_factors([HoursSeen("bend", 2.0, 1.0)] * 3)["bend"].factor
    assert 1.3 < factor < 1.7
    assert f">{factor:.2f}</td>" in page
    assert page.count("bend A1") == 3


def test_a_jobs_hours_are_kept_against_the_usual_ones(opened: TestClient, place: Where, tmp_path: Path) -> None:
    with open_records(place) as records:
        records.add_all([Hours(DAY, "Other", "buy", "buy", 9.0, 1, 3.0)] * 4)
    job = tmp_path / "jobs" / "drying-rack" / "job.yaml"
    text = job.read_text()
    job.write_text(text + "\nprogress:\n  - {step: buy, hours: 4.5, done: 2026-02-03 12:00}\n")
    answer = send(opened, "/shop/remember", {"job": "drying-rack"}, "/shop/hours")
    assert "1 times and 0 readings are kept, 1 of them new" in answer.text
    with open_records(place) as records:
        *_, kept = records.all(Hours)
    assert (kept.job, kept.step_kind, kept.hours) == ("Drying rack", "buy", 4.5)
    assert kept.usual_hours is not None
    usual = next(step.minutes for step in assess(load_job(job), default_shop("inch")).steps if step.key == "buy")
    assert kept.usual_hours == pytest.approx(usual / 60), "not what was learnt since, which would be counted twice"
    assert "0 of them new" in send(opened, "/shop/remember", {"job": "drying-rack"}, "/shop/hours").text


def test_what_became_of_a_quote_is_kept(opened: TestClient, place: Where) -> None:
    with open_records(place) as records:
        records.add(Quoted(DAY, "Rack", Decimal("2745.00"), "USD"))
    assert "2745.00 USD" in opened.get("/shop/quotes").text
    assert (
        send(opened, "/shop/quotes/1/state", {"version": "1", "state": "accepted"}, "/shop/quotes").status_code == 303
    )
    assert "1 of 1 that were decided were accepted" in opened.get("/shop/quotes").text
    assert send(opened, "/shop/quotes/1/state", {"version": "1", "state": "paid"}, "/shop/quotes").status_code == 409
    assert send(opened, "/shop/quotes/1/state", {"version": "2", "state": "lost"}, "/shop/quotes").status_code == 422


def test_records_that_cannot_be_read_are_told_on_the_page(opened: TestClient, place: Where) -> None:
    assert place.file is not None
    place.file.parent.mkdir()
    place.file.write_text("no database " * 500)
    answer = opened.get("/shop/stock")
    assert answer.status_code == 422
    assert "is not a file of records" in answer.text
    assert hidden(opened.get("/"), "token")


def test_a_trial_changes_the_jobs_at_once(opened: TestClient, place: Where) -> None:
    before = opened.get("/jobs/drying-rack/card").text
    revision = opened.get("/jobs/drying-rack").headers["x-revision"]
    with open_records(place) as records:
        records.add(replace(OFFCUT, label="round tube 1 1/8 x 16 ga"))
    assert opened.get("/jobs/drying-rack").headers["x-revision"] != revision
    assert before


def test_an_inch_shop_reads_its_rates_by_the_foot(opened: TestClient, place: Where) -> None:
    page = opened.get("/shop/hours").text
    assert "for each foot ground flush" in page
    assert "100 mm" not in page
    assert "square metre" not in page


def test_the_shop_file_that_comes_along_can_be_taken_and_is_a_shop(opened: TestClient, place: Where) -> None:
    assert 'href="/shop/shop.yaml"' in opened.get("/shop").text
    taken = opened.get("/shop/shop.yaml")
    assert "attachment" in taken.headers["content-disposition"]
    assert shop_from_text(taken.text, "shop.yaml") == default_shop("inch")


def test_every_cell_of_a_table_says_its_column_for_a_narrow_screen(opened: TestClient, place: Where) -> None:
    with open_records(place) as records:
        records.add(TRIAL)
    for path in ("/shop/hours", "/shop/dies"):
        page = opened.get(path).text
        cells = page[page.index("<tbody>") : page.rindex("</tbody>")].split("<td")[1:]
        assert cells
        assert all(cell.startswith(' data-what="') for cell in cells), path
