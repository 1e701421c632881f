"""The photo's page in a browser: marks moved by mouse, finger and keys, new ones tapped, the piece laid over it."""

from __future__ import annotations

import re
import time
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Browser, Page, expect

from tests.browser.running import Server

PHOTO = "/jobs/drying-rack/photo"
SPOT = "#photo-overlay [data-spot='{}']"


def opened(page: Page) -> Page:
    """The page, ready to be marked on."""
    page.goto(PHOTO)
    page.wait_for_selector("html[data-photo]")
    return page


def text_of(jobs: Path) -> str:
    """The job file as it now is."""
    return (jobs / "drying-rack" / "job.yaml").read_text(encoding="utf-8")


def soon(jobs: Path, pattern: str) -> str:
    """What the file has, once it has it."""
    ends = time.monotonic() + 120
    while not (found := re.search(pattern, text_of(jobs))) and time.monotonic() < ends:
        time.sleep(0.05)
    assert found is not None, f"the file never had {pattern}"
    return found[0]


def middle(page: Page, spot: str) -> tuple[float, float]:
    """Where a mark is on the screen."""
    box = page.locator(SPOT.format(spot)).bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_a_mark_is_dragged_and_everything_follows(page: Page, jobs: Path) -> None:
    opened(page)
    uprights = page.locator("#photo-results tr", has_text="uprights")
    before = uprights.inner_text()
    x, y = middle(page, "left middle")
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x - 12, y, steps=4)
    expect(page.locator("#photo-lens")).to_be_visible()
    expect(uprights).not_to_have_text(before)
    page.mouse.up()
    expect(page.locator("#photo-lens")).to_be_hidden()
    soon(jobs, r"left middle: \[2[4-7]\d\.?\d*, 61\d")
    assert "# to lay the new rack over it" in text_of(jobs)
    assert "# marked with the magnifier" in text_of(jobs)


def test_keys_move_a_mark_by_a_pixel_or_a_tenth_and_it_is_taken_back(page: Page, jobs: Path) -> None:
    opened(page)
    page.select_option("#photo-spot", "left top")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Shift+ArrowUp")
    expect(page.locator("#photo-said")).to_have_text("left top: 274.8, 307.7 px")
    soon(jobs, r"left top: \[274\.8, 307\.7\]")
    page.get_by_role("button", name="Take the last change back").click()
    soon(jobs, r"left top: \[272\.8, 307\.8\]")
    expect(page.locator(SPOT.format("left top"))).to_have_attribute("cx", "272.80")
    page.focus("#photo")
    page.keyboard.press("PageDown")
    expect(page.locator("#photo-said")).to_contain_text("right foot")


def test_an_edge_is_tapped(page: Page, jobs: Path) -> None:
    opened(page)
    page.get_by_label("Direction").first.select_option("z")
    page.locator("[data-tap='edge-spots']").click()
    expect(page.locator("[data-tap='edge-spots']")).to_have_attribute("aria-pressed", "true")
    for count, down in enumerate((60, 140), 1):
        x, y = middle(page, "back middle")
        page.mouse.click(x + 40, y + down)
        expect(page.locator("#photo-new .new")).to_have_count(count)
    tapped = page.input_value("#edge-spots")
    page.locator("[data-snap='edge-spots']").click()
    expect(page.locator("#edge-spots")).not_to_have_value(tapped)
    page.get_by_role("button", name="Mark the edge").click()
    soon(jobs, r"\{along: z, marks: \[\[\d+\.?\d*, \d+\.?\d*\], \[\d+\.?\d*, \d+\.?\d*\]\], snap: true\}")
    expect(page.locator("#edge-spots")).to_have_value("")


def test_a_measure_is_tapped_on_marks_that_are_there(page: Page, jobs: Path) -> None:
    opened(page)
    page.locator("summary", has_text="A measure").click()
    page.fill("#measure-name", "over all")
    page.select_option("#measure-kind", "straight")
    page.locator("[data-tap='measure-spots']").click()
    for spot in ("left foot", "back middle"):
        page.mouse.click(*middle(page, spot))
    expect(page.locator("#measure-spots")).to_have_value("left foot; back middle")
    page.get_by_role("button", name="Measure it").click()
    expect(page.locator("#photo-results tr", has_text="over all")).to_contain_text("±")
    soon(jobs, r"over all: \{from: left foot, to: back middle\}")


