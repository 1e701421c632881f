from __future__ import annotations

from fitwright.sheets.packet.tables import LONGEST_WORD, breakable, table


def test_long_words_get_places_to_break_and_lose_no_letter() -> None:
    word = "x" * (2 * LONGEST_WORD + 3)
    told = breakable(f"a {word} b")
    assert told.replace("\u200b", "") == f"a {word} b"
    assert max(len(part) for part in told.replace("\u200b", " ").split()) == LONGEST_WORD


def test_ordinary_words_stay_as_they_are() -> None:
    assert breakable("round tube 1 1/8 x 14 ga") == "round tube 1 1/8 x 14 ga"


def test_columns_without_a_share_are_as_wide_as_they_need() -> None:
    told = table([("mark", "mark", None), ("what", "text", 3)], [("A1", ("hoop", "bent"))], title="x")
    assert [column["width"] for column in told["columns"]] == ["auto", 3]
    assert told["rows"] == [["A1", ["hoop", "bent"]]]
    assert told["title"] == "x"
