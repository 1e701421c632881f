"""What was computed for an earlier state of a job never shows beside, or over, what follows from the newest one."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, Route, expect

from tests.browser.test_changing_dims import RACK, expect_written, open_rack, set_dim

LONGER = re.compile(r"/findings/longer")
FINDINGS = re.compile(r"/findings$")
DIMS = re.compile(r"/dims$")
SOON_MS = 3_000
PROGRESS = (
    f'<div id="early" hx-get="{RACK}/findings/longer" hx-trigger="load delay:600ms" hx-swap="innerHTML">3 %</div>'
)
"""How far the earlier state's findings are, as the server tells it."""


def until(page: Page, so: Callable[[], object], at_most_ms: int = 60_000) -> bool:
    """Let the page go on until something is so."""
    for _ in range(at_most_ms // 20):
        if so():
            return True
        page.wait_for_timeout(20)
    return False


def held(page: Page, address: re.Pattern[str]) -> list[Route]:
    """Requests to an address from now on, each held back until it is let go."""
    found: list[Route] = []
    page.route(address, lambda route: found.append(route))
    return found


def test_a_poll_of_the_earlier_state_does_not_stop_the_newer_findings(page: Page, jobs: Path) -> None:
    """The poll for what takes longer begins while the newer findings are on their way."""
    polls = held(page, LONGER)
    open_rack(page)
    assert until(page, lambda: polls)
    dims, lists = held(page, DIMS), held(page, FINDINGS)
    set_dim(page, "width", "36 1/2")
    assert until(page, lambda: dims)
    accepted = dims[0].fetch()
    polls[0].fulfill(body=PROGRESS, content_type="text/html")
    page.wait_for_selector("#early")
    dims[0].fulfill(response=accepted)
    assert until(page, lambda: lists)
    until(page, lambda: len(polls) > 1, SOON_MS)
    page.unroute(FINDINGS)
    lists[-1].continue_()
    expect(page.locator(".finding.fails").first).to_contain_text("gap on the")
    expect_written(jobs, "width", "36 1/2")


def test_an_answer_of_the_earlier_state_that_comes_late_is_dropped(page: Page) -> None:
    """What was computed before the change is sent as the answer to a request made after it."""
    polls = held(page, LONGER)
    open_rack(page)
    assert until(page, lambda: polls)
    early = page.request.get(f"{RACK}/findings")
    set_dim(page, "width", "36 1/2")
    fails = page.locator(".finding.fails").first
    expect(fails).to_contain_text("gap on the")
    assert until(page, lambda: len(polls) > 1)
    polls[-1].fulfill(headers={**early.headers, "hx-retarget": "#findings-list"}, body=early.text())
    page.wait_for_timeout(SOON_MS / 6)
    expect(fails).to_contain_text("gap on the")
