"""Verbs for the shop's records, as typed."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from fitwright.cli import main
from fitwright.cli.records import NAMES
from fitwright.shop.records import ENVIRONMENT, KINDS
from tests.demos import EXAMPLES

RACK = str(EXAMPLES / "drying-rack")
TUBE = "round tube 1 1/8 x 14 ga"
TRIAL = ("trial", "--die", "1 1/8 x 4", "--stock", TUBE, "--set", "90")


@pytest.fixture(autouse=True)
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv(ENVIRONMENT, str(tmp_path / "kept" / "records.db"))
    return tmp_path / "kept" / "records.db"


def run(*words: str, code: int = 0) -> Result:
    done = CliRunner().invoke(main, list(words), catch_exceptions=False)
    assert done.exit_code == code, done.output
    return done


def test_every_kind_can_be_named() -> None:
    assert set(NAMES) == set(KINDS)


def test_a_trial_changes_what_the_next_bend_is_set_to() -> None:
    bend = ("bend", "--legs", "20, 20", "--angles", "90", "--radius", "4", "--stock", TUBE, "--json")
    before = json.loads(run(*bend).output)["steps"][0]
    said = run(*TRIAL, "--got", "85.8", "--got", "85.6", "--heat", "H1").output
    assert "from 2 trials on this die, heat H1" in said
    assert "Physics alone says" in said
    after = json.loads(run(*bend).output)["steps"][0]
    assert before["command_angle_deg"] < 92 < 94 < after["command_angle_deg"] < 95
    assert after["command_from"] == "2 trials on this die, heat H1"


def test_a_measured_trial_tells_the_take_up() -> None:
    said = run(*TRIAL, "--got", "90", "--blank", "20", "--legs", "11, 10 1/2", "--mark", "7").output
    assert "Take-up 1.0" in said
    # 11 in less the setback of 4 in is where the bend begins, at 7, and there the mark was
    assert re.search(r'^Offset -?(0|1/\d+)[+-]?", .* from 1 measured piece\.$', said, re.M), said


def test_a_trial_that_cannot_be_is_told_and_not_kept() -> None:
    assert "does not take" in run("trial", "--die", "1 x 4", *TRIAL[3:], "--got", "86", code=2).output
    assert "trials          0" in run("records").output


def test_lists_go_out_and_in(tmp_path: Path) -> None:
    run(*TRIAL, "--got", "85.8")
    file = str(tmp_path / "trials.csv")
    assert "1 trials are in" in run("records", "export", "trials", file).output
    assert "0 added, 0 changed, 1 as they were" in run("records", "import", "trials", file).output
    (tmp_path / "rack.csv").write_text(f"label,length\n{TUBE},5 ft\n{TUBE},many\n")
    said = run("records", "import", "stock", str(tmp_path / "rack.csv"), code=2).output
    assert "row 3: length mm is 'many'" in said
    assert "stock           0" in run("records").output


def test_backup_and_restore_are_one_command_each(tmp_path: Path, place: Path) -> None:
    run(*TRIAL, "--got", "85.8")
    assert "1 records are in" in run("records", "backup", str(tmp_path / "b.db")).output
    run(*TRIAL, "--got", "85.8")
    said = run("records", "restore", str(tmp_path / "b.db")).output
    assert "1 records were restored" in said
    assert "What was there before is in" in said
    assert "trials          1" in run("records").output
    assert len(list(place.parent.glob("records-before-restore-*.db"))) == 1
    run("records", "restore", str(tmp_path / "b.db"))
    assert len(list(place.parent.glob("records-before-restore-*.db"))) == 2


def test_building_puts_offcuts_on_the_rack_and_the_next_job_cuts_from_them() -> None:
    said = run("built", RACK).output
    assert "on the rack: 1 ×" in said
    assert "Drying rack were taken off the rack" in run("built", RACK, code=2).output
    assert "off the rack: " in run("built", RACK, "--again").output


def test_remembering_says_what_it_kept(tmp_path: Path) -> None:
    text = (EXAMPLES / "drying-rack" / "job.yaml").read_text()
    mark = text + "\nprogress:\n  - {step: buy, hours: 4.5, done: 2027-02-03 12:00}\n"
    (tmp_path / "job.yaml").write_text(mark)
    said = run("remember", str(tmp_path / "job.yaml")).output
    assert "1 times" in said
    assert "1 of them new" in said
    assert "0 of them new" in run("remember", str(tmp_path / "job.yaml")).output


def test_records_that_are_none_are_told(place: Path) -> None:
    place.parent.mkdir()
    place.write_text("none " * 900)
    for words in (("records",), ("check", RACK), (*TRIAL, "--got", "86")):
        assert "is not a file of records" in run(*words, code=2).output


def test_the_option_names_another_place(tmp_path: Path) -> None:
    run("records", "--records", str(tmp_path / "other.db"))
    assert (tmp_path / "other.db").exists()


def test_what_goes_to_scrap_and_what_stays_in_the_job_is_told_in_whole_sentences(tmp_path: Path) -> None:
    said = run("built", RACK).output
    assert " offcut is shorter than " in said or " offcuts are shorter than " in said
    job = tmp_path / "job.yaml"
    job.write_text(
        (EXAMPLES / "drying-rack" / "job.yaml").read_text() + "\nreadings:\n  - {of: bend 1 of A1, is: 90}\n"
        "  - {of: paint thickness, is: 3 mil}\n"
    )
    said = run("remember", str(job)).output
    assert "1 readings in the records" in said
    assert "1 of the readings is of nothing" in said
