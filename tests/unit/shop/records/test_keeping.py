from __future__ import annotations

import threading
from dataclasses import replace
from decimal import Decimal

import pytest

from fitwright.shop.records import (
    KINDS,
    CannotKeep,
    ChangedMeanwhile,
    Difference,
    NotThere,
    OnHand,
    Record,
    Trial,
    Where,
)
from fitwright.shop.records.keeping import Records, open_records
from tests.unit.shop.records.samples import DAY, EACH, OFFCUT, TRIAL, TUBE


@pytest.mark.parametrize("record", EACH, ids=lambda record: record.kind)
def test_a_record_of_each_kind_comes_back_as_it_was_kept(records: Records, record: Record) -> None:
    kept = records.add(record)
    assert kept.version == 1
    assert records.all(type(record)) == (kept,)
    assert replace(kept, id=0, version=0) == record


def test_every_kind_has_a_sample() -> None:
    assert {record.kind for record in EACH} == set(KINDS)


def test_money_keeps_its_places(records: Records) -> None:
    for text in ("0", "0.10", "38.125", "1234567.89"):
        records.add(replace(OFFCUT, price=Decimal(text)))
    assert [str(one.price) for one in records.all(OnHand)] == ["0.00", "0.10", "38.125", "1234567.89"]


def test_the_second_of_two_who_change_a_record_is_told_both_values(records: Records) -> None:
    read = records.add(OFFCUT)
    records.replace(replace(read, count=1, place="bin"))
    with pytest.raises(ChangedMeanwhile, match="count is now 1, you wrote 0") as told:
        records.replace(replace(read, count=0))
    assert Difference("count", 1, 0) in told.value.differences
    assert records.one(OnHand, read.id) == replace(read, count=1, place="bin", version=2)


def test_a_removed_record_can_neither_be_changed_nor_removed_again(records: Records) -> None:
    read = records.add(OFFCUT)
    records.remove(read)
    with pytest.raises(NotThere, match="somebody has removed it"):
        records.replace(read)
    with pytest.raises(NotThere):
        records.remove(read)
    with pytest.raises(LookupError):
        records.one(OnHand, read.id)


def test_removing_what_somebody_has_changed_is_refused(records: Records) -> None:
    read = records.add(OFFCUT)
    records.replace(replace(read, count=5))
    with pytest.raises(ChangedMeanwhile):
        records.remove(read)


def test_numbers_are_not_given_twice(records: Records) -> None:
    first = records.add(OFFCUT)
    records.remove(first)
    assert records.add(OFFCUT).id > first.id


def test_several_changes_are_kept_together_or_not_at_all(records: Records) -> None:
    def fail_halfway() -> None:
        with records.changing() as change:
            change.add(OFFCUT)
            change.add(TRIAL)
            raise RuntimeError("the lights went out")

    with pytest.raises(RuntimeError):
        fail_halfway()
    assert not any(records.totals().values())
    with records.changing() as change:
        change.add(OFFCUT)
        change.add(TRIAL)
    assert sum(records.totals().values()) == 2


def test_the_count_goes_up_with_every_change_and_not_by_looking(records: Records) -> None:
    before = records.count()
    kept = records.add(OFFCUT)
    records.all(OnHand)
    assert records.count() == before + 1
    records.remove(kept)
    assert records.count() == before + 2


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (replace(TRIAL, got_deg=-3.0), "got is -3.0"),
        (replace(TRIAL, asked_deg=float("nan")), "asked is nan"),
        (replace(TRIAL, die=" "), "die is"),
        (replace(TRIAL, note="x" * 500), "longer than 400"),
        (replace(TRIAL, note="a\x00b"), "zero byte"),
        (replace(OFFCUT, count=-1), "count is -1"),
        (replace(OFFCUT, length=0.0), "length is 0"),
        (replace(OFFCUT, price=Decimal("1.23456")), "at most 4 places"),
        (replace(OFFCUT, price=Decimal("NaN")), "price is NaN"),
        (replace(TRIAL, day=DAY.replace(year=1)), "day is 0001"),
    ],
)
def test_what_cannot_be_kept_is_told(records: Records, wrong: Record, said: str) -> None:
    with pytest.raises(CannotKeep, match=said):
        records.add(wrong)
    assert not any(records.totals().values())


def test_a_reader_sees_one_moment_while_another_writes(place: Where) -> None:
    with open_records(place) as one, open_records(place) as other:
        one.add(OFFCUT)
        with one.looking() as look:
            assert len(look.all(OnHand)) == 1
            other.add(OFFCUT)
            other.add(TRIAL)
            assert len(look.all(OnHand)) == 1
            assert look.all(Trial) == ()
        assert len(one.all(OnHand)) == 2


def test_several_threads_share_the_records(records: Records) -> None:
    def write() -> None:
        for _ in range(10):
            records.add(OFFCUT)

    threads = [threading.Thread(target=write) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(records.all(OnHand)) == 40


def test_text_of_any_language_is_kept(records: Records) -> None:
    kept = records.add(replace(OFFCUT, label=TUBE, note="Regal über der Tür — 棚 'x'; DROP TABLE stock"))
    assert records.all(OnHand) == (kept,)
