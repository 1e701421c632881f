"""A tablet falls asleep in a pocket and is woken: what is typed is still there, and the page reads again by itself."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from playwright.sync_api import CDPSession, Page, expect

from tests.browser.running import Server
from tests.browser.test_changing_dims import expect_written, open_rack, set_dim, type_on, written

A_NAP, A_MINUTE = 3.0, 60.0


def asleep(page: Page) -> CDPSession:
    """The screen goes dark, and then the whole page is stopped, timers and connections too."""
    seen(page, False)
    session = page.context.new_cdp_session(page)
    session.send("Page.setWebLifecycleState", {"state": "frozen"})
    return session


def awake(page: Page, session: CDPSession) -> None:
    """The page goes on, and the screen is lit."""
    session.send("Page.setWebLifecycleState", {"state": "active"})
    session.detach()
    seen(page, True)


def seen(page: Page, so: bool) -> None:
    """Headless pages are always seen, so that the page has to be told."""
    hidden = "false" if so else "true"
    page.evaluate(f"Object.defineProperty(document, 'hidden', {{value: {hidden}, configurable: true}})")
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")


@pytest.mark.parametrize("seconds", [A_NAP, pytest.param(A_MINUTE, marks=pytest.mark.nightly)])
def test_a_tablet_that_slept_reads_again(page: Page, server: Server, jobs: Path, seconds: float) -> None:
    """While it sleeps the server is started anew and the job is changed elsewhere."""
    open_rack(page)
    typed = type_on(page, "depth", "1")
    session = asleep(page)
    server.kill()
    file = jobs / "drying-rack" / "job.yaml"
    file.write_text(file.read_text().replace("\n  height: 74", "\n  height: 70"))
    assert written(jobs, "height") == "70"
    server.start()
    time.sleep(seconds)
    awake(page, session)
    expect(page.locator("#text-height")).to_have_value("70")
    expect(page.locator("#text-depth")).to_have_value(typed)
    expect(page.locator("#in-words")).to_contain_text('70" high')
    set_dim(page, "width", "31")
    expect_written(jobs, "width", "31")


def test_what_was_sent_when_it_fell_asleep_is_saved_when_it_wakes(page: Page, server: Server, jobs: Path) -> None:
    open_rack(page)
    server.kill()
    set_dim(page, "height", "72")
    expect(page.locator("#saving")).to_contain_text("Not saved")
    session = asleep(page)
    server.start()
    time.sleep(A_NAP)
    awake(page, session)
    expect(page.locator("#saving")).to_have_text("")
    expect_written(jobs, "height", "72")
