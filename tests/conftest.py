"""What every test may rely on: no records of a real shop are read or written, none of another test, and the same
generated examples each time (`make search` looks at fresh ones)."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

NOWHERE = Path(tempfile.gettempdir()) / f"fitwright-tests-{os.getpid()}"
# set where tests are collected, so that programs that tests start have it too
os.environ["FITWRIGHT_RECORDS"] = str(NOWHERE / "records.db")

# how long an example takes says how busy the machine is
patient = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("the same", patient, derandomize=True)
settings.register_profile("fresh", patient, print_blob=True)
settings.load_profile(os.environ.get("FITWRIGHT_EXAMPLES", "the same"))


@pytest.fixture(autouse=True)
def no_records() -> Iterator[None]:
    """What a test has recorded is gone when it ends."""
    yield
    if NOWHERE.exists():
        shutil.rmtree(NOWHERE, ignore_errors=True)
