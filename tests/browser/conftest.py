"""Servers and browsers for the tests of this folder."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.browser.running import CHROMIUM, FLAGS, WAITS_MS, Server
from tests.demos import EXAMPLES

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

WITHOUT = "Debian's chromium is not installed: apt-get install chromium (make setup does it for root)"
SCREEN = {"width": 1440, "height": 900}


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One headless Chromium; where it cannot be had the test is skipped, in CI it fails."""
    if CHROMIUM is None:
        if os.environ.get("CI") or os.environ.get("FITWRIGHT_BROWSER") == "required":
            pytest.fail(WITHOUT)
        pytest.skip(WITHOUT)
    from playwright.sync_api import expect, sync_playwright

    expect.set_options(timeout=WAITS_MS)
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        yield launched
        launched.close()


@pytest.fixture
def jobs(tmp_path: Path) -> Path:
    """A folder with the demo jobs."""
    folder = tmp_path / "jobs"
    shutil.copytree(EXAMPLES, folder)
    return folder


@pytest.fixture
def server(jobs: Path) -> Iterator[Server]:
    """A server on the demo jobs."""
    started = Server(jobs).start()
    yield started
    started.kill()


@pytest.fixture(scope="session")
def standing(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """One server for all tests that only look."""
    folder = tmp_path_factory.mktemp("looked-at") / "jobs"
    shutil.copytree(EXAMPLES, folder)
    started = Server(folder).start()
    yield started
    started.kill()


@pytest.fixture
def page(browser: Browser, server: Server) -> Iterator[Page]:
    """A page of a device of its own; what goes wrong on it, or is asked of another machine, fails the test."""
    context = browser.new_context(viewport=SCREEN, base_url=server.address)  # type: ignore[arg-type]
    context.set_default_timeout(WAITS_MS)
    opened = context.new_page()
    wrong: list[str] = []
    opened.on("pageerror", lambda error: wrong.append(str(error)))
    opened.on("console", lambda said: wrong.append(said.text) if "Content Security Policy" in said.text else None)
    opened.on("request", lambda asked: None if asked.url.startswith(server.address) else wrong.append(asked.url))
    yield opened
    context.close()
    assert wrong == []
