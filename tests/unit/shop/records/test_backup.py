from __future__ import annotations

import shutil
import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest

from fitwright.shop.records import KINDS, CannotOpen, NewerRecords, NotRecords, OnHand, Trial, Where
from fitwright.shop.records.backup import back_up, restore
from fitwright.shop.records.keeping import Records, open_records
from tests.unit.shop.records.samples import EACH, OFFCUT, TRIAL

OLD = Path(__file__).parent / "old"


@pytest.fixture
def filled(records: Records) -> Records:
    for record in EACH:
        records.add(record)
    changed = records.add(OFFCUT)
    records.remove(records.replace(replace(changed, count=7)))
    records.replace(replace(records.all(OnHand)[0], count=9))
    return records


def everything(records: Records) -> dict[str, object]:
    return {name: records.all(kind) for name, kind in KINDS.items()}


def test_a_backup_is_one_file_and_comes_back_as_it_was(filled: Records, tmp_path: Path) -> None:
    before = everything(filled)
    (tmp_path / "kept").mkdir()
    totals = back_up(filled, tmp_path / "kept" / "shop.backup")
    assert totals == dict.fromkeys(KINDS, 1)
    assert [path.name for path in (tmp_path / "kept").iterdir()] == ["shop.backup"]
    filled.add(TRIAL)
    filled.remove(filled.all(OnHand)[0])
    done = restore(filled, tmp_path / "kept" / "shop.backup", tmp_path / "was.db")
    assert done.totals == totals
    assert everything(filled) == before
    with open_records(Where(tmp_path / "was.db")) as was:
        assert len(was.all(Trial)) == 2
        assert was.all(OnHand) == ()


@pytest.mark.parametrize("folder", [Path("."), Path("/")])
def test_a_backup_needs_the_name_of_a_file(records: Records, folder: Path) -> None:
    with pytest.raises(CannotOpen, match="is a folder: name a file in it"):
        back_up(records, folder)


def test_after_a_restore_new_records_get_new_numbers(filled: Records, tmp_path: Path) -> None:
    back_up(filled, tmp_path / "b.db")
    restore(filled, tmp_path / "b.db", tmp_path / "was.db")
    assert filled.add(TRIAL).id == 2
    assert filled.add(OFFCUT).id >= 2


def test_a_backup_moves_a_shop_from_a_file_to_a_server(filled: Records, tmp_path: Path) -> None:
    """And from a server to a file: the other place is always a file here, the fixture both."""
    back_up(filled, tmp_path / "b.db")
    with open_records(Where(tmp_path / "other.db")) as other:
        done = restore(other, tmp_path / "b.db", tmp_path / "was.db")
        assert done.kept_before is None
        assert not (tmp_path / "was.db").exists()
        assert everything(other) == everything(filled)


def test_an_old_backup_is_brought_up_to_date_and_itself_left_alone(records: Records, tmp_path: Path) -> None:
    file = tmp_path / "old.db"
    shutil.copy(OLD / "0001.db", file)
    before = file.read_bytes()
    restore(records, file, tmp_path / "was.db")
    assert [trial.id for trial in records.all(Trial)] == [1, 2]
    assert file.read_bytes() == before
    assert sorted(path.name for path in tmp_path.glob("old*")) == ["old.db"]


def test_a_backup_that_cannot_be_used_changes_nothing(filled: Records, tmp_path: Path) -> None:
    before = everything(filled)
    (tmp_path / "letter.txt").write_text("Dear shop, " * 500)
    (tmp_path / "empty.db").touch()
    newer = tmp_path / "newer.db"
    shutil.copy(OLD / "0002.db", newer)
    with sqlite3.connect(newer) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '0099'")
    for source, wrong in (
        (tmp_path / "letter.txt", NotRecords),
        (tmp_path / "empty.db", NotRecords),
        (newer, NewerRecords),
        (tmp_path / "no.db", CannotOpen),
    ):
        with pytest.raises(wrong):
            restore(filled, source, tmp_path / "was.db")
    assert everything(filled) == before


def test_a_backup_is_not_written_over_the_records_or_where_nobody_may(filled: Records, tmp_path: Path) -> None:
    if filled.place.file is not None:
        with pytest.raises(CannotOpen, match="name another file"):
            back_up(filled, filled.place.file)
    (tmp_path / "file").touch()
    with pytest.raises(CannotOpen, match="cannot be written: Not a directory"):
        back_up(filled, tmp_path / "file" / "b.db")
    (tmp_path / "folder").mkdir()
    with pytest.raises(CannotOpen, match="cannot be written"):
        back_up(filled, tmp_path / "folder")
