"""The build followed at the bench: ticks, timers that survive, readings, and sheets that print at true size."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Browser, Page, expect
from pypdf import PdfReader

from fitwright.job import load_job
from tests.browser.running import Server
from tests.unit.sheets.packet.printing import DPI, MM, read, ruler_row, ticks

RACK = "/jobs/drying-rack"
SLOWEST_MS = 600_000
WITHIN_MM = 0.1


def open_steps(page: Page) -> None:
    page.goto(f"{RACK}/steps")
    page.wait_for_selector(".step-card", timeout=SLOWEST_MS)


def card(page: Page, title: str) -> str:
    """The address of the card with a title."""
    shown = page.locator(".step-card", has=page.locator(".step-title", has_text=re.compile(f"^{title}")))
    return f"#{shown.first.get_attribute('id')}"


def opened(page: Page, title: str) -> str:
    place = card(page, title)
    if page.locator(f"{place} > details[open]").count() == 0:
        page.locator(f"{place} > details > summary").click()
    return place


def test_a_step_is_timed_read_and_ticked_off_and_all_of_it_stays(page: Page, server: Server, jobs: Path) -> None:
    open_steps(page)
    place = opened(page, "Bend A1")
    page.locator(f"{place} .timing").click()
    expect(page.locator(f"{place} .timing")).to_have_text(re.compile("Stop the timer: 0:00:0[1-9]"))
    page.locator(f"{place} input[name=is]").first.fill("91.2")
    page.locator(f"{place} form.reading button", has_text="Keep").first.click()
    expect(page.locator(f"{place} .read").first).to_contain_text("91.2")
    other = opened(page, "Weld")  # neither next nor under way: opened by hand, it stays open
    page.locator(f"{other} input[name=is]").first.fill("31 1/2")
    page.locator(f"{other} form.reading button", has_text="Keep").first.click()
    expect(page.locator(f"{other} .read").first).to_be_visible()
    server.kill()  # the machine goes off while the timer runs
    server.start()
    page.reload()
    page.wait_for_selector(".step-card", timeout=SLOWEST_MS)
    expect(page.locator(f"{place} .timing")).to_have_text(re.compile("Stop the timer"))
    page.locator(f"{place} button.done").click()
    expect(page.locator(f"{place}.done")).to_be_visible()
    job = load_job(jobs / "drying-rack" / "job.yaml")
    (kept,) = [one for one in job.progress if one.step == "bend A1"]
    assert kept.done is not None
    assert kept.since is None
    assert kept.hours is not None
    assert kept.hours > 0
    assert [str(reading.of) for reading in job.readings][:1] == ["bend 1 of hoop 1"]
    assert len(job.readings) == 2


def test_the_next_step_comes_to_the_top_when_one_is_done(page: Page) -> None:
    """A second tap on the same spot of the glass must not tick the step after it."""
    open_steps(page)
    place = opened(page, "Buy")
    button = page.locator(f"{place} button.done")
    button.scroll_into_view_if_needed()
    spot = button.bounding_box()
    assert spot is not None
    button.click()
    expect(page.locator(f"{place}.done")).to_be_visible()
    expect(page.locator("#step-2 > details > summary")).to_be_focused()
    expect(page.locator("#step-2 > details")).to_have_attribute("open", "")
    top = page.locator("#step-2").bounding_box()
    assert top is not None
    assert 0 <= top["y"] < 200
    page.mouse.click(spot["x"] + spot["width"] / 2, spot["y"] + spot["height"] / 2)
    page.wait_for_timeout(1500)
    expect(page.locator(".standing strong").first).to_contain_text("1 of")


def test_one_person_works_on_one_step_and_another_device_follows(page: Page, browser: Browser, server: Server) -> None:
    open_steps(page)
    other = browser.new_context(base_url=server.address).new_page()
    other.goto(f"{RACK}/steps")
    other.wait_for_selector(".step-card", timeout=SLOWEST_MS)
    first, second = opened(page, "Buy"), opened(page, "Trial bend")
    page.locator(f"{first} .timing").click()
    expect(page.locator(f"{first} .timing")).to_contain_text("Stop")
    if page.locator(f"{second} > details[open]").count() == 0:
        page.locator(f"{second} > details > summary").click()
    page.locator(f"{second} .timing").click()
    expect(page.locator(f"{second} .timing")).to_contain_text("Stop")
    expect(page.locator(f"{first} .timing")).to_contain_text("Start")
    expect(other.locator(".next")).to_contain_text("Trial bend")
    other.context.close()


def test_what_waits_for_paint_is_told_with_the_hour(page: Page) -> None:
    open_steps(page)
    for title in ("Clean and degrease", "Prime the metal"):
        place = opened(page, title)
        page.locator(f"{place} button.done").click()
        expect(page.locator(f"{place}.done")).to_be_visible()
    expect(page.locator(".standing")).to_contain_text(
        re.compile(r"Paint the metal.*waits until \w{3} \d\d \w{3} \d\d:\d\d")
    )


def test_a_wrong_reading_is_told_where_it_was_written(page: Page, jobs: Path) -> None:
    open_steps(page)
    before = (jobs / "drying-rack" / "job.yaml").read_bytes()
    place = opened(page, "Bend A1")
    page.locator(f"{place} input[name=is]").first.fill("wide")
    page.locator(f"{place} form.reading button", has_text="Keep").first.click()
    expect(page.locator("#follow [role=alert]")).to_contain_text("is not an angle")
    assert (jobs / "drying-rack" / "job.yaml").read_bytes() == before
    expect(page.locator("#follow [role=alert]")).to_be_in_viewport()
    expect(page.locator(f"{place} > details[open]")).to_be_visible()


def test_it_is_followed_without_scripts(browser: Browser, server: Server, jobs: Path) -> None:
    context = browser.new_context(java_script_enabled=False, base_url=server.address)
    plain = context.new_page()
    plain.goto(f"{RACK}/steps?whole=1", timeout=SLOWEST_MS)
    plain.locator("#step-1 button.done").click()
    expect(plain.locator("#step-1.done")).to_be_visible()
    assert [one.step for one in load_job(jobs / "drying-rack" / "job.yaml").progress] == ["buy"]
    context.close()


def test_a_template_prints_from_the_browser_at_true_size(page: Page, tmp_path: Path) -> None:
    """The check ruler on the printed page against its own figure, at 600 dpi."""
    page.goto(f"{RACK}/making?trade=templates")
    page.wait_for_selector(".paper img", timeout=SLOWEST_MS)
    page.wait_for_function("[...document.images].every((one) => one.complete && one.naturalWidth)")
    page.pdf(path=str(tmp_path / "printed.pdf"), prefer_css_page_size=True, print_background=True)
    printed = PdfReader(tmp_path / "printed.pdf")
    assert len(printed.pages) == page.locator(".paper").count()
    assert [round(float(side)) for side in printed.pages[0].mediabox[2:]] == [612, 792]
    subprocess.run(
        ["pdftoppm", "-r", str(DPI), "-gray", "-f", "1", "-l", "1", str(tmp_path / "printed.pdf"), str(tmp_path / "p")],
        check=True, timeout=600,
    )  # fmt: skip
    grey = read(next(tmp_path.glob("p*.pgm")))
    assert grey.shape == pytest.approx((11 * DPI, 8.5 * DPI), abs=1)
    row = ruler_row(grey)
    millimetres = ticks(grey[row - round(2.0 / MM)], 151)
    assert np.abs(millimetres - millimetres[0] - np.arange(151)).max() < WITHIN_MM
    sixteenths = ticks(grey[row + round(2.0 / MM)], 97)
    assert np.abs(sixteenths - sixteenths[0] - np.arange(97) * 25.4 / 16).max() < WITHIN_MM
