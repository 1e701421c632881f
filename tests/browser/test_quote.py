"""The quote and the alternatives in a browser: a margin shows at once, a point of the picture opens its job."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.browser.running import Server
from tests.stand import TEXT

if TYPE_CHECKING:
    from playwright.sync_api import Page

STAND = "/jobs/stand"
SLOWEST_MS = 600_000


@pytest.fixture
def jobs(tmp_path: Path) -> Path:
    """A folder with the stand, which is quickly worked out."""
    folder = tmp_path / "jobs" / "stand"
    folder.mkdir(parents=True)
    (folder / "job.yaml").write_text(TEXT, encoding="utf-8")
    return folder.parent


def price(page: Page) -> str:
    """The price with tax, as the shop's page says it."""
    found = re.search(r"([\d\s]+\.\d\d) with it", page.locator(".lead").inner_text())
    assert found is not None
    return found[1]


def test_another_margin_is_another_price_at_once(page: Page) -> None:
    from playwright.sync_api import expect

    page.goto(f"{STAND}/quote/shop")
    page.wait_for_selector("table.sums", timeout=SLOWEST_MS)
    before = price(page)
    page.fill("#margin", "40 %")
    page.click("text=Set it")
    expect(page.locator("#said")).to_have_text(re.compile("margin is now 40 %"))
    expect(page.locator("tr.own th")).to_contain_text("40 %", timeout=SLOWEST_MS)
    assert price(page) != before


def test_the_paper_of_the_quote_is_a_picture_with_words(page: Page, server: Server) -> None:
    page.goto(f"{STAND}/quote")
    paper = page.locator(".quote-paper img")
    paper.wait_for(timeout=SLOWEST_MS)
    assert paper.evaluate("(one) => one.decode().then(() => one.naturalWidth)") > 300
    assert "text is in the PDF" in (paper.get_attribute("alt") or "")
    with page.expect_response("**/quote.pdf") as answer:
        page.evaluate("fetch(document.querySelector('a.main').href)")
    assert answer.value.headers["content-type"] == "application/pdf"
    page.click("text=What it costs")
    page.wait_for_url("**/quote/shop")


def test_a_point_of_the_picture_opens_its_job(page: Page, jobs: Path) -> None:
    page.goto(f"{STAND}/alternatives")
    page.wait_for_selector(".picture", timeout=SLOWEST_MS, state="attached")
    page.wait_for_selector("#tried-so-far", timeout=SLOWEST_MS, state="detached")
    point = page.locator('.on-desk svg a[href$="/alternatives/1"]')
    point.locator("circle").last.click(force=True)
    page.wait_for_url("**/alternatives/*")
    page.click("text=Make a copy with this")
    page.wait_for_url(re.compile(r"/jobs/stand(%20| )-"))
    assert len([folder for folder in jobs.iterdir() if folder.name.startswith("stand -")]) == 1


def test_on_a_telephone_the_picture_is_drawn_for_it(page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(f"{STAND}/alternatives")
    page.wait_for_selector(".on-telephone svg", timeout=SLOWEST_MS)
    assert not page.locator(".on-desk").is_visible()
    letters = page.locator(".on-telephone svg text").last.bounding_box()
    assert letters is not None
    assert letters["height"] >= 10
