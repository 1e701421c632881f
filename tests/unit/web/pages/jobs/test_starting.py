"""A job begun from a starter with dims of its own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from fitwright.job import JobFileError, load_job
from fitwright.web.errors import NotTaken, NotThere
from fitwright.web.pages.jobs.starting import starter_text, typed_dims, with_dims
from tests.unit.web.serving import client, send


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[TestClient]:
    (tmp_path / "jobs").mkdir()
    with client(tmp_path / "jobs") as found:
        yield found


def test_only_what_differs_is_written() -> None:
    text = starter_text("drying-rack")
    assert with_dims(text, (("width", "31 1/2"),)) == text
    changed = with_dims(text, (("width", "40"), ("shelves", "3")))
    assert changed.count("\n") == text.count("\n")
    assert "width: 40 " in changed


def test_a_dim_that_is_not_there_or_no_length_is_refused() -> None:
    with pytest.raises(NotTaken):
        with_dims(starter_text("drying-rack"), (("colour", "4"),))
    with pytest.raises(JobFileError):
        with_dims(starter_text("drying-rack"), (("width", "31 +"),))
    with pytest.raises(NotThere):
        starter_text("../job")


def test_typed_dims_are_those_of_the_form() -> None:
    fields = {"name": "x", "dim.rack.width": " 31  1/2 ", "dim.rack.depth": " ", "dim.rail.width": "4", "token": "t"}
    assert typed_dims("rack", fields) == (("width", "31 1/2"),)


def test_the_picture_and_the_size_follow_what_is_typed(opened: TestClient) -> None:
    begun = opened.get("/starters/drying-rack/shown", params={"dim.drying-rack.width": "48"})
    assert "48 3/8&#34; wide" in begun.text
    assert "/starters/drying-rack/still.svg?dim.drying-rack.width=48" in begun.text
    plain = opened.get("/starters/drying-rack/still.svg")
    wide = opened.get("/starters/drying-rack/still.svg", params={"dim.drying-rack.width": "48"})
    assert plain.text != wide.text


def test_what_cannot_be_built_is_told_beside_the_dims(opened: TestClient) -> None:
    begun = opened.get("/starters/drying-rack/shown", params={"dim.drying-rack.width": "4"})
    assert begun.status_code == 200
    assert "cannot be built" in begun.text


def test_the_job_begins_with_the_typed_dims(opened: TestClient, tmp_path: Path) -> None:
    fields = {
        "name": "Hall rack",
        "starter": "drying-rack",
        "dim.drying-rack.width": "40",
        "dim.drying-rack.height": "74",
    }
    answer = send(opened, "/jobs", fields, page="/")
    assert answer.status_code == 303
    job = load_job(tmp_path / "jobs" / "Hall rack" / "job.yaml")
    assert job.dims["width"].text == "40"
    assert job.name == "Hall rack"


def test_nothing_is_begun_with_dims_that_are_wrong(opened: TestClient, tmp_path: Path) -> None:
    answer = send(
        opened, "/jobs", {"name": "Hall rack", "starter": "drying-rack", "dim.drying-rack.width": "31 +"}, page="/"
    )
    assert answer.status_code == 422
    assert not (tmp_path / "jobs" / "Hall rack").exists()


def test_a_job_of_ones_own_has_nothing_of_the_examples_client_place_or_date(opened: TestClient, tmp_path: Path) -> None:
    send(opened, "/jobs", {"name": "Mine", "starter": "drying-rack", "client": "Ada", "due": "2027-05-01"}, page="/")
    text = (tmp_path / "jobs" / "Mine" / "job.yaml").read_text()
    job = load_job(tmp_path / "jobs" / "Mine" / "job.yaml")
    assert (job.client, str(job.due)) == ("Ada", "2027-05-01")
    assert job.space.opening is None
    assert "Sandspit" not in text
    assert text.startswith("job:")
    assert "\n\n\n" not in text


def test_the_example_can_be_taken_whole(opened: TestClient, tmp_path: Path) -> None:
    send(opened, "/jobs", {"name": "Theirs", "starter": "drying-rack", "example": "yes"}, page="/")
    job = load_job(tmp_path / "jobs" / "Theirs" / "job.yaml")
    assert job.client == "Sandspit Sailing Club"
    assert job.space.opening is not None


def test_a_date_that_is_none_begins_nothing(opened: TestClient, tmp_path: Path) -> None:
    answer = send(opened, "/jobs", {"name": "Mine", "starter": "coat-rail", "due": "soon"}, page="/")
    assert answer.status_code == 422
    assert not (tmp_path / "jobs" / "Mine").exists()
