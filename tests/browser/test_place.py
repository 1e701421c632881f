"""The survey of the place in a browser: entered on its diagrams, kept in the job file, drawn again."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from fitwright.job import load_job
from tests.browser.running import Server

RACK = "/jobs/drying-rack"


def test_a_width_on_the_elevation_goes_into_the_file_and_the_picture_follows(page: Page, jobs: Path) -> None:
    page.goto(f"{RACK}/place")
    picture = page.locator(".in-place img").first
    expect(picture).to_be_visible()
    before = picture.get_attribute("src")
    field = page.get_by_label("width at the floor")
    expect(field).to_have_value("36 11/16")
    field.fill("37")
    page.get_by_role("button", name="Keep the measures").click()
    expect(page.locator(".in-place img").first).not_to_have_attribute("src", before or "")
    opening = load_job(jobs / "drying-rack" / "job.yaml").space.opening
    assert opening is not None
    assert opening.widths[0][1] == 37 * 25.4
    text = (jobs / "drying-rack" / "job.yaml").read_text(encoding="utf-8")
    assert "# at the floor, half way up, at the top" in text


def test_a_wrong_length_is_told_and_what_was_typed_stays(page: Page) -> None:
    page.goto(f"{RACK}/place")
    page.get_by_label("width half way up").fill("about a yard")
    page.get_by_role("button", name="Keep the measures").click()
    expect(page.get_by_role("alert")).to_contain_text("Not saved")
    expect(page.get_by_label("width half way up")).to_have_value("about a yard")


def test_a_pipe_is_added_and_its_gap_is_told(page: Page) -> None:
    page.goto(f"{RACK}/place")
    page.get_by_text("Add a thing in the room").click()
    form = page.locator("form", has=page.locator('input[value="thing in the room"]')).last
    form.get_by_label("name").fill("pipe")
    for label, value in {
        "one corner: from the left": "0", "one corner: from the front": "29", "one corner: up": "50",
        "other corner: from the left": "1", "other corner: from the front": "30", "other corner: up": "52",
    }.items():  # fmt: skip
        form.get_by_label(label).fill(value)
    form.get_by_role("button", name="Add it").click()
    expect(page.locator("#drawn")).to_contain_text("gap to the pipe")


def test_it_works_without_scripts(browser: Browser, standing: Server) -> None:
    context = browser.new_context(base_url=standing.address, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{RACK}/place?whole=1")
    expect(page.locator(".in-place img").first).to_be_visible()
    page.get_by_label("free floor before the opening").fill("61")
    page.get_by_role("button", name="Keep these").click()
    expect(page.get_by_label("free floor before the opening")).to_have_value("61")
    context.close()
