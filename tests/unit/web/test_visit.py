"""A request as pages see it: its form, its files, and whom its answer is for."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any, cast

import pytest
from starlette.requests import Request
from starlette.responses import Response
from starlette.testclient import TestClient

from fitwright.web.errors import NotTaken
from fitwright.web.guard.forms import Upload
from fitwright.web.visit import LONGEST_FIELD, Visit, telling
from fitwright.web.workbench import Workbench
from tests.unit.web.serving import RACK, client, some_jobs


def visit(**scope: Any) -> Visit:
    """A visit without a server behind it."""
    headers = [(name.encode(), value.encode()) for name, value in scope.pop("headers", {}).items()]
    whole = {"type": "http", "method": "GET", "path": "/", "headers": headers, "path_params": {}, **scope}
    return Visit(Request(whole), cast(Workbench, None))


def test_a_field_that_is_missing_or_too_long_is_not_taken() -> None:
    asked = visit(form={"text": "31", "long": "x" * (LONGEST_FIELD + 1)})
    assert asked.field("text") == "31"
    for name in ("name", "long"):
        with pytest.raises(NotTaken, match=name):
            asked.field(name)


def test_a_file_that_was_not_chosen_is_not_taken() -> None:
    asked = visit(form={}, files={"picture": Upload("a.png", b"x"), "empty": Upload("", b"")})
    assert asked.upload("picture").content == b"x"
    for name in ("empty", "other"):
        with pytest.raises(NotTaken, match="chosen"):
            asked.upload(name)


def test_a_script_is_led_on_and_a_browser_is_sent() -> None:
    led = visit(headers={"hx-request": "true"}).on_to("/jobs/a")
    sent = visit().on_to("/jobs/a")
    assert (led.status_code, led.headers["hx-redirect"]) == (204, "/jobs/a")
    assert (sent.status_code, sent.headers["location"]) == (303, "/jobs/a")


def test_the_address_of_a_job_is_quoted() -> None:
    assert visit(path_params={"job": "Hall bench (2)"}).to == "/jobs/Hall%20bench%20%282%29"
    assert visit().to == ""


def test_an_answer_tells_the_page_of_a_change() -> None:
    assert telling(Response(), "abc", name="width").headers["hx-trigger"] == (
        '{"job-changed": {"revision": "abc", "name": "width"}}'
    )


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[TestClient]:
    with client(some_jobs(tmp_path)) as found:
        yield found


def test_every_answer_about_a_job_says_of_which_state(opened: TestClient) -> None:
    revision = opened.get(f"{RACK}/mesh").headers["x-revision"]
    for path in (RACK, f"{RACK}/dims", f"{RACK}/why/dim/width", f"{RACK}/versions"):
        answer = opened.get(path)
        assert answer.headers["x-revision"] == revision, path
    assert f'data-revision="{revision}"' in opened.get(f"{RACK}/why/dim/width").text
    assert "x-revision" not in opened.get("/archived").headers
