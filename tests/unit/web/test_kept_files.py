"""Files from devices are kept as they came, inside the job, under plain names."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.web.errors import NotTaken, NotThere
from fitwright.web.folder import JobFolder, JobsFolder
from fitwright.web.guard.forms import Upload
from fitwright.web.kept_files import keep_file, kept_file, plain_name
from tests.unit.web.serving import some_jobs


@pytest.fixture
def job(tmp_path: Path) -> JobFolder:
    return JobsFolder(some_jobs(tmp_path, "workbench")).job("workbench")


def test_a_file_is_kept_as_it_came_and_the_same_one_once(job: JobFolder) -> None:
    first = keep_file(job, "photos", Upload("Hall 1.JPG", b"one"))
    again = keep_file(job, "photos", Upload("hall-1.jpg", b"one"))
    other = keep_file(job, "photos", Upload("hall 1.jpg", b"two"))
    assert (first, again, other) == ("photos/hall-1.jpg", "photos/hall-1.jpg", "photos/hall-1-2.jpg")
    assert (job.root / other).read_bytes() == b"two"
    assert kept_file(job, "photos", "hall-1.jpg").read_bytes() == b"one"
    assert sorted(path.name for path in (job.root / "photos").iterdir()) == ["hall-1-2.jpg", "hall-1.jpg"]


@pytest.mark.parametrize(
    "said", ["../../job.yaml", "/etc/passwd", "C:\\x\\..\\job.yaml", "..", "", ".hidden", "a\x00b"]
)
def test_no_name_leads_out_of_its_folder(job: JobFolder, said: str) -> None:
    place = keep_file(job, "photos", Upload(said, b"x"))
    assert (job.root / place).resolve().parent == (job.root / "photos").resolve()
    assert not Path(place).name.startswith(".")


def test_a_long_name_is_cut() -> None:
    stem, ending = plain_name("ü" * 500 + "." + "e" * 40)
    assert len(stem) == 60
    assert len(ending) == 9


def test_a_folder_that_leads_elsewhere_is_not_written_to(job: JobFolder, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (job.root / "photos").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(NotTaken, match="elsewhere"):
        keep_file(job, "photos", Upload("a.jpg", b"x"))


def test_only_what_was_kept_is_given(job: JobFolder, tmp_path: Path) -> None:
    keep_file(job, "photos", Upload("a.jpg", b"x"))
    (tmp_path / "secret").write_bytes(b"s")
    (job.root / "photos" / "link.jpg").symlink_to(tmp_path / "secret")
    for name in ("link.jpg", "../job.yaml", "b.jpg", "", "."):
        with pytest.raises(NotThere):
            kept_file(job, "photos", name)
