"""The command line: exit codes, plain words for bad input, and light imports."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from fitwright.cli import main
from tests.demos import EXAMPLES

RACK = str(EXAMPLES / "drying-rack" / "job.yaml")


def run(*words: str) -> Result:
    return CliRunner().invoke(main, list(words), catch_exceptions=False)


def test_check_of_a_job_that_holds() -> None:
    told = run("check", str(EXAMPLES / "workbench"))
    assert told.exit_code == 0
    assert "gap on the left" in told.output


def test_check_says_what_fails_with_exit_code_one(tmp_path: Path) -> None:
    job = tmp_path / "job.yaml"
    text = Path(RACK).read_text(encoding="utf-8").replace("width: 31 1/2 ", "width: 33     ")
    job.write_text(text, encoding="utf-8")
    told = run("check", str(tmp_path))
    assert told.exit_code == 1
    assert "fails" in told.output


def test_a_wrong_file_leaves_with_exit_code_two(tmp_path: Path) -> None:
    job = tmp_path / "job.yaml"
    job.write_text(Path(RACK).read_text(encoding="utf-8").replace("stock: ledge\n", "stock: legde\n"), encoding="utf-8")
    told = run("check", str(job))
    assert told.exit_code == 2
    assert "legde" in told.output
    assert "ledge" in told.output


@pytest.mark.parametrize("verb", ["check", "report"])
def test_a_missing_file_is_told_in_words(verb: str, tmp_path: Path) -> None:
    told = run(verb, str(tmp_path / "nowhere.yaml"))
    assert told.exit_code == 2
    assert "Traceback" not in told.output
    assert "nowhere" in told.output


def test_parts_that_cannot_be_built_are_told_in_words(tmp_path: Path) -> None:
    job = tmp_path / "job.yaml"
    job.write_text(Path(RACK).read_text(encoding="utf-8").replace("radius: 4", "radius: 18"), encoding="utf-8")
    told = run("check", str(job))
    assert told.exit_code == 2
    assert "hoop" in told.output


def test_report_is_json_on_standard_output() -> None:
    told = json.loads(run("report", RACK).output)
    assert told["job"]["name"] == "Drying rack"


def test_schemas_print() -> None:
    assert "properties" in json.loads(run("schema").output)
    assert "findings" in json.loads(run("schema", "--report").output)["properties"]


def test_new_copies_a_starter_and_it_loads(tmp_path: Path) -> None:
    told = run("new", "Hall bench", "--from", "workbench", "--to", str(tmp_path))
    assert told.exit_code == 0
    assert run("check", str(tmp_path / "Hall bench")).exit_code == 0


def test_new_begins_a_job_of_ones_own_unless_the_example_is_asked_for(tmp_path: Path) -> None:
    from fitwright.job import load_job

    for folder, more in (("mine", ()), ("theirs", ("--example",))):
        assert run("new", folder, "--from", "drying-rack", "--to", str(tmp_path), *more).exit_code == 0
    mine, theirs = (load_job(tmp_path / name / "job.yaml") for name in ("mine", "theirs"))
    assert (mine.client, mine.due, mine.brief.use, mine.space.opening) == ("", None, "", None)
    assert (theirs.client, theirs.brief.use != "", theirs.space.opening is not None) == (
        "Sandspit Sailing Club", True, True,
    )  # fmt: skip
    assert not (tmp_path / "mine" / "old-rack.jpg").exists()
    assert (tmp_path / "theirs" / "old-rack.jpg").exists()


def test_a_new_job_from_a_job_of_ones_own_keeps_its_place(tmp_path: Path) -> None:
    from fitwright.job import load_job

    assert run("new", "next", "--from", RACK, "--to", str(tmp_path)).exit_code == 0
    assert load_job(tmp_path / "next" / "job.yaml").space.opening is not None


def test_a_job_is_checked_when_the_server_with_the_records_is_not_there(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FITWRIGHT_RECORDS", "postgresql://ada@127.0.0.1:1/shop")
    told = run("check", RACK)
    assert told.exit_code == 0
    assert "RECORDS WERE NOT REACHED" in told.stderr
    assert "reach the records and" in " ".join(told.stdout.split())
    bent = run("bend", "--legs", "34, 16, 34", "--angles", "90, 90", "--radius", "4.5")
    assert bent.exit_code == 0
    assert "RECORDS WERE NOT REACHED" in bent.stderr


def test_starters_are_the_examples() -> None:
    from fitwright.job import starters
    from fitwright.job.starting import SHIPPED

    examples = [starter for starter in starters() if starter.path.parent == SHIPPED]
    assert len(examples) == 3
    for starter in examples:
        assert starter.path.read_text(encoding="utf-8") == (EXAMPLES / starter.path.stem / "job.yaml").read_text(
            encoding="utf-8"
        )


def test_cut_answers_a_quick_question(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text("length,quantity,mark\n59.9,4,A1\n", encoding="utf-8")
    (tmp_path / "bars.csv").write_text("length,price,on_hand\n240,38.00,\n", encoding="utf-8")
    told = json.loads(
        run(
            "cut", str(tmp_path / "list.csv"), "--stock", str(tmp_path / "bars.csv"), "--kerf", "1/8in", "--json"
        ).output
    )
    # Handbook case: 4 x 59.9 and three kerfs of 1/8 take 239.975 of 240.
    assert len(told["bars"]) == 1
    assert told["cost"] == 38.0


def test_bend_from_points_and_from_legs_agree() -> None:
    """U-frame of 34, 16, 34 in on a 4 1/2 in radius: 80.1372 in developed (arc and tangent formulas)."""
    points = json.loads(run("bend", "--points", "0,0,0; 0,0,34; 16,0,34; 16,0,0", "--radius", "4 1/2", "--json").output)
    legs = json.loads(run("bend", "--legs", "34, 16, 34", "--angles", "90, 90", "--radius", "4.5", "--json").output)
    assert points["developed_length_mm"] == pytest.approx(80.1372 * 25.4, abs=0.01)
    assert legs["developed_length_mm"] == pytest.approx(points["developed_length_mm"])


def test_bend_refuses_half_a_question() -> None:
    told = run("bend", "--radius", "4")
    assert told.exit_code == 2
    assert "--points" in told.output


@pytest.mark.parametrize("words", [["--help"], ["check", RACK]])
def test_light_verbs_import_neither_solids_nor_typesetting(words: list[str]) -> None:
    code = (
        "import sys\nfrom fitwright.cli import main\n"
        f"try:\n    main({words!r})\nexcept SystemExit:\n    pass\n"
        "heavy = {'OCP', 'build123d', 'typst', 'ezdxf', 'openpyxl'} & set(sys.modules)\n"
        "print('HEAVY', sorted(heavy))"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert "HEAVY []" in told.stdout, told.stderr


def test_chance_makes_as_many_as_asked() -> None:
    told = run("chance", str(EXAMPLES / "coat-rail"), "--builds", "3000", "--json")
    found = json.loads(told.stdout)
    assert found["builds"] == 3000
    assert {row["name"] for row in found["chances"]} >= {"fits", "stands flat", "welds fill"}


def test_chance_prints_what_decides_and_what_to_do() -> None:
    told = run("chance", str(EXAMPLES / "coat-rail"), "--builds", "3000")
    assert "chance that it stands without rocking" in told.stdout
    assert "done differently" in told.stdout
    assert "3,000 virtual builds" in told.stdout


def test_welds_prints_the_order_and_the_movement() -> None:
    told = run("welds", str(EXAMPLES / "coat-rail"))
    assert "in the order proposed" in told.stdout
    assert "base leg 1 to base leg 2" in told.stdout
    as_json = json.loads(run("welds", str(EXAMPLES / "coat-rail"), "--json").stdout)
    assert len(as_json["welds"]) == 10
    assert len(as_json["welding"]["runs"]) == 20


@pytest.mark.parametrize("verb", ["chance", "welds"])
def test_a_piece_that_stands_on_nothing_is_told_in_words(verb: str, tmp_path: Path) -> None:
    file = tmp_path / "job.yaml"
    file.write_text(
        "job: {name: Rail, unit: mm}\nstock: {tube: round tube 32 x 2}\n"
        "parts: {rail: {stock: tube, path: [[0, 0, 500], [700, 0, 500]], ends: free}}\n",
        encoding="utf-8",
    )
    told = run(verb, str(file))
    assert told.exit_code == 2
    assert "fitwright check says why" in told.output


def test_a_folder_in_the_place_of_a_file_is_told_as_one(tmp_path: Path) -> None:
    told = run("cut", str(tmp_path), "--stock", str(tmp_path))
    assert told.exit_code == 2
    assert "this is a folder: a file belongs here" in told.output
    assert "there is no such file" in run("cut", str(tmp_path / "none.csv"), "--stock", str(tmp_path)).output


def test_a_job_has_a_name(tmp_path: Path) -> None:
    told = run("new", " ", "--from", "workbench", "--to", str(tmp_path))
    assert told.exit_code == 2
    assert "a job needs a name" in told.output
