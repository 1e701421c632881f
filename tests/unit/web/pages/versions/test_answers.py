"""Earlier versions say what each change did, so that the one to go back to is found."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from fitwright.web.pages.versions.answers import in_short
from tests.unit.web.serving import RACK, client, send, some_jobs


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[TestClient]:
    with client(some_jobs(tmp_path)) as found:
        yield found


def test_the_list_says_what_each_change_did(opened: TestClient) -> None:
    for was, text in (("31 1/2", "31"), ("31", "30")):
        send(opened, f"{RACK}/dims", {"name": "width", "was": was, "text": text})
    page = opened.get(f"{RACK}/versions").text
    assert page.index("by width: 31 → 30") < page.index("by width: 31 1/2 → 31")


def test_the_piece_leads_to_its_earlier_versions(opened: TestClient) -> None:
    assert f'href="{RACK}/versions">Undo' in opened.get(RACK).text


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        ("a: 1\nb: 2   # wide\n", "a: 1\nb: 3   # wide\n", "b: 2 → 3"),
        ("a: 1\n", "a: 1\nb: 2\nc: 3\n", "2 lines come"),
        ("a: 1\nb: 2\n", "a: 1\n", "1 line gone"),
        ("a: 1\n", "b: 1\n", "a: 1 → b: 1"),
        ("a: 1\n", "a: 1\n", ""),
    ],
)
def test_a_change_in_short(before: str, after: str, told: str) -> None:
    assert in_short(before, after) == told


def test_a_long_line_is_cut() -> None:
    assert len(in_short("a: 1\n", f"a: {'x' * 500}\n")) == 120
