"""The page of readings: forms that work without scripts, refusals in words, what follows at once."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from fitwright.job import load_job
from tests.unit.web.serving import client, send, some_jobs

BAR = "/jobs/coat-rail"
PAGE = f"{BAR}/readings?whole=1"


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[TestClient, Path]]:
    jobs = some_jobs(tmp_path_factory.mktemp("readings"), "coat-rail")
    with client(jobs) as found:
        yield found, jobs / "coat-rail" / "job.yaml"


def test_what_can_be_read_has_its_fields(opened: tuple[TestClient, Path]) -> None:
    page = opened[0].get(PAGE)
    assert page.status_code == 200
    assert 'name="of" value="bend 1 of rail"' in page.text
    assert "Nothing is read yet" in page.text


def test_a_reading_is_kept_and_taken_out(opened: tuple[TestClient, Path]) -> None:
    answer = send(opened[0], f"{BAR}/readings/add", {"of": "angle of bend 1 of rail", "is": "13.3"}, page=PAGE)
    assert (answer.status_code, answer.headers["location"]) == (303, PAGE)
    (reading,) = load_job(opened[1]).readings
    assert str(reading.of) == "bend 1 of rail"
    assert reading.when is not None
    page = opened[0].get(PAGE).text
    assert "bend 1 of rail by" in page
    assert opened[0].get(f"{BAR}/readings/piece.svg").headers["content-type"].startswith("image/svg+xml")
    send(opened[0], f"{BAR}/readings/remove", {"of": "bend 1 of rail", "number": "0"}, page=PAGE)
    assert load_job(opened[1]).readings == ()


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"of": "colour of rail", "is": "9"}, "is not something that is read"),
        ({"of": "bend 1 of rail", "is": ""}, "nothing was written in the field"),
        ({"of": "bend 1 of rail", "is": "sharp"}, "is not an angle"),
        ({"of": "bend 1 of rial", "is": "90"}, "did you mean rail?"),
    ],
)
def test_what_is_refused(opened: tuple[TestClient, Path], fields: dict[str, str], says: str) -> None:
    answer = send(opened[0], f"{BAR}/readings/add", fields, page=PAGE)
    assert answer.status_code in (400, 422)
    assert says in answer.text
    assert load_job(opened[1]).readings == ()
