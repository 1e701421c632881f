"""fitwright route: its answer in words and as JSON, exit codes, a job that says no route."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
from click.testing import CliRunner, Result

from fitwright.cli import main
from fitwright.report import report_schema
from tests.demos import EXAMPLES

BENCH = EXAMPLES / "workbench" / "job.yaml"


def run(*words: str) -> Result:
    return CliRunner().invoke(main, list(words), catch_exceptions=False)


def changed(folder: Path, before: str, after: str) -> str:
    text = BENCH.read_text(encoding="utf-8")
    assert before in text
    (folder / "job.yaml").write_text(text.replace(before, after), encoding="utf-8")
    return str(folder)


def test_what_passes_is_told_with_how_and_by_whom() -> None:
    told = run("route", str(BENCH))
    assert told.exit_code == 0
    assert "as built: ✓ passes" in told.output
    assert "side door" in told.output
    assert "lb" in told.output


def test_what_does_not_pass_says_what_helps_and_leaves_with_one(tmp_path: Path) -> None:
    told = run(
        "route", changed(tmp_path, "- door: club door\n      width: 35 1/2", "- door: club door\n      width: 24")
    )
    assert told.exit_code == 1
    assert "does not pass" in told.output
    assert "lacks" in told.output


def test_a_lift_that_is_not_rated_for_it_is_told_and_leaves_with_one(tmp_path: Path) -> None:
    lift = "- {lift: goods lift, door_width: 48, door_height: 84, width: 72, depth: 96, height: 90, load: 20 lb}"
    told = run("route", changed(tmp_path, "    - door: club door", f"    {lift}\n    - door: club door"))
    assert told.exit_code == 1
    assert "fails  carrying: goods lift" in told.output
    assert "too heavy for the car" in told.output


def test_what_comes_in_lying_is_told_what_standing_it_up_takes(tmp_path: Path) -> None:
    door = "- {door: hatch, width: 90, height: 30}"
    told = run("route", changed(tmp_path, "    - door: club door", f"    {door}\n    - door: club door"))
    assert "of height" in told.output


def test_json_is_that_of_the_report() -> None:
    told = run("route", str(BENCH), "--json")
    found = json.loads(told.stdout)
    jsonschema.validate(found, report_schema()["properties"]["way_in"])
    assert [leg["answer"] for leg in found["legs"]] == ["passes"] * 5
    assert len(found["carries"]) == 5
    assert found["legs"][1]["least_clearance_mm"] > 100


def test_a_job_without_a_route_is_told_how_to_say_one(tmp_path: Path) -> None:
    text = BENCH.read_text(encoding="utf-8")
    start, end = text.index("  route:"), text.index("\ndims:")
    (tmp_path / "job.yaml").write_text(text[:start].rstrip() + "\n" + text[end:], encoding="utf-8")
    told = run("route", str(tmp_path))
    assert told.exit_code == 2
    assert "space: route" in told.output
