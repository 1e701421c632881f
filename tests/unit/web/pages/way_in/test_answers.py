"""The page of the way in, by a client that fills in forms."""

from __future__ import annotations

import time
from pathlib import Path

from httpx2 import Response
from starlette.testclient import TestClient

from fitwright.job import load_job
from fitwright.job.obstacles import Door
from tests.unit.web.serving import client, send, some_jobs

BENCH = "/jobs/workbench"
PAGE = f"{BENCH}/way-in"
SCRIPT = {"hx-request": "true"}
LONGEST = 60.0


def answered(opened: TestClient) -> Response:
    """The answer, asked for until it is there."""
    ends = time.monotonic() + LONGEST
    while time.monotonic() < ends:
        answer: Response = opened.get(f"{PAGE}/answer", headers=SCRIPT)
        if "way-verdict" in answer.text or "No route" in answer.text:
            return answer
    raise AssertionError("no answer in time")


def route(jobs: Path) -> list[str]:
    return [one.name for one in load_job(jobs / "workbench" / "job.yaml").space.route]


def test_the_form_has_what_the_file_has(tmp_path: Path) -> None:
    with client(some_jobs(tmp_path, "workbench")) as opened:
        shown = opened.get(PAGE).text
        for said in ("side door", 'value="35 1/2"', "wheel arches: apart", "Add the lift"):
            assert said in shown


def test_the_answer_and_its_pictures(tmp_path: Path) -> None:
    with client(some_jobs(tmp_path, "workbench")) as opened:
        told = answered(opened).text
        assert "As built it gets there" in told
        assert told.count('class="way-leg"') == 5
        picture = opened.get(f"{PAGE}/3/6.svg")
        assert picture.status_code == 200
        assert picture.text.startswith("<svg")
        assert 'class="wall"' in picture.text
        again = opened.get(f"{PAGE}/3/6.svg", headers={"if-none-match": picture.headers["etag"]})
        assert again.status_code == 304
        assert opened.get(f"{PAGE}/3/99.svg").status_code == 404


def test_without_scripts_one_step_is_asked_for(tmp_path: Path) -> None:
    with client(some_jobs(tmp_path, "workbench")) as opened:
        shown = opened.get(f"{PAGE}/answer?leg=1&step=3").text
        assert "way-in/1/3.svg" in shown
        assert "step 4 of 13" in shown
        assert "<html" in shown


def test_an_obstacle_is_added_changed_moved_and_taken_out(tmp_path: Path) -> None:
    jobs = some_jobs(tmp_path, "workbench")
    before = route(jobs)
    with client(jobs) as opened:
        fields = {"kind": "door", "name": "store room", "width": "36", "height": "80", "jamb": ""}
        assert send(opened, f"{PAGE}/add", fields, page=PAGE).status_code == 303
        assert route(jobs) == [*before, "store room"]
        last = str(len(before))
        changed = {"number": last, "name": "store", "width": "40", "height": "80", "before": "60"}
        assert send(opened, f"{PAGE}/change", changed, page=PAGE).status_code == 303
        door = load_job(jobs / "workbench" / "job.yaml").space.route[-1]
        assert isinstance(door, Door)
        assert (door.name, round(door.width / 25.4), round((door.before or 0) / 25.4)) == ("store", 40, 60)
        send(opened, f"{PAGE}/move", {"number": last}, page=PAGE)
        assert route(jobs) == [*before[:-1], "store", before[-1]]
        send(opened, f"{PAGE}/remove", {"number": str(len(before) - 1)}, page=PAGE)
        assert route(jobs) == before


def test_moving_and_taking_out_leave_every_other_line(tmp_path: Path) -> None:
    jobs = some_jobs(tmp_path, "workbench")
    file = jobs / "workbench" / "job.yaml"
    before = file.read_text(encoding="utf-8")
    with client(jobs) as opened:
        send(opened, f"{PAGE}/move", {"number": "2"}, page=PAGE)
        moved = file.read_text(encoding="utf-8")
        assert sorted(moved.splitlines()) == sorted(before.splitlines())
        assert moved != before
        send(opened, f"{PAGE}/remove", {"number": "0"}, page=PAGE)
        left = file.read_text(encoding="utf-8").splitlines()
        assert set(left) <= set(before.splitlines())


def test_what_is_wrong_is_said_and_what_was_typed_stays(tmp_path: Path) -> None:
    with client(some_jobs(tmp_path, "workbench")) as opened:
        fields = {"number": "1", "name": "side door", "width": "wide", "height": "80"}
        answer = send(opened, f"{PAGE}/change", fields, page=PAGE)
        assert answer.status_code == 422
        assert "Not saved" in answer.text
        assert 'value="wide"' in answer.text


def test_the_last_one_taken_out_takes_the_route_with_it(tmp_path: Path) -> None:
    jobs = some_jobs(tmp_path, "workbench")
    with client(jobs) as opened:
        for _ in route(jobs):
            send(opened, f"{PAGE}/remove", {"number": "0"}, page=PAGE)
        assert route(jobs) == []
        assert "No route" in answered(opened).text
        assert "No route yet" in opened.get(PAGE).text
