"""The way in, played: step by step, with the slider, by itself; and with an obstacle made narrower."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import Page, expect

PAGE = "/jobs/workbench/way-in"
CORNER = 3
SLOWEST_MS = 600_000


def test_a_corner_is_played_step_by_step(page: Page) -> None:
    page.goto(PAGE)
    leg = page.locator(".way-leg").nth(CORNER)
    expect(leg).to_be_visible(timeout=SLOWEST_MS)
    picture, said = leg.locator("img"), leg.locator("output")
    before = picture.get_attribute("src")
    leg.get_by_text("on ›").click()
    expect(picture).not_to_have_attribute("src", before or "")
    assert picture.evaluate("async (one) => { await one.decode(); return one.naturalWidth > 0; }")
    leg.get_by_label(re.compile("Step through")).fill("0")
    expect(said).to_have_text("step 1 of 13")
    leg.get_by_text("‹ back").click()
    expect(said).to_have_text("step 1 of 13")
    leg.get_by_role("button", name=re.compile("Play")).click()
    expect(said).to_have_text("step 13 of 13", timeout=SLOWEST_MS)


def test_a_narrower_door_answers_anew(page: Page, jobs: Path) -> None:
    page.goto(PAGE)
    expect(page.locator(".way-verdict")).to_contain_text("it gets there", timeout=SLOWEST_MS)
    page.get_by_text("5. club door").click()
    page.locator("#obstacle-4-width").fill("25")
    page.get_by_role("button", name="Change club door").click()
    expect(page.locator(".way-verdict")).to_contain_text("does not", timeout=SLOWEST_MS)
    assert re.search(r"club door\n\s+width: 25\n", (jobs / "workbench" / "job.yaml").read_text(encoding="utf-8"))
