"""The JSON Schema says of files what the program says of them."""

from __future__ import annotations

from typing import Any

import pytest
from jsonschema import Draft202012Validator

from fitwright.job import job_schema

SCHEMA = job_schema()
GOOD: dict[str, Any] = {
    "job": {"name": "Rack", "unit": "inch"},
    "dims": {"width": "31 1/2", "shelves": 4},
    "stock": {"frame": "round tube 1 1/8 x 14 ga", "b": {"section": "lumber 1x2", "grade": "white pine"}},
    "parts": {
        "hoop": {"stock": "frame", "outside": [[0, 0, 6], [0, 0, "height"]], "radius": 4, "ends": ["square", "free"]},
        "ring": {"stock": "frame", "ring": {"centre": [0, 0, 1], "diameter": 20}, "closed": True},
        "shelf": {"slats": "b", "from": [0, 0, 0], "to": [1, 1, 0], "removable": "front"},
        "wheel": {"caster": {"height": 4, "rated": "125 lb", "swivel": True}, "at": [0, 0, 4]},
        "screws": {"screw": "#8 x 1 1/4", "count": 40},
        "bin": {"opening": {"from": [0, 0, 0], "to": [1, 1, 1]}},
    },
    "joints": [{"between": ["hoop", "shelf"], "how": "lap"}],
}


def errors(document: Any) -> list[str]:
    return [error.message for error in Draft202012Validator(SCHEMA).iter_errors(document)]


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(SCHEMA)


def test_a_good_file() -> None:
    assert errors(GOOD) == []


@pytest.mark.parametrize(
    "change",
    [
        {"jobb": {}},
        {"job": {"name": "Rack"}},
        {"job": {"name": "Rack", "unit": "feet"}},
        {"parts": {"p": {"stock": "frame", "outside": [[0, 0, 6], [0, 0, 9]], "raduis": 4}}},
        {"joints": [{"between": ["hoop"], "how": "lap"}]},
        {"joints": [{"between": ["hoop", "shelf"], "how": "glue"}]},
    ],
)
def test_a_wrong_file(change: dict[str, Any]) -> None:
    assert errors(GOOD | change)


def descriptions(schema: Any, name: str = "") -> list[str]:
    """Keys of a schema that an editor would have nothing to say about, sides apart."""
    if isinstance(schema, list):
        return [found for item in schema for found in descriptions(item, name)]
    if not isinstance(schema, dict):
        return []
    silent = []
    for key, value in schema.get("properties", {}).items():
        if "description" not in value and key not in ("left", "right", "back", "front", "top", "start", "finish"):
            silent.append(f"{name}.{key}")
    return silent + [found for key, value in schema.items() for found in descriptions(value, key)]


def test_every_key_has_a_description() -> None:
    assert descriptions(SCHEMA) == []
