from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.assess import assess
from fitwright.findings import Verdict
from fitwright.job import JobFileError, load_job, new_job, starters
from fitwright.job import starting as room
from fitwright.shop import default_shop

TEXT = """# A bench to begin from
job: {name: Bench, unit: mm}   # mm throughout
stock: {tube: round tube 30 x 2}
parts: {post: {stock: tube, path: [[0, 0, 0], [0, 0, 100]]}}
"""


@pytest.fixture
def shipped(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "starters"
    folder.mkdir()
    (folder / "workbench.yaml").write_text(TEXT)
    monkeypatch.setattr(room, "SHIPPED", folder)
    return folder


def test_starters_have_a_name_a_title_and_a_file(shipped: Path) -> None:
    assert starters() == [("workbench", "Bench", shipped / "workbench.yaml")]


def test_what_ships_loads() -> None:
    for starter in starters():
        assert load_job(starter.path).name == starter.title


def test_a_new_job_is_the_starter_with_its_own_name(shipped: Path, tmp_path: Path) -> None:
    path = new_job(tmp_path / "deep" / "mine", "workbench", "Anna's bench")
    assert path == tmp_path / "deep" / "mine" / "job.yaml"
    assert path.read_text() == TEXT.replace("name: Bench", "name: Anna's bench")
    assert load_job(path).name == "Anna's bench"


def test_a_new_job_from_a_file_or_a_folder_with_a_job(shipped: Path, tmp_path: Path) -> None:
    first = new_job(tmp_path / "a", shipped / "workbench.yaml", "A")
    assert load_job(new_job(tmp_path / "b", first, "B")).name == "B"
    assert load_job(new_job(tmp_path / "c", tmp_path / "b", "C")).name == "C"


def test_a_job_is_never_written_over(shipped: Path, tmp_path: Path) -> None:
    new_job(tmp_path, "workbench", "A")
    with pytest.raises(JobFileError, match="a job in this folder already"):
        new_job(tmp_path, "workbench", "B")
    assert load_job(tmp_path / "job.yaml").name == "A"


def test_an_unknown_starter_gets_the_nearest(shipped: Path, tmp_path: Path) -> None:
    with pytest.raises(JobFileError) as error:
        new_job(tmp_path, "workbnech", "A")
    assert error.value.mistakes[0].nearest == "workbench"


def test_a_folder_that_cannot_be_made(shipped: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(JobFileError, match="cannot be written"):
        new_job(tmp_path / "file" / "job", "workbench", "A")


def test_a_plain_starter_in_either_unit_can_be_built_and_asks_for_what_it_cannot_know(tmp_path: Path) -> None:
    plain = [starter for starter in starters() if starter.path.parent.name == "plain"]
    units = set()
    for starter in plain:
        job = load_job(new_job(tmp_path / starter.name, starter.name, "Mine", own=True))
        found = assess(job, default_shop(job.style.unit)).findings
        assert {one.verdict for one in found} <= {Verdict.HOLDS, Verdict.NEEDS_INPUT}
        units.add(job.style.unit)
    assert units == {"inch", "mm"}
