from __future__ import annotations

import os
from pathlib import Path

import pytest

from fitwright.job import beside as room
from fitwright.job import new_job
from fitwright.job.beside import Beside, BesideError

JOB = """job: {name: Old, unit: mm}
stock: {tube: round tube 30 x 2}
parts: {post: {stock: tube, path: [[0, 0, 0], [0, 0, 100]]}}
photo: {picture: old.jpg, size: [640, 480]}
"""


def test_what_lies_beside_is_read(tmp_path: Path) -> None:
    (tmp_path / "old.jpg").write_bytes(b"picture")
    beside = Beside(tmp_path)
    assert beside.has("old.jpg")
    assert beside.read("old.jpg") == b"picture"
    assert beside.read("new.jpg") is None
    assert not beside.has("")


def test_nothing_else_is_read(tmp_path: Path) -> None:
    (tmp_path / "secret").write_text("secret")
    (tmp_path / "job").mkdir()
    os.symlink(tmp_path / "secret", tmp_path / "job" / "link")
    for name in ("../secret", "link", str(tmp_path / "secret")):
        with pytest.raises(BesideError, match="not in the job's own folder"):
            Beside(tmp_path / "job").read(name)


def test_what_is_too_large_is_not_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "MOST_BYTES", 4)
    (tmp_path / "old.jpg").write_bytes(b"12345")
    with pytest.raises(BesideError, match="save it smaller"):
        Beside(tmp_path).read("old.jpg")


def test_the_photo_goes_along_with_a_new_job(tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "a" / "job.yaml").write_text(JOB)
    assert new_job(tmp_path / "b", tmp_path / "a", "Bare").parent.joinpath("old.jpg").exists() is False
    (tmp_path / "a" / "old.jpg").write_bytes(b"picture")
    assert new_job(tmp_path / "c", tmp_path / "a", "Copy").parent.joinpath("old.jpg").read_bytes() == b"picture"


def test_a_photo_from_elsewhere_does_not(tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "secret.jpg").write_bytes(b"secret")
    (tmp_path / "a" / "job.yaml").write_text(JOB.replace("old.jpg", "../secret.jpg"))
    made = new_job(tmp_path / "deep" / "b", tmp_path / "a", "Copy")
    assert list(made.parent.iterdir()) == [made]


def test_the_racks_starter_brings_its_photo(tmp_path: Path) -> None:
    made = new_job(tmp_path / "mine", "drying-rack", "Mine")
    assert (made.parent / "old-rack.jpg").stat().st_size > 100_000
