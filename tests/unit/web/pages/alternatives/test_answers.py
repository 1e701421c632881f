"""The page of alternatives: worked out aside one by one, a point opens its job, a newer change ends them."""

from __future__ import annotations

import re
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from fitwright.job import parse_job
from tests.stand import TEXT
from tests.unit.web.serving import client, send

STAND = "/jobs/stand"
PATIENCE = 120.0
AGAIN = re.compile(r'hx-get="([^"]+)" hx-trigger="load delay')


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[TestClient]:
    """An application on a folder with the stand."""
    folder = tmp_path / "jobs" / "stand"
    folder.mkdir(parents=True)
    (folder / "job.yaml").write_text(TEXT, encoding="utf-8")
    with client(tmp_path / "jobs") as found:
        yield found


def part(opened: TestClient, path: str = f"{STAND}/alternatives/tried") -> str:
    return str(opened.get(path, headers={"hx-request": "true"}).text)


def test_all_are_worked_out_one_by_one_and_shown_as_they_come(opened: TestClient) -> None:
    assert "Made otherwise" in opened.get(f"{STAND}/alternatives").text
    seen, until = set(), time.monotonic() + PATIENCE
    told = part(opened)
    while (again := AGAIN.search(told)) is not None:
        assert time.monotonic() < until
        seen.add(told.count("not worked out yet"))
        told = part(opened, again[1].replace("&amp;", "&"))
    assert len(seen) > 1
    assert "not worked out yet" not in told
    assert told.count("<svg") == 2
    assert f'href="{STAND}/alternatives/1"' in told
    one = opened.get(f"{STAND}/alternatives/1").text
    assert "What it comes to" in one


def test_a_point_opens_its_job(opened: TestClient, tmp_path: Path) -> None:
    page = f"{STAND}/alternatives/1"
    shown = opened.get(page).text
    assert "stock.frame" in shown
    answer = send(opened, f"{page}/begin", {"name": "Heavier stand"}, page)
    assert answer.headers["location"] == "/jobs/Heavier%20stand"
    text = (tmp_path / "jobs" / "Heavier stand" / "job.yaml").read_text(encoding="utf-8")
    assert parse_job(text).stock["frame"].label == "square tube 30 x 30 x 2 mm"
    assert parse_job(text).name == "Heavier stand"
    assert (tmp_path / "jobs" / "stand" / "job.yaml").read_text(encoding="utf-8") == TEXT


def test_a_name_that_is_taken_is_refused(opened: TestClient) -> None:
    answer = send(opened, f"{STAND}/alternatives/1/begin", {"name": "stand"}, f"{STAND}/alternatives/1")
    assert answer.status_code == 422


def test_a_newer_change_ends_them(opened: TestClient, tmp_path: Path) -> None:
    old = AGAIN.search(part(opened))
    assert old is not None
    (tmp_path / "jobs" / "stand" / "job.yaml").write_text(TEXT.replace("width: 400", "width: 420"), encoding="utf-8")
    opened.get(f"{STAND}/alternatives")
    answer = opened.get(old[1].replace("&amp;", "&"), headers={"hx-request": "true"})
    assert answer.status_code == 204


def test_what_is_not_there(opened: TestClient) -> None:
    assert opened.get(f"{STAND}/alternatives/99").status_code == 404
