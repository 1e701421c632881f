from __future__ import annotations

import os
from pathlib import Path

import pytest

from fitwright.errors import FitwrightError
from fitwright.sheets.packet.folder import PacketError, made, write, written


def test_folders_are_made_with_those_above_them(tmp_path: Path) -> None:
    assert made(tmp_path / "a" / "b").is_dir()
    assert made(tmp_path / "a" / "b").is_dir()


def test_a_file_in_place_of_the_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("")
    with pytest.raises(PacketError, match="is a file: give a folder"):
        made(tmp_path / "taken")
    with pytest.raises(PacketError, match=r"below.* cannot be made"):
        made(tmp_path / "taken" / "below")


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_without_permission_is_told(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    with pytest.raises(PacketError, match="no permission"):
        made(tmp_path / "new")


def test_no_permission_is_told_in_plain_words(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "replace", refuse)
    with pytest.raises(PacketError, match=r"packet.pdf cannot be written: you have no permission"):
        write(tmp_path / "packet.pdf", b"new")


def test_a_folder_in_place_of_a_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "packet.pdf").mkdir()
    with pytest.raises(PacketError, match="a folder of that name is in the way"):
        write(tmp_path / "packet.pdf", b"new")
    assert [file.name for file in tmp_path.iterdir()] == ["packet.pdf"]


@pytest.mark.parametrize("file", [Path("."), Path("/")])
def test_a_folder_without_a_name_of_its_own_is_told(file: Path) -> None:
    with pytest.raises(PacketError, match="a folder of that name is in the way"):
        write(file, b"new")


def test_a_file_that_fails_half_way_leaves_the_old_one(tmp_path: Path) -> None:
    file = write(tmp_path / "list.csv", b"old")

    def fail_half_way() -> None:
        with written(file) as draft:
            draft.write_bytes(b"half")
            raise FitwrightError("something else went wrong")

    with pytest.raises(FitwrightError, match="something else"):
        fail_half_way()
    assert file.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [file]


def test_drafts_keep_the_ending_that_writers_look_at(tmp_path: Path) -> None:
    with written(tmp_path / "piece.step") as draft:
        assert draft.suffix == ".step"
        draft.write_text("x")
    assert (tmp_path / "piece.step").read_text() == "x"
