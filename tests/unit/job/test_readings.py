"""The closed vocabulary of what can be read: every form both ways, and nothing else."""

from __future__ import annotations

import pytest

from fitwright.job.readings import EXAMPLES, Of, Quantity, parse_of, parts_named


@pytest.mark.parametrize("words", EXAMPLES)
def test_every_example_is_read_and_written_alike(words: str) -> None:
    of = parse_of(words)
    assert of is not None
    assert str(of) == words
    assert parse_of(str(of)) == of


def test_every_quantity_has_an_example() -> None:
    assert {of.quantity for words in EXAMPLES if (of := parse_of(words))} == set(Quantity)


@pytest.mark.parametrize(
    ("words", "of"),
    [
        ("angle of bend 2 of A1", Of(Quantity.BEND, "A1", 2)),
        ("  Width   at the TOP left of the piece", Of(Quantity.WIDTH, "", place="top left")),
        ("width at the left top of the piece", Of(Quantity.WIDTH, "", place="top left")),
        ("spread at the ends of hoop 1", Of(Quantity.SPREAD, "hoop 1", place="ends")),
        ("diagonal 2 of hoop with stretcher, 1", Of(Quantity.DIAGONAL, "hoop with stretcher, 1", 2)),
        ("diagonal 2 at the back of the piece", Of(Quantity.DIAGONAL, "", 2, "back")),
        ("opening across for shelf 2", Of(Quantity.FOR_SHELF, "shelf 2", place="across")),
        ("gap at ledge 1 on hoop 2", Of(Quantity.JOINT_GAP, "ledge 1", other="hoop 2")),
        ("gap behind", Of(Quantity.WALL_GAP, place="behind")),
    ],
)
def test_words_and_what_they_mean(words: str, of: Of) -> None:
    assert parse_of(words) == of


@pytest.mark.parametrize("words", ["", "bend of A1", "diagonal 3 of A1", "width", "gap below", "heights of feet"])
def test_other_words_mean_nothing(words: str) -> None:
    assert parse_of(words) is None


def test_only_bends_and_rotations_are_angles() -> None:
    angles = {of.quantity for words in EXAMPLES if (of := parse_of(words)) and of.angle}
    assert angles == {Quantity.BEND, Quantity.ROTATION}


def test_parts_that_a_reading_names() -> None:
    assert list(parts_named(Of(Quantity.JOINT_GAP, "ledge 1", other="hoop 2"))) == ["ledge 1", "hoop 2"]
    assert list(parts_named(Of(Quantity.DIAGONAL, "the whole", 1))) == []
