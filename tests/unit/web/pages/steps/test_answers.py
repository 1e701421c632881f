"""The page of the steps: forms that work without scripts, refusals in words, nothing lost."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from fitwright.job import load_job
from tests.unit.web.serving import client, send, some_jobs

BAR = "/jobs/coat-rail"
PAGE = f"{BAR}/steps?whole=1"


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[TestClient, Path]]:
    jobs = some_jobs(tmp_path_factory.mktemp("steps"), "coat-rail")
    with client(jobs) as found:
        yield found, jobs / "coat-rail" / "job.yaml"


def test_every_step_has_a_card_with_its_fields(opened: tuple[TestClient, Path]) -> None:
    page = opened[0].get(PAGE)
    assert page.status_code == 200
    assert page.text.count('class="step-card') == page.text.count("Hours by hand")
    assert 'name="of" value="bend 1 of rail"' in page.text
    assert "Next: step 1, Buy and fetch" in page.text


def test_a_tick_leads_back_to_its_card(opened: tuple[TestClient, Path]) -> None:
    answer = send(opened[0], f"{BAR}/steps/done", {"step": "buy", "done": "yes"}, page=PAGE)
    assert (answer.status_code, answer.headers["location"]) == (303, f"{BAR}/steps?whole=1#step-1")
    assert load_job(opened[1]).progress[0].done is not None
    send(opened[0], f"{BAR}/steps/done", {"step": "buy", "done": "no"}, page=PAGE)
    assert load_job(opened[1]).progress[0].done is None


def test_starting_one_timer_stops_the_others_of_a_shop_of_one(opened: tuple[TestClient, Path]) -> None:
    for step in ("trial", "weld"):
        send(opened[0], f"{BAR}/steps/timer", {"step": step, "run": "yes"}, page=PAGE)
    running = {one.step: one.since is not None for one in load_job(opened[1]).progress}
    assert running["weld"]
    assert not running["trial"]
    send(opened[0], f"{BAR}/steps/timer", {"step": "weld", "run": "no"}, page=PAGE)
    assert not any(one.since for one in load_job(opened[1]).progress)


def test_a_reading_goes_into_the_job_file(opened: tuple[TestClient, Path]) -> None:
    fields = {"step": "bend C1", "of": "bend 2 of rail", "is": "90.5"}
    assert send(opened[0], f"{BAR}/steps/reading", fields, page=PAGE).status_code == 303
    assert str(load_job(opened[1]).readings[-1].of) == "bend 2 of rail"
    assert "90.5°" in opened[0].get(PAGE).text


@pytest.mark.parametrize(
    ("call", "fields", "told"),
    [
        ("reading", {"of": "bend 1 of rail", "is": "wide"}, "is not an angle"),
        ("reading", {"of": "colour of rail", "is": "3"}, "not something that is read"),
        ("reading", {"of": "bend 1 of rail", "is": "  "}, "nothing was written"),
        ("hours", {"hours": "long"}, "is not a number of hours"),
        ("hours", {"hours": "-1"}, "is not a number of hours"),
    ],
)
def test_what_cannot_be_kept_is_told_and_changes_nothing(
    opened: tuple[TestClient, Path], call: str, fields: dict[str, str], told: str
) -> None:
    before = opened[1].read_bytes()
    answer = send(opened[0], f"{BAR}/steps/{call}", {"step": "bend C1", **fields}, page=PAGE)
    assert answer.status_code == 422
    assert told in answer.text
    assert opened[1].read_bytes() == before


def test_hours_by_hand(opened: tuple[TestClient, Path]) -> None:
    send(opened[0], f"{BAR}/steps/hours", {"step": "bend C1", "hours": "1,25"}, page=PAGE)
    assert next(one.hours for one in load_job(opened[1]).progress if one.step == "bend C1") == 1.25
    assert "1:15" in opened[0].get(PAGE).text
