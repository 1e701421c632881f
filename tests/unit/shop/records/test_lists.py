from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from fitwright.shop.records import KINDS, BadRows, OnHand, Price, Record, Trial
from fitwright.shop.records.keeping import Records
from fitwright.shop.records.lists import TakenIn, export, headings, take_in
from tests.unit.shop.records.samples import EACH, OFFCUT, TRIAL, TUBE

TODAY = date(2027, 2, 9)


def test_a_list_that_cannot_be_written_says_so_and_not_that_it_was_not_taken_in(
    records: Records, tmp_path: Path
) -> None:
    with pytest.raises(BadRows, match=r"nothing was written(?s:.*)\.txt is not known: give a file ending in \.csv"):
        export(records, KINDS["trials"], tmp_path / "list.txt")


@pytest.mark.parametrize("ending", ["csv", "xlsx"])
@pytest.mark.parametrize("record", EACH, ids=lambda record: record.kind)
def test_a_list_comes_back_as_it_was_written(records: Records, record: Record, ending: str, tmp_path: Path) -> None:
    kept = [records.add(record), records.add(record)]
    file = tmp_path / f"list.{ending}"
    kind = KINDS[record.kind]
    assert export(records, kind, file) == 2
    assert take_in(records, kind, file, "inch", TODAY) == TakenIn(0, 0, 2)
    for one in kept:
        records.remove(one)
    # without their numbers the rows are new ones
    _without_numbers(file)
    assert take_in(records, kind, file, "inch", TODAY) == TakenIn(2, 0, 0)
    assert [replace(one, id=0, version=0) for one in records.all(kind)] == [record, record]


def _without_numbers(file: Path) -> None:
    if file.suffix == ".csv":
        rows = file.read_text().splitlines()
        file.write_text("\n".join([rows[0], *(",," + row.split(",", 2)[2] for row in rows[1:])]))
        return
    from openpyxl import load_workbook

    book = load_workbook(file)
    for row in book.worksheets[0].iter_rows(min_row=2, max_col=2):
        for cell in row:
            cell.value = None
    book.save(file)


def test_what_a_list_has_no_column_for_stays_as_it_is(records: Records, tmp_path: Path) -> None:
    kept = records.add(replace(OFFCUT, place="second arm", heat="H1"))
    file = tmp_path / "counted.csv"
    file.write_text(f"id,label,length mm,count\n{kept.id},{kept.label},{kept.length},7\n")
    assert take_in(records, OnHand, file, "inch", TODAY) == TakenIn(0, 1, 0)
    (now,) = records.all(OnHand)
    assert now.count == 7
    assert (now.place, now.heat, now.price, now.offcut) == ("second arm", "H1", kept.price, kept.offcut)
    assert take_in(records, OnHand, file, "inch", TODAY) == TakenIn(0, 0, 1)


def test_makers_write_lengths_angles_and_stock_as_they_do(records: Records, tmp_path: Path) -> None:
    file = tmp_path / "rack.csv"
    file.write_text(
        'label,length,count,price\n"Round tube 1-1/8"" x 14ga","3\' 8 1/2""",2,4.25\nround tube 1 1/8 x 14 ga,31,,\n'
    )
    assert take_in(records, OnHand, file, "inch", TODAY).added == 2
    first, second = records.all(OnHand)
    assert first.label == second.label == TUBE
    assert [first.length, second.length] == pytest.approx([1130.3, 787.4])
    assert [(one.count, one.price) for one in (first, second)] == [(2, Decimal("4.25")), (1, Decimal(0))]
    file.write_text("die;section;asked;got;day\n1 1/8 x 4;round tube 1 1/8 x 14 ga;94,5;90°;2027-01-05\n")
    take_in(records, Trial, file, "inch", TODAY)
    (trial,) = records.all(Trial)
    assert (trial.asked_deg, trial.day) == (94.5, date(2027, 1, 5))
    assert trial.got_deg == pytest.approx(90)
    file.write_text("label\tlength mm\tprice\nround tube 1 1/8 x 14 ga\t6096\t38.5\n")
    take_in(records, Price, file, "inch", TODAY)
    assert records.all(Price)[0].day == TODAY


