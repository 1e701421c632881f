"""Jobs in a folder."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.web.errors import NotTaken, NotThere
from fitwright.web.folder import JobsFolder
from tests.unit.web.serving import some_jobs


def test_folders_with_a_job_file_are_jobs(tmp_path: Path) -> None:
    jobs = some_jobs(tmp_path, "workbench", "coat-rail")
    (jobs / "empty").mkdir()
    (jobs / "note.txt").write_text("x")
    assert [job.key for job in JobsFolder(jobs).jobs()] == ["coat-rail", "workbench"]


def test_a_copy_takes_the_shop_along_and_leaves_the_past(tmp_path: Path) -> None:
    jobs = some_jobs(tmp_path)
    rack = JobsFolder(jobs).job("drying-rack")
    (rack.root / "shop.yaml").write_text("name: mine\n")
    (rack.root / ".versions").mkdir()
    copy = JobsFolder(jobs).duplicate(rack, "Second rack")
    assert copy.shop_file is not None
    assert copy.shop_file.read_text() == "name: mine\n"
    assert not (copy.root / ".versions").exists()
    assert "name: Second rack" in copy.file.read_text()


def test_a_job_is_put_away_whole_and_taken_up_again(tmp_path: Path) -> None:
    folder = JobsFolder(some_jobs(tmp_path))
    folder.archive(folder.job("drying-rack"))
    assert folder.jobs() == []
    assert [job.key for job in folder.archived()] == ["drying-rack"]
    with pytest.raises(NotThere):
        folder.job("drying-rack")
    assert folder.bring_back("drying-rack").file.exists()


def test_a_job_does_not_take_the_place_of_another(tmp_path: Path) -> None:
    folder = JobsFolder(some_jobs(tmp_path))
    folder.archive(folder.job("drying-rack"))
    folder.begin("drying-rack", "drying-rack")
    with pytest.raises(NotTaken, match="already"):
        folder.bring_back("drying-rack")


@pytest.mark.parametrize("key", ["", ".", "..", "/", "a/b", ".fitwright", "archived", "x" * 200, "a\x00b", "a\nb"])
def test_keys_that_are_no_names_are_no_jobs(tmp_path: Path, key: str) -> None:
    with pytest.raises(NotThere):
        JobsFolder(some_jobs(tmp_path)).job(key)
