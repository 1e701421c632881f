"""A job of three hundred parts is worked on like any other; how quickly is measured in bench/workbench.py."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Page, expect

from fitwright.job import load_job
from fitwright.piece import build
from tests.browser.test_changing_dims import set_dim
from tests.many_parts import trellis

PARTS = 300
SLOWEST_MS = 600_000


def test_a_newer_change_of_three_hundred_parts_ends_the_one_before(page: Page, jobs: Path) -> None:
    file = jobs / "trellis" / "job.yaml"
    file.parent.mkdir()
    file.write_text(trellis(PARTS))
    assert len(build(load_job(file)).members) >= PARTS
    page.goto("/jobs/trellis")
    page.wait_for_selector("#canvas[data-drawn]", timeout=SLOWEST_MS)
    for height in ("1810", "1820", "1830"):
        set_dim(page, "height", height)
    expect(page.locator("#in-words")).to_contain_text("1830", timeout=SLOWEST_MS)
    drawn = page.get_attribute("#job", "data-revision")
    page.wait_for_selector(f"#canvas[data-drawn='{drawn}']", timeout=SLOWEST_MS)
    expect(page.locator("#findings-list .badges")).to_be_visible(timeout=SLOWEST_MS)
    assert load_job(file).dims["height"].text == "1830"
    assert page.get_attribute("#job", "data-revision") == drawn