def test_bad_rows_are_told_all_at_once_and_nothing_is_taken_in(records: Records, tmp_path: Path) -> None:
    file = tmp_path / "rack.csv"
    file.write_text(
        "label,length mm,count,price,offcut\n"
        f"{TUBE},800,1,2.50,yes\n"
        f"{TUBE},eight hundred,1,2.50,yes\n"
        f"{TUBE},-4,1,2.50,yes\n"
        "roundish tube,800,1,2.50,yes\n"
        f"{TUBE},800,one,2.50,maybe\n"
        f"{TUBE},,1,2.50000001,yes\n"
        "\n"
        f"{TUBE},800,1.5,x,yes\n"
    )
    with pytest.raises(BadRows) as told:
        take_in(records, OnHand, file, "inch", TODAY)
    rows = told.value.rows
    assert sorted({number for number, _ in rows}) == [3, 4, 5, 6, 7, 9]
    said = "\n".join(f"{number} {text}" for number, text in rows)
    for words in ("3 length mm is 'eight hundred'", "4 length is -4", "5 label is 'roundish tube'", "6 count is 'one'",
                  "6 offcut is 'maybe': write yes or no", "7 length mm is empty",
                  "9 count is '1.5': write a whole number", "9 price is 'x'"):  # fmt: skip
        assert words in said
    assert records.all(OnHand) == ()


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("label,lenght mm\n", "column 'lenght mm' is not known: use id, version, label, length mm"),
        ("count,price\n1,2\n", "column label, length mm is not there"),
        (f"label,length mm,length\n{TUBE},1,2\n", "there twice"),
        ("", "the file is empty"),
        ('label,length mm\n"open,3\n', "not CSV"),
    ],
)
def test_columns_that_are_wrong_are_told(records: Records, content: str, said: str, tmp_path: Path) -> None:
    file = tmp_path / "rack.csv"
    file.write_text(content)
    with pytest.raises(BadRows, match=said):
        take_in(records, OnHand, file, "inch", TODAY)


def test_files_that_are_no_lists_are_told(records: Records, tmp_path: Path) -> None:
    (tmp_path / "a.xlsx").write_bytes(b"not a workbook")
    (tmp_path / "a.csv").write_bytes("Länge".encode("latin-1"))
    (tmp_path / "a.doc").write_bytes(b"")
    for name, said in (
        ("a.xlsx", "not an XLSX"),
        ("a.csv", "not UTF-8"),
        ("a.doc", "is not known"),
        ("b.csv", "cannot be read"),
    ):
        with pytest.raises(BadRows, match=said):
            take_in(records, OnHand, tmp_path / name, "inch", TODAY)
    with pytest.raises(BadRows):
        export(records, OnHand, tmp_path / "rack.pdf")


def test_a_row_changed_in_the_list_changes_its_record(records: Records, tmp_path: Path) -> None:
    one, other = records.add(OFFCUT), records.add(replace(OFFCUT, place="bin"))
    file = tmp_path / "rack.csv"
    export(records, OnHand, file)
    file.write_text(file.read_text().replace('"rack, second arm"', "shed"))
    assert take_in(records, OnHand, file, "inch", TODAY) == TakenIn(0, 1, 1)
    assert records.one(OnHand, one.id).place == "shed"
    assert records.one(OnHand, other.id) == other


def test_a_record_changed_since_the_list_was_written_is_not_overwritten(records: Records, tmp_path: Path) -> None:
    one, other = records.add(OFFCUT), records.add(OFFCUT)
    file = tmp_path / "rack.csv"
    export(records, OnHand, file)
    records.replace(replace(one, count=8))
    records.remove(other)
    file.write_text(file.read_text().replace("1130.3,2,", "1130.3,5,"))
    with pytest.raises(BadRows) as told:
        take_in(records, OnHand, file, "inch", TODAY)
    assert [number for number, _ in told.value.rows] == [2, 3]
    assert "count is now 8, here 5" in told.value.rows[0][1]
    assert "no record 2 any more" in told.value.rows[1][1]
    assert records.one(OnHand, one.id).count == 8


def test_an_empty_list_has_its_headings(records: Records, tmp_path: Path) -> None:
    export(records, Trial, tmp_path / "trials.csv")
    assert (tmp_path / "trials.csv").read_text().strip().split(",") == headings(Trial)
    assert take_in(records, Trial, tmp_path / "trials.csv", "mm", TODAY) == TakenIn(0, 0, 0)


def test_text_that_begins_like_a_formula_stays_text(records: Records, tmp_path: Path) -> None:
    records.add(replace(TRIAL, note="=1+1"))
    export(records, Trial, tmp_path / "trials.xlsx")
    from openpyxl import load_workbook

    sheet = load_workbook(tmp_path / "trials.xlsx").worksheets[0]
    cell = next(cell for cell in sheet[2] if cell.value == "=1+1")
    assert cell.data_type == "s"
