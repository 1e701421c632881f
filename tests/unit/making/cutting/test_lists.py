from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.making.cutting import CuttingError, ListError, plan_as_json, plan_from_csv, read_bars, read_cuts

CUTS = 'mark,length,quantity\nA1,"31 1/2""",4\nA2,600 mm,\n\nA3,2 ft,2\n'
STOCK = "name,length,price,on_hand\nnew,20 ft,34.80,\nrest,1200 mm,,1\n"


def test_lists_as_makers_write_them() -> None:
    cuts = read_cuts(CUTS, "inch")
    assert [(cut.mark, cut.length_mm, cut.quantity) for cut in cuts] == [
        ("A1", pytest.approx(800.1), 4),
        ("A2", 600.0, 1),
        ("A3", pytest.approx(609.6), 2),
    ]
    new, rest = read_bars(STOCK, "inch")
    assert (new.label, new.price, new.on_hand, new.offcut) == ("new", Decimal("34.80"), None, False)
    assert (rest.length, rest.price, rest.on_hand, rest.offcut) == (1200.0, Decimal(0), 1, True)


def test_bare_lengths_take_the_unit() -> None:
    assert read_cuts("length\n10", "inch")[0].length_mm == pytest.approx(254.0)
    assert read_cuts("length\n10", "mm")[0].length_mm == 10.0


def test_headings_in_any_order_case_and_with_a_byte_order_mark() -> None:
    bars = read_bars(b"\xef\xbb\xbfOn hand, Price ,LENGTH\r\n3,2.50,900\r\n")
    assert (bars[0].on_hand, bars[0].price, bars[0].length, bars[0].label) == (3, Decimal("2.50"), 900.0, "900")


def test_all_mistakes_at_once_with_file_line_and_column() -> None:
    text = "length,quantity,mark\nlong,1,A1\n500,two,A2\n500,1,A3\n-3 mm,1,A4\n"
    with pytest.raises(ListError) as told:
        read_cuts(text, file="parts.csv")
    lines = str(told.value).splitlines()
    assert len(lines) == 3
    assert lines[0].startswith("parts.csv, line 2, column length: 'long' is not accepted; give a length above 0")
    assert lines[1].startswith("parts.csv, line 3, column quantity: 'two' is not accepted; give a whole number")
    assert lines[2].startswith("parts.csv, line 5, column length")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "is empty; its first line has the headings length, price, on_hand, name"),
        ("length,price\n", "no lines below its headings"),
        ("lenght,price\n1,2\n", "line 1: column 'lenght' is not known; did you mean length?"),
        ("price\n2\n", "column 'length' is missing"),
        ("length,length\n1,2\n", "stands there twice"),
        ("length,price\n1,2,3\n", "line 2: has 3 cells for 2 headings"),
        ("length,price\n1,-2\n", "column price: '-2' is not accepted"),
        ("length,price\n1,1e99\n", "column price"),
        ("length,price\n1,NaN\n", "column price"),
        ("length,on_hand\n1,1.5\n", "column on_hand: '1.5' is not accepted"),
        ("length,price\n,2\n", "line 2, column length: is empty"),
        ('length,price\n"1,2\n', "give values with a comma between"),
        ("length;price\n1;2;3\n", "put a cell with a semicolon in it"),
        ("length;price\n1;2,5\n", "column price: '2,5' is not accepted"),
    ],
)
def test_what_is_wrong_with_a_stock_list(text: str, told: str) -> None:
    with pytest.raises(ListError, match=r"stock\.csv") as wrong:
        read_bars(text, file="stock.csv")
    assert told in str(wrong.value)


def test_text_that_is_not_utf8_is_told_by_line() -> None:
    with pytest.raises(ListError, match="line 3: is not UTF-8"):
        read_cuts(b"length,mark\n10,A\n20,\xff\n")


def test_plan_from_two_lists_and_back_to_plain_data() -> None:
    plan = plan_from_csv(CUTS, STOCK, "inch", kerf=25.4 / 8)
    told = plan_as_json(plan)
    assert told["cost"] == told["bound"] == 34.8
    assert told["proven"] is True
    assert told["buy"] == [{"stock": "new", "length_mm": 6096.0, "price": 34.8, "quantity": 1}]
    cuts = [cut for bar in told["bars"] for cut in bar["cuts"]]
    assert sorted(cut["mark"] for cut in cuts) == ["A1"] * 4 + ["A2", "A3", "A3"]
    for bar in told["bars"]:
        spent = sum(cut["cut_length_mm"] for cut in bar["cuts"]) + bar["kerf_lost_mm"] + bar["end_trim_mm"]
        assert spent + bar["remnant_mm"] == pytest.approx(bar["length_mm"])
    lengths = sum(bar["length_mm"] for bar in told["bars"])
    assert told["waste_fraction"] == pytest.approx(1 - sum(cut["cut_length_mm"] for cut in cuts) / lengths)


def test_a_heading_unlike_any_other_is_told_as_a_sentence() -> None:
    with pytest.raises(ListError, match="column 'zzz' is not known; the columns are length"):
        read_cuts("zzz,length\n1,2\n")


def test_all_headings_that_are_wrong_are_told_at_once() -> None:
    with pytest.raises(ListError) as told:
        read_cuts("lenght,qty,qty\n1,2,3\n", file="parts.csv")
    assert str(told.value).splitlines() == [
        "parts.csv, line 1: column 'lenght' is not known; did you mean length? the columns are length, quantity, mark",
        "parts.csv, line 1: column 'qty' is not known; the columns are length, quantity, mark",
    ]


@pytest.mark.parametrize("between", [";", "\t"])
def test_lists_parted_as_a_spreadsheet_parts_them_where_the_comma_is_a_decimal_sign(between: str) -> None:
    text = between.join(("length", "quantity", "mark")) + "\n" + between.join(("800 mm", "4", '"A,1"')) + "\n"
    (cut,) = read_cuts(text)
    assert (cut.length_mm, cut.quantity, cut.mark) == (800.0, 4, "A,1")


def test_a_saw_cut_below_nothing_is_told_in_the_unit_of_the_lists() -> None:
    with pytest.raises(CuttingError, match=r'^kerf is -1": give 0 or more'):
        plan_from_csv(CUTS, STOCK, "inch", kerf=-25.4)
