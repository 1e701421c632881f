"""What every test may rely on: no records of a real shop are read or written, and none of another test."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

NOWHERE = Path(tempfile.gettempdir()) / f"fitwright-tests-{os.getpid()}"
# set where tests are collected, so that programs that tests start have it too
os.environ["FITWRIGHT_RECORDS"] = str(NOWHERE / "records.db")


@pytest.fixture(autouse=True)
def no_records() -> Iterator[None]:
    """What a test has recorded is gone when it ends."""
    yield
    if NOWHERE.exists():
        shutil.rmtree(NOWHERE, ignore_errors=True)