def test_a_length_that_cannot_be_read_is_told_and_what_was_typed_stays(page: Page) -> None:
    opened(page)
    page.locator("summary", has_text="A known length").click()
    page.fill("#known-name", "door")
    page.fill("#known-spots", "joint 3; joint 27")
    page.fill("#known-is", "quite long")
    page.get_by_role("button", name="Keep the known length").click()
    expect(page.get_by_role("alert")).to_contain_text("quite")
    expect(page.locator("#known-is")).to_have_value("quite long")


def test_the_piece_is_laid_over_the_photo(page: Page) -> None:
    opened(page)
    over = page.locator("#photo-over")
    expect(over).to_be_hidden()
    with page.expect_response(re.compile(r"piece\.svg\?size=old")) as answer:
        page.get_by_role("button", name="Piece, old size").click()
    assert answer.value.status == 200
    expect(over).to_be_visible()
    page.get_by_role("button", name="Piece, own size").click()
    expect(over).to_have_attribute("href", re.compile("size=own"))


def test_the_picture_comes_nearer_and_marks_keep_their_size(page: Page) -> None:
    opened(page)
    width = page.locator(SPOT.format("bar 2")).bounding_box()
    page.focus("#photo")
    for _ in range(4):
        page.keyboard.press("+")
    assert float((page.get_attribute("#photo", "viewBox") or "").split()[2]) < 300
    nearer = page.locator(SPOT.format("bar 2")).bounding_box()
    assert width is not None
    assert nearer is not None
    assert nearer["width"] == pytest.approx(width["width"], rel=0.1)
    page.get_by_role("button", name="Whole").click()
    expect(page.locator("#photo")).to_have_attribute("viewBox", "0 0 1080 1440")


def test_a_dim_is_taken_from_the_photo(page: Page, jobs: Path) -> None:
    file = jobs / "drying-rack" / "job.yaml"
    file.write_text(text_of(jobs).replace("  height: 74 ", "  height: 70 "))
    opened(page)
    page.get_by_role("button", name='Take 74"').click()
    soon(jobs, r"  height: 74\S* .*# the photo")
    expect(page.locator("#photo-results tr", has_text="height").last).to_contain_text("✓")


def test_a_picture_is_sent_and_a_broken_one_refused(page: Page, jobs: Path, tmp_path: Path) -> None:
    good, bad = tmp_path / "Old Rail.png", tmp_path / "bad.jpg"
    Image.fromarray(np.tile(np.arange(256, dtype=np.uint8), (200, 2))).save(good)
    bad.write_bytes(b"\xff\xd8\xff\xe0 this is not a picture")
    page.goto("/jobs/coat-rail/photo")
    page.set_input_files("#picture", bad)
    page.get_by_role("button", name="Take this picture").click()
    expect(page.locator("main")).to_contain_text(re.compile("broken|not a picture"))
    page.goto("/jobs/coat-rail/photo")
    page.set_input_files("#picture", good)
    page.get_by_role("button", name="Take this picture").click()
    expect(page.locator("#photo")).to_be_visible()
    assert (jobs / "coat-rail" / "photos" / "old-rail.png").exists()


def test_it_works_without_scripts(browser: Browser, server: Server, jobs: Path) -> None:
    context = browser.new_context(base_url=server.address, java_script_enabled=False)
    page = context.new_page()
    page.goto(PHOTO)
    expect(page.locator("#photo-results")).to_contain_text("uprights")
    page.locator("summary", has_text="Move a mark by numbers").click()
    page.select_option("#move-spot", "left top")
    page.fill("#move-u", "274")
    page.fill("#move-v", "308.5")
    page.get_by_role("button", name="Move it").click()
    soon(jobs, r"left top: \[274, 308\.5\]")
    page.get_by_role("button", name="Take the last change back").click()
    soon(jobs, r"left top: \[272\.8, 307\.8\]")
    context.close()


def test_a_finger_moves_a_mark(browser: Browser, server: Server, jobs: Path) -> None:
    context = browser.new_context(base_url=server.address, has_touch=True, viewport={"width": 390, "height": 844})
    page = opened(context.new_page())
    page.locator("#photo").scroll_into_view_if_needed()
    x, y = middle(page, "left top")
    touch = context.new_cdp_session(page)
    touch.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    for step in range(1, 5):
        touch.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [{"x": x + 5 * step, "y": y}]})
    expect(page.locator("#photo-lens")).to_be_visible()
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    soon(jobs, r"left top: \[(29|3\d)\d?\.?\d*, 30\d")
    context.close()
