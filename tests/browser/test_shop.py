"""The shop's pages with records in them: the rack, trials with their picture, two people at once, no scripts."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from fitwright.shop.records import Hours, OnHand, Quoted, Where, open_records
from tests.browser.running import Server
from tests.browser.test_looking import AXE, PICTURES, TAGS, TARGETS, WIDTHS, told
from tests.demos import EXAMPLES
from tests.unit.shop.records.samples import DAY, OFFCUT, TUBE
from tests.unit.shop.records.samples import TRIAL as SAMPLE

DIE = "/shop/dies/of?die=1+1%2F8+x+4&stock=round+tube+1+1%2F8+x+14+ga"
TRIAL = replace(SAMPLE, day=date(2026, 1, 5))  # what is kept in these tests is of a later day
FILLED = {"shop": "/shop", "stock": "/shop/stock", "dies": "/shop/dies", "die": DIE, "hours": "/shop/hours",
          "quotes": "/shop/quotes"}  # fmt: skip


@pytest.fixture
def place(tmp_path: Path) -> Where:
    """Records with something of each kind that is shown."""
    file = tmp_path / "records" / "records.db"
    with open_records(Where(file)) as records:
        records.add_all([replace(TRIAL, got_deg=got) for got in (85.8, 85.6, 86.0)])
        records.add_all(
            [replace(TRIAL, asked_deg=60, got_deg=57.4, heat="H1"), replace(TRIAL, got_deg=80, left_out=True)]
        )
        records.add(OFFCUT)
        records.add(Hours(DAY, "Drying rack", "bend A1", "bend", 1.25, 1, 0.75))
        records.add(Quoted(DAY, "Drying rack", Decimal("2745.00"), "USD", cost=Decimal("2190.50")))
    return Where(file)


@pytest.fixture
def server(tmp_path: Path, place: Where) -> Iterator[Server]:
    """A server of a shop with records."""
    shutil.copytree(EXAMPLES / "drying-rack", tmp_path / "jobs" / "drying-rack")
    started = Server(tmp_path / "jobs", ("--records", str(place.file))).start()
    yield started
    started.kill()


def test_filled_pages_have_no_barrier_and_fit_every_width(page: Page) -> None:
    PICTURES.mkdir(exist_ok=True)
    for name, path in FILLED.items():
        page.set_viewport_size({"width": 1440, "height": 900})
        page.goto(path)
        page.evaluate(AXE.read_text(encoding="utf-8"))
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            found = page.evaluate("(tags) => axe.run({runOnly: tags})", TAGS)
            assert [told(one) for one in found["violations"]] == [], (name, scheme)
        for width, height in WIDTHS.items():
            page.set_viewport_size({"width": width, "height": height})
            assert page.evaluate("document.documentElement.scrollWidth") <= width, (name, width)
            assert page.evaluate(TARGETS) == [], (name, width)
            page.screenshot(path=PICTURES / f"shop-filled-{name}-{width}.png")


def test_a_trial_moves_the_picture(page: Page) -> None:
    page.goto(DIE)
    expect(page.locator(".answer")).to_contain_text("from 4 trials on this die")
    expect(page.locator(".springback .trial")).to_have_count(4)
    expect(page.locator(".springback .left-out")).to_have_count(1)
    page.get_by_role("link", name="Keep another trial").click()
    expect(page.locator("#trial-die")).to_have_value("1 1/8 x 4")
    expect(page.locator("#trial-stock")).to_have_value(TUBE)
    page.fill("#trial-asked", "120")
    page.fill("#trial-got", "114.4")
    page.fill("#trial-heat", "H7431")
    page.get_by_role("button", name="Keep the trial").click()
    expect(page.locator(".springback .trial")).to_have_count(5)
    page.get_by_role("button", name="Leave out trial 6").click()
    expect(page.locator(".springback .left-out")).to_have_count(2)


def test_the_second_of_two_devices_is_told_and_loses_nothing(browser: Browser, server: Server, place: Where) -> None:
    context = browser.new_context(base_url=server.address)
    one, other = context.new_page(), context.new_page()
    for device in (one, other):
        device.goto("/shop/stock")
        device.locator("summary", has_text="Change").first.click()
    one.fill("#stock-1-count", "1")
    one.get_by_role("button", name="Keep the change").click()
    one.wait_for_url("**/shop/stock")
    other.fill("#stock-1-place", "bin by the door")
    other.get_by_role("button", name="Keep the change").click()
    expect(other.locator("[role=alert]")).to_contain_text("count is now 1, you wrote 2")
    expect(other.locator("[role=alert]")).to_contain_text("you wrote bin by the door")
    with open_records(place) as records:
        assert records.all(OnHand) == (replace(OFFCUT, count=1, id=1, version=2),)
    context.close()


def test_it_works_without_scripts(browser: Browser, server: Server, place: Where) -> None:
    context = browser.new_context(base_url=server.address, java_script_enabled=False)
    page = context.new_page()
    page.goto("/")
    page.get_by_role("link", name="Shop").click()
    page.get_by_role("link", name="Stock").click()
    page.fill("#new-label", TUBE)
    page.fill("#new-length", "5'")
    page.get_by_role("button", name="Put it on the rack").click()
    expect(page.locator(".rack")).to_contain_text('60"')
    page.select_option("#built-job", "drying-rack")
    page.get_by_role("button", name="Take its bars off").click()
    expect(page.locator(".good")).to_contain_text("On the rack:", timeout=600_000)
    page.goto("/shop/quotes")
    page.select_option("#state-1", "accepted")
    page.get_by_role("button", name="Keep Drying rack").click()
    expect(page.locator("main")).to_contain_text("1 of 1 that were decided were accepted")
    context.close()
