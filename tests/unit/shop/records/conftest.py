"""Places for records: a file, and a true PostgreSQL server."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from fitwright.shop.records import Where
from fitwright.shop.records.keeping import Records, open_records
from tests import postgres


@pytest.fixture(scope="session")
def server() -> Iterator[postgres.Postgres]:
    """One server for all tests; where it cannot be had they are skipped, in CI they fail."""
    if postgres.programs() is None:
        if os.environ.get("CI") or os.environ.get("FITWRIGHT_POSTGRES") == "required":
            pytest.fail(postgres.WITHOUT)
        pytest.skip(postgres.WITHOUT)
    started = postgres.start()
    yield started
    started.stop()


@pytest.fixture(params=["file", "server"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Where:
    """Where records can be: both kinds, empty."""
    if request.param == "file":
        return Where(tmp_path / "records.db")
    started: postgres.Postgres = request.getfixturevalue("server")
    return Where(server=started.emptied())


@pytest.fixture
def records(place: Where) -> Iterator[Records]:
    """Open records with nothing in them."""
    with open_records(place) as opened:
        yield opened
