"""Writing what was explored."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest

from fitwright.pricing.exploring import Base, Tried, Vary, explore, grid, read_vary
from fitwright.sheets.exploring import check_endings, write_explored
from fitwright.sheets.exploring.writing import EndingError
from fitwright.units import Style
from tests.stand import SHOP, TEXT, quick_judge, stand

VARIES: list[Vary] = [read_vary(said, TEXT, Style.metric()) for said in ("width=400..500:3", "rails=1|2")]
ROWS: tuple[Tried, ...] = explore(grid(VARIES), Base(TEXT, SHOP), quick_judge, workers=1)


@pytest.mark.parametrize(
    ("name", "begins"), [("a.csv", b"number,width,rails,"), ("a.json", b"["), ("a.svg", b"<svg"), ("a.pdf", b"%PDF"),
                         ("a.png", b"\x89PNG")],
)  # fmt: skip
def test_each_kind(tmp_path: Path, name: str, begins: bytes) -> None:
    file = write_explored(tmp_path / "new" / name, ROWS, VARIES, stand())
    assert file.read_bytes().startswith(begins)


def test_the_table_has_a_line_for_each_way_and_its_words_when_it_cannot_be(tmp_path: Path) -> None:
    text = write_explored(tmp_path / "a.csv", ROWS, VARIES, stand()).read_text(encoding="utf-8")
    told = list(csv.DictReader(text.splitlines()))
    assert [row["width"] for row in told] == ["400", "400", "450", "450", "500", "500"]
    assert told[2]["wrong"].startswith("ZeroDivisionError")
    assert told[2]["before_tax"] == ""
    assert told[0]["before_tax"] == "1400.0"
    assert {row["beaten by none"] for row in told} == {"yes", ""}


def test_json_says_the_same(tmp_path: Path) -> None:
    told = json.loads(write_explored(tmp_path / "a.json", ROWS, VARIES, stand()).read_text(encoding="utf-8"))
    assert [one["number"] for one in told] == [1, 2, 3, 4, 5, 6]
    assert told[0]["beaten_by_none"]
    assert told[2]["figures"] is None


def test_another_ending_is_refused_before_anything_is_worked_out(tmp_path: Path) -> None:
    with pytest.raises(EndingError, match=r"\.csv, \.json"):
        check_endings([tmp_path / "a.xls"])
