"""Tables in the package."""

from __future__ import annotations

from fractions import Fraction

from fitwright.stock.tables import DATA, entries, inches, rows


def test_every_table_reads_and_states_its_source() -> None:
    for path in DATA.glob("*.csv"):
        assert rows(path.stem)
        assert all(None not in row and None not in row.values() for row in rows(path.stem)), path.name
        assert path.name == "shapes.csv" or path.read_text(encoding="utf-8").startswith("#")
    assert entries("metals", "metal")
    assert entries("panels", "panel")


def test_inches() -> None:
    assert inches("1 1/4") == Fraction(5, 4)
    assert inches("0.145") == Fraction(145, 1000)
