"""docs/job-file.md is kept true: every example in it loads, every key of the schema is in it, its numbers are right."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from fitwright.assess import assess
from fitwright.findings import Verdict
from fitwright.job import Job, job_schema, parse_job
from fitwright.job.arithmetic.formula import FUNCTIONS
from fitwright.job.arithmetic.tokens import MAX_CHARACTERS
from fitwright.job.model import MemberSpec
from fitwright.job.reading import MAX_BYTES, MAX_DEPTH, MAX_LINE, MAX_VALUES
from fitwright.job.resolve.photo import MOST_SPOTS
from fitwright.job.resolve.scope import MOST_COPIES
from fitwright.job.shape.checking import MAX_DIMS, MAX_JOINTS, MAX_PARTS, MAX_POINTS, MAX_STOCK
from fitwright.job.shape.file import FileShape
from fitwright.shop import default_shop

PAGE = (Path(__file__).parents[2] / "docs" / "job-file.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL)
BY_START = {block.split(":", 1)[0].strip(): block for block in BLOCKS}
SECTIONS = tuple(FileShape.model_fields)

BASE = {
    "job": "job: {name: Example, unit: inch}\n",
    "dims": "dims: {width: 31 1/2, depth: 19, height: 74, shelves: 4, pitch: (height - 22) / shelves}\n",
    "stock": BY_START["stock"],
    "parts": "parts:\n"
    + "".join(f"  {name}: {{stock: frame, path: [[0, 0, 0], [0, 0, 9]]}}\n" for name in ("hoop", "ledge", "shelf")),
}


def whole(block: str) -> str:
    """A file around an example: its own sections, and the usual ones for the rest; what is no section is a part."""
    first = block.split(":", 1)[0].strip()
    if first not in SECTIONS:
        block = "parts:\n" + "".join(f"  {line}\n" for line in block.splitlines())
    given = re.findall(r"^(\w+):", block, re.MULTILINE)
    return block + "".join(text for section, text in BASE.items() if section not in given)


def example(name: str) -> Job:
    return parse_job(whole(BY_START[name]))


@pytest.mark.parametrize("block", BLOCKS, ids=[block.split("\n", 1)[0][:30] for block in BLOCKS])
def test_every_example_loads(block: str) -> None:
    assert parse_job(whole(block)).parts


def properties(schema: Any) -> set[str]:
    """Every key named anywhere in a schema."""
    if isinstance(schema, dict):
        inner = set().union(*(properties(value) for value in schema.values()))
        own = schema.get("properties", {})
        return inner | (set(own) if isinstance(own, dict) else set())
    if isinstance(schema, list):
        return set().union(*(properties(value) for value in schema))
    return set()


@pytest.mark.parametrize("key", sorted(properties(job_schema())))
def test_every_key_is_on_the_page(key: str) -> None:
    assert re.search(rf"\b{key}\b[:`]", PAGE), key


@pytest.mark.parametrize("function", FUNCTIONS)
def test_every_function_is_on_the_page(function: str) -> None:
    assert re.search(rf"\b{function}\b", PAGE)


def test_every_bound_is_on_the_page() -> None:
    bounds = PAGE[PAGE.index("## Bounds") :]
    sizes = (MAX_PARTS, MAX_DIMS, MAX_STOCK, MAX_JOINTS, MAX_POINTS, MOST_COPIES, MOST_SPOTS, MAX_CHARACTERS)
    for bound in (MAX_BYTES, MAX_LINE, MAX_VALUES, MAX_DEPTH, *sizes):
        assert f"{bound:,}" in bounds


def test_numbers_of_the_arithmetic_example() -> None:
    dims = example("dims").dims
    assert dims["pitch"].value == pytest.approx(10 * 25.4)
    assert dims["inside"].value == pytest.approx((31.5 - 2 * 1.125) * 25.4)
    assert dims["metric"].value == pytest.approx(650.8)


def test_the_small_whole_file_is_as_wide_as_it_says_and_stands() -> None:
    job = parse_job(BLOCKS[0])
    hoop = job.parts[0]
    assert isinstance(hoop, MemberSpec)
    assert hoop.points[2][0] == pytest.approx(800.1)
    told = assess(job, default_shop("inch")).findings
    assert [finding.check for finding in told if finding.verdict is Verdict.FAILS] == []
