"""The application without a network: a client that behaves like a browser's form."""

from __future__ import annotations

import asyncio
import re
import shutil
from collections.abc import Coroutine, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from httpx2 import Response
from starlette.testclient import TestClient

from fitwright.web import workbench_app
from fitwright.web.guard import Pairing
from fitwright.web.guard.names import Names
from tests.demos import EXAMPLES

HOST = "bench.test"
BASE = f"http://{HOST}"
RACK = "/jobs/drying-rack"
# against waiting without end; so long that a busy machine never fails a test
PATIENCE_S = 300


def some_jobs(folder: Path, *names: str) -> Path:
    """A folder with demo jobs."""
    for name in names or ("drying-rack",):
        shutil.copytree(EXAMPLES / name, folder / "jobs" / name)
    return folder / "jobs"


@contextmanager
def client(jobs: Path, pairing: Pairing | None = None) -> Iterator[TestClient]:
    """A client of an application of its own."""
    app = workbench_app(jobs, known_as=Names(frozenset({HOST}), 80), pairing=pairing)
    with TestClient(app, base_url=BASE, follow_redirects=False) as opened:
        yield opened


def in_a_loop(work: Coroutine[Any, Any, None]) -> None:
    """Run what is asynchronous, in a thread: this one may have a loop already, a browser's."""
    with ThreadPoolExecutor(1) as threads:
        threads.submit(asyncio.run, work).result()


def hidden(page: Response, name: str) -> str:
    """A hidden field of the first form of a page."""
    found = re.search(rf'name="{name}" value="([^"]*)"', page.text)
    assert found is not None, f"the page has no {name}"
    return found[1]


def send(opened: TestClient, path: str, fields: Mapping[str, str], page: str = RACK, **headers: str) -> Response:
    """A form filled in on a page and sent."""
    shown = opened.get(page)
    data = {"token": hidden(shown, "token"), **fields}
    if "revision" not in data and 'name="revision"' in shown.text:
        data["revision"] = hidden(shown, "revision")
    answer: Response = opened.post(path, data=data, headers={"origin": BASE, **headers})
    return answer
