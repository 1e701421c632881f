"""The page of the place, by a client that fills in forms."""

from __future__ import annotations

from pathlib import Path

from fitwright.job import load_job
from tests.unit.web.serving import client, send, some_jobs

BENCH = "/jobs/workbench"


def test_the_page_shows_the_survey_and_the_pictures(tmp_path: Path) -> None:
    with client(some_jobs(tmp_path, "workbench")) as opened:
        shown = opened.get(f"{BENCH}/place?whole=1").text
        assert 'value="64 1/2"' in shown
        assert "heating pipe" in shown
        assert "gap on the left" in shown
        for view in ("front", "plan"):
            picture = opened.get(f"{BENCH}/place/{view}.svg")
            assert picture.status_code == 200
            assert picture.text.startswith("<svg") or "<svg" in picture.text[:200]
        assert opened.get(f"{BENCH}/place/attic.svg").status_code == 404


def test_measures_go_into_the_file_and_leave_the_rest(tmp_path: Path) -> None:
    jobs = some_jobs(tmp_path, "workbench")
    with client(jobs) as opened:
        fields = {"opening.width.0": "65", "opening.width.1": "64 3/8", "opening.width.2": "64 7/16"}
        answer = send(opened, f"{BENCH}/place/measures", fields, page=f"{BENCH}/place")
        assert answer.status_code == 303
        assert answer.headers["location"] == f"{BENCH}/place"
    text = (jobs / "workbench" / "job.yaml").read_text(encoding="utf-8")
    assert "width: [65, 64 3/8, 64 7/16]" in text
    assert "# concrete, with a fall to the drain in front" in text


def test_what_is_wrong_is_said_and_what_was_typed_stays(tmp_path: Path) -> None:
    with client(some_jobs(tmp_path, "workbench")) as opened:
        fields = {"opening.width.0": "wide", "opening.width.1": "64 3/8", "opening.width.2": "64 7/16"}
        answer = send(opened, f"{BENCH}/place/measures", fields, page=f"{BENCH}/place")
        assert answer.status_code == 422
        assert "Not saved" in answer.text
        assert 'value="wide"' in answer.text


def test_a_thing_is_added_and_taken_out(tmp_path: Path) -> None:
    jobs = some_jobs(tmp_path, "workbench")
    file = jobs / "workbench" / "job.yaml"
    with client(jobs) as opened:
        new = {"kind": "door", "name": "gate", "hinge.0": "70", "hinge.1": "0", "width": "30", "height": "70",
               "shut": "right", "opens": "front", "turns": "90", "thickness": ""}  # fmt: skip
        send(opened, f"{BENCH}/place/add", new, page=f"{BENCH}/place")
        assert [door.name for door in load_job(file).space.doors] == ["gate"]
        send(opened, f"{BENCH}/place/remove", {"kind": "door", "name": "gate"}, page=f"{BENCH}/place")
        assert load_job(file).space.doors == ()


def test_a_change_made_meanwhile_is_not_written_over(tmp_path: Path) -> None:
    with client(some_jobs(tmp_path, "workbench")) as opened:
        fields = {"revision": "000000000000", "aisle": "60"}
        answer = send(opened, f"{BENCH}/place/wishes", fields, page=f"{BENCH}/place")
        assert answer.status_code == 409
        assert "changed meanwhile" in answer.text
