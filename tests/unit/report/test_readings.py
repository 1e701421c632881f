"""The section of readings holds to the schema of the report."""

from __future__ import annotations

from jsonschema import Draft202012Validator

from fitwright.report import report_schema
from fitwright.report.readings import readings_as_json
from tests.unit.truing.samples import rack, read


def test_it_is_null_without_readings_and_holds_to_the_schema_with_them() -> None:
    schema = report_schema()
    checked = Draft202012Validator({**schema["properties"]["readings"], "$defs": schema.get("$defs", {})})
    assert readings_as_json(rack()) is None
    told = readings_as_json(read("bend 1 of hoop 1: 91.2", "cut length of B1: 410", "bend 9 of hoop 1: 90"))
    checked.validate(None)
    checked.validate(told)
    assert told is not None
    assert told["corrections"][0]["amount_deg"] < 0
    assert told["questioned"][0]["of"] == "cut length of B1"
    assert told["without_meaning"][0]["of"] == "bend 9 of hoop 1"
