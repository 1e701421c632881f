"""Readings in a browser: entered at the thing that is asked for, kept in the job file, what follows shown at once."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from fitwright.job import load_job
from tests.browser.running import Server
from tests.browser.test_looking import barriers

RACK = "/jobs/drying-rack"


def keep(page: Page, of: str, value: str) -> None:
    expect(page.get_by_role("heading", name="Write down what is read")).to_be_visible()
    field = page.get_by_label(of, exact=True)
    if not field.is_visible():
        page.locator("details.moment", has=page.locator(f'input[name="of"][value="{of}"]')).locator("summary").click()
    field.fill(value)
    field.press("Enter")


def test_a_bend_that_is_over_is_kept_and_its_correction_drawn(page: Page, jobs: Path) -> None:
    page.goto(f"{RACK}/readings")
    keep(page, "bend 1 of hoop 1", "91.2")
    expect(page.get_by_text("Open bend 1 of hoop 1 by")).to_be_visible()
    expect(page.locator(".corrections img")).to_be_visible()
    text = (jobs / "drying-rack" / "job.yaml").read_text(encoding="utf-8")
    assert "of: bend 1 of hoop 1, is: 91.2" in text
    assert "# outside of the tubes" in text
    expect(page.locator("#changed")).to_contain_text("bend to")
    assert barriers(page) == []
    field = page.get_by_label("bend 1 of hoop 1", exact=True)
    expect(field).to_have_value("")
    page.reload()
    expect(page.get_by_text("Open bend 1 of hoop 1 by")).to_be_visible()
    expect(field).to_have_value("")


def test_a_word_that_is_no_reading_is_told_with_the_nearest_and_what_was_typed_stays(page: Page) -> None:
    page.goto(f"{RACK}/readings")
    page.get_by_text("Anything else").click()
    page.get_by_label("What is measured").fill("wdth of the piece")
    page.get_by_label("It reads").fill("31")
    page.locator(".any-reading").get_by_role("button", name="Keep").click()
    expect(page.get_by_role("alert")).to_contain_text("is not something that is read")
    expect(page.get_by_label("It reads")).to_have_value("31")


def test_a_reading_is_taken_out_again(page: Page, jobs: Path) -> None:
    page.goto(f"{RACK}/readings")
    keep(page, "cut length of B1", "24 1/4")
    expect(page.get_by_text("Questioned: read again")).to_be_visible()
    page.get_by_role("button", name="Take out: cut length of B1").click()
    expect(page.get_by_text("Questioned: read again")).to_have_count(0)
    assert load_job(jobs / "drying-rack" / "job.yaml").readings == ()


def test_it_works_without_scripts(browser: Browser, server: Server, jobs: Path) -> None:
    context = browser.new_context(base_url=server.address, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{RACK}/readings?whole=1")
    page.locator("details.moment", has_text="Bent: hoop 1").locator("summary").click()
    page.get_by_label("bend 2 of hoop 1", exact=True).fill("91")
    page.get_by_label("bend 2 of hoop 1", exact=True).press("Enter")
    expect(page.get_by_text("Open bend 2 of hoop 1 by")).to_be_visible()
    assert len(load_job(jobs / "drying-rack" / "job.yaml").readings) == 1
    context.close()
