"""What moves with a dim."""

from __future__ import annotations

from fitwright.web.dependents import dims_of, users

TEXT = """
job: {name: x, unit: mm}
space: {opening: {width: width + 20}}
dims: {width: 800, half: width / 2, third: half * 2 / 3, lone: 5}
stock: {frame: round tube 32 x 2 mm}
parts:
  bar: {stock: frame, path: [[0, 0, 0], [third, 0, 0]]}
  foot: {stock: frame, path: [[half, 0, 0], [half, 0, 100]]}
"""


def test_parts_and_dims_follow_through_other_dims() -> None:
    found = users(TEXT)
    assert set(found["width"]) == {
        ("space", "space"),
        ("dim", "half"),
        ("dim", "third"),
        ("part", "bar"),
        ("part", "foot"),
    }
    assert set(found["third"]) == {("part", "bar")}
    assert found["lone"] == []


def test_a_part_hangs_on_its_dims() -> None:
    assert dims_of(users(TEXT), ("part", "foot")) == ["width", "half"]
