"""Changes are whole, kept, and never made on what has moved on."""

from __future__ import annotations

from pathlib import Path
from threading import Thread

import pytest

from fitwright.job import JobFile, JobFileError
from fitwright.web.errors import NotThere, Stale
from fitwright.web.folder import JobFolder, JobsFolder
from fitwright.web.keeping import change, replace_text, revision_of, state_of, version_text, versions
from tests.unit.web.serving import some_jobs


@pytest.fixture
def job(tmp_path: Path) -> JobFolder:
    return JobsFolder(some_jobs(tmp_path)).job("drying-rack")


def set_width(text: str, job: JobFolder, revision: str) -> str:
    return change(job, revision, lambda file: file.set_dim("width", text)).state.revision


def test_a_change_keeps_comments_and_what_it_replaced(job: JobFolder) -> None:
    before = state_of(job)
    set_width("30", job, before.revision)
    after = state_of(job)
    assert after.text == before.text.replace("width: 31 1/2 ", "width: 30 ")
    (version,) = versions(job)
    assert version.revision == before.revision
    assert version_text(job, version.name) == before.text


def test_a_stale_change_is_not_made(job: JobFolder) -> None:
    before = state_of(job)
    set_width("30", job, before.revision)
    with pytest.raises(Stale, match="changed meanwhile"):
        set_width("29", job, before.revision)
    assert "width: 30" in state_of(job).text


def test_of_changes_at_once_on_one_revision_one_is_made(job: JobFolder) -> None:
    revision = state_of(job).revision
    made: list[str] = []

    def attempt(text: str) -> None:
        try:
            set_width(text, job, revision)
            made.append(text)
        except Stale:
            pass

    threads = [Thread(target=attempt, args=(str(text),)) for text in range(20, 28)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(made) == 1
    assert f"width: {made[0]} " in state_of(job).text


def test_what_would_be_no_job_is_not_written(job: JobFolder) -> None:
    before = state_of(job)
    with pytest.raises(JobFileError):
        set_width("depth +", job, before.revision)
    with pytest.raises(JobFileError):
        replace_text(job, before.revision, "job: {}\n")
    assert state_of(job) == before
    assert versions(job) == []


def test_the_same_text_again_makes_no_version(job: JobFolder) -> None:
    before = state_of(job)
    assert set_width("31 1/2", job, before.revision) == before.revision
    assert versions(job) == []


def test_a_copy_that_was_read_is_not_changed_by_a_change(job: JobFolder) -> None:
    """The text as read is kept for the next change; a change works on a copy of it."""
    first = state_of(job)
    second = set_width("30", job, first.revision)
    replace_text(job, second, first.text)
    third = set_width("29", job, first.revision)
    assert third == revision_of(state_of(job).text)
    assert "width: 29" in state_of(job).text


@pytest.mark.parametrize("name", ["", "..", "../job", "20270101T000000.000000Z-000000000000", "x" * 300])
def test_a_version_that_is_not_there_is_told(job: JobFolder, name: str) -> None:
    with pytest.raises(NotThere):
        version_text(job, name)


def test_a_job_file_is_what_the_editor_reads(job: JobFolder) -> None:
    assert JobFile.read(job.file).text() == state_of(job).text
