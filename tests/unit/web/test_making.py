"""A packet is made aside, whole, and found again after a restart."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from fitwright.web.errors import NotThere
from fitwright.web.folder import JobFolder, JobsFolder
from fitwright.web.making import Makings, packet_file, packet_files
from tests.unit.web.serving import some_jobs


@pytest.fixture
def job(tmp_path: Path) -> JobFolder:
    return JobsFolder(some_jobs(tmp_path, "workbench")).job("workbench")


def made(makings: Makings, job: JobFolder) -> None:
    """Wait until it is done or has failed."""
    ends = time.monotonic() + 120
    while time.monotonic() < ends:
        making = makings.of(job)
        assert making is not None
        if making.done or making.wrong:
            return
        time.sleep(0.1)
    raise AssertionError("the packet was not finished in time")


def test_a_packet_is_made_and_found_after_a_restart(job: JobFolder) -> None:
    makings = Makings()
    makings.begin(job, "the revision", solids=False)
    made(makings, job)
    assert packet_files(job)[0].name == "packet.pdf"
    assert packet_file(job, "lists.xlsx").read_bytes()[:2] == b"PK"
    again = Makings().of(job)
    assert again is not None
    assert again.done
    assert again.revision == "the revision"
    assert [path for path in job.root.iterdir() if path.name.startswith(".packet")] == []


def test_what_cannot_be_made_is_told_and_the_last_packet_stays(job: JobFolder) -> None:
    (job.root / "packet").mkdir()
    (job.root / "packet" / "packet.pdf").write_bytes(b"%PDF-old")
    job.file.write_text("job: {}\n")
    makings = Makings()
    makings.begin(job, "r", solids=False)
    made(makings, job)
    making = makings.of(job)
    assert making is not None
    assert "mistake" in making.wrong
    assert packet_file(job, "packet.pdf").read_bytes() == b"%PDF-old"


def test_only_files_of_the_packet_are_given(job: JobFolder, tmp_path: Path) -> None:
    secret = tmp_path / "secret.pdf"
    secret.write_bytes(b"x")
    (job.root / "packet").mkdir()
    (job.root / "packet" / "link.pdf").symlink_to(secret)
    for name in ("link.pdf", "../job.yaml", "job.yaml", ""):
        with pytest.raises(NotThere):
            packet_file(job, name)


def test_a_packet_folder_that_leads_elsewhere_is_not_read(job: JobFolder, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere" / "a.pdf").write_bytes(b"x")
    (job.root / "packet").symlink_to(tmp_path / "elsewhere")
    assert packet_files(job) == []
