"""The JSON Schema says of the photo section what the program says of it."""

from __future__ import annotations

from typing import Any

import pytest
from jsonschema import Draft202012Validator

from fitwright.job import job_schema
from fitwright.job.shape.photo import quantity_of
from fitwright.job.written import START, Mapped

SCHEMA = job_schema()
GOOD: dict[str, Any] = {
    "job": {"name": "Rack", "unit": "inch"},
    "stock": {"t": "round tube 1 x 14 ga"},
    "parts": {"a": {"stock": "t", "path": [[0, 0, 0], [0, 0, 9]]}},
}
PHOTO: dict[str, Any] = {
    "picture": "old.jpg",
    "spots": {"a": [1, 2], "b": {"at": [3, 4], "is": [0, 0, "width"]}},
    "edges": [{"along": "x", "marks": ["a", [5, 6]], "snap": True}],
    "planes": {"floor": {"across": "z", "marks": ["a", "b"]}},
    "known": {"w": {"from": "a", "to": "b", "is": "31 1/2"}},
    "measures": {"p": {"spacing": ["a", "b", [1, 2]], "along": "z"}, "t": {"height": "a", "foot": "b"}},
}


def errors(photo: Any) -> int:
    return len(list(Draft202012Validator(SCHEMA).iter_errors({**GOOD, "photo": photo})))


def test_a_good_photo() -> None:
    assert errors(PHOTO) == 0


@pytest.mark.parametrize(
    "wrong",
    [
        {"marks": []},
        {"edges": [{"along": "x"}]},
        {"planes": {"floor": {"across": "q", "marks": []}}},
        {"known": {"w": {"from": "a", "to": "b"}}},
        {"measures": {"p": {"spacing": ["a"], "foot": "b"}}},
    ],
)
def test_a_wrong_one(wrong: dict[str, Any]) -> None:
    assert errors({**PHOTO, **wrong}) > 0


@pytest.mark.parametrize(
    ("key", "kind"), [("arc", "<arc>"), ("sides", "<sides>"), ("from", "<length>"), ("odd", "<length>")]
)
def test_a_quantity_is_told_by_its_own_key(key: str, kind: str) -> None:
    given = Mapped("", START)
    given[key] = 1
    assert quantity_of(given) == kind
    assert quantity_of("a") == "<length>"
