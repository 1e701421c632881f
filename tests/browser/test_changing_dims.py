"""A dim is changed: what follows shows at once, is kept, and survives what happens in a shop."""

from __future__ import annotations

import re
import time
from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from fitwright.job import load_job
from tests.browser.running import WAITS_MS, Server

RACK = "/jobs/drying-rack"


def open_rack(page: Page) -> None:
    """The drying rack's page, with its picture drawn."""
    page.goto(RACK)
    page.wait_for_selector("#canvas[data-drawn]")


def set_dim(page: Page, name: str, text: str) -> None:
    """Type a value and press Enter."""
    page.fill(f"#text-{name}", text)
    page.press(f"#text-{name}", "Enter")


def type_on(page: Page, name: str, text: str) -> str:
    """Type after what is there, and give what then stands there."""
    page.focus(f"#text-{name}")
    page.keyboard.press("End")
    page.keyboard.type(text)
    return page.input_value(f"#text-{name}")


def written(jobs: Path, name: str) -> str:
    """A dim as the file now has it."""
    return load_job(jobs / "drying-rack" / "job.yaml").dims[name].text


def expect_written(jobs: Path, name: str, text: str) -> None:
    """The file has a value, soon."""
    ends = time.monotonic() + 120
    while written(jobs, name) != text and time.monotonic() < ends:
        time.sleep(0.05)
    assert written(jobs, name) == text


def test_a_finding_changes_with_a_dim(page: Page, jobs: Path) -> None:
    open_rack(page)
    before = page.get_attribute("#canvas", "data-drawn")
    expect(page.locator("#findings")).not_to_contain_text("fails")
    set_dim(page, "width", "36 1/2")
    fails = page.locator(".finding.fails").first
    expect(fails).to_contain_text("gap on the")
    expect(page.locator("#value-width")).to_contain_text('36 1/2"')
    page.wait_for_selector(f"#canvas:not([data-drawn='{before}'])")
    expect_written(jobs, "width", "36 1/2")
    assert "# outside of the tubes" in (jobs / "drying-rack" / "job.yaml").read_text()


def test_steppers_move_by_the_shops_fraction(page: Page, jobs: Path) -> None:
    open_rack(page)
    for _ in range(3):
        page.click("#dim-width button[value=up]")
    expect(page.locator("#text-width")).to_have_value("31 11/16")
    expect_written(jobs, "width", "31 11/16")
    page.click("#dim-shelves button[value=down]")
    expect(page.locator("#text-shelves")).to_have_value("3")


def test_what_cannot_be_read_is_told_beside_the_dim_and_not_saved(page: Page, jobs: Path) -> None:
    open_rack(page)
    was = written(jobs, "width")
    set_dim(page, "width", "31 1/2 +")
    expect(page.locator("#dim-width .dim-said")).to_contain_text("Not saved")
    assert written(jobs, "width") == was
    expect(page.locator("#text-width")).to_have_value("31 1/2 +")


def test_nothing_is_lost_when_the_server_is_killed(page: Page, server: Server, jobs: Path) -> None:
    open_rack(page)
    set_dim(page, "height", "73")
    expect_written(jobs, "height", "73")
    server.kill()
    set_dim(page, "rail_height", "65")
    expect(page.locator("#saving")).to_contain_text("Not saved")
    server.start()
    expect(page.locator("#saving")).to_have_text("")
    expect_written(jobs, "rail_height", "65")
    page.reload()
    expect(page.locator("#text-height")).to_have_value("73")
    expect(page.locator("#text-rail_height")).to_have_value("65")


def test_half_typed_values_survive_a_reload(page: Page, jobs: Path) -> None:
    open_rack(page)
    typed = type_on(page, "depth", " + 1")
    page.reload()
    expect(page.locator("#text-depth")).to_have_value(typed)
    expect(page.locator("#dim-depth")).to_have_class(re.compile("dirty"))
    assert typed.endswith("+ 1")
    assert written(jobs, "depth") != typed


def test_two_devices_see_each_others_changes_and_conflicts_are_told(
    page: Page, browser: Browser, server: Server, jobs: Path
) -> None:
    other = browser.new_context(base_url=server.address).new_page()
    other.set_default_timeout(WAITS_MS)
    open_rack(page)
    open_rack(other)
    set_dim(page, "width", "31")
    expect(other.locator("#text-width")).to_have_value("31")
    type_on(other, "height", " - 2")
    set_dim(page, "height", "72")
    expect(other.locator("#value-height")).to_contain_text('72"')
    other.press("#text-height", "Enter")
    said = other.locator("#dim-height .dim-said")
    expect(said).to_contain_text("Not saved")
    expect(said).to_contain_text("72")
    expect(said).to_contain_text("74 - 2")
    assert written(jobs, "height") == "72"
    said.get_by_role("button", name="Use 74 - 2").click()
    expect_written(jobs, "height", "74 - 2")
    expect(page.locator("#text-height")).to_have_value("74 - 2")
    other.context.close()


def test_two_tabs_of_one_browser_keep_what_is_typed_in_each(page: Page, jobs: Path) -> None:
    """The store of drafts is shared between tabs: what one saves does not drop what the other has typed."""
    other = page.context.new_page()
    open_rack(page)
    open_rack(other)
    type_on(other, "width", " + 1")
    set_dim(page, "width", "31")
    expect(other.locator("#value-width")).to_contain_text('31"')
    expect(other.locator("#text-width")).to_have_value("31 1/2 + 1")
    other.press("#text-width", "Enter")
    expect(other.locator("#dim-width .dim-said")).to_contain_text("Not saved")
    assert written(jobs, "width") == "31"


def test_what_cannot_be_built_shows_no_sizes_of_what_was(page: Page) -> None:
    open_rack(page)
    expect(page.locator("#labels span").first).to_be_visible()
    set_dim(page, "width", "5")
    expect(page.locator("#findings")).to_contain_text("cannot be built")
    expect(page.locator("#canvas.old")).to_be_attached()
    expect(page.locator("#labels span").first).to_be_hidden()


def test_the_page_ends_where_its_contents_end(page: Page) -> None:
    """On a desk the dims scroll in a place of their own, and leave no empty screen below the piece."""
    open_rack(page)
    high = page.evaluate("document.documentElement.scrollHeight")
    assert high <= max(900, page.evaluate("document.querySelector('main').getBoundingClientRect().bottom")) + 1


def test_it_works_without_scripts(browser: Browser, server: Server, jobs: Path) -> None:
    context = browser.new_context(base_url=server.address, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{RACK}?whole=1")
    expect(page.locator(".finding").first).to_be_visible()
    set_dim(page, "width", "36 1/2")
    expect(page.locator(".finding.fails").first).to_contain_text("gap on the")
    assert written(jobs, "width") == "36 1/2"
    page.click("#dim-width button[value=down]")
    expect(page.locator("#text-width")).to_have_value("36 7/16")
    context.close()
