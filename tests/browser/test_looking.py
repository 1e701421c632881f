"""Every page in a browser: it can be used by everybody, at every width, and says what it should."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.running import Server
from tests.browser.test_changing_dims import open_rack

ROOT = Path(__file__).parents[2]
AXE = ROOT / "node_modules" / "axe-core" / "axe.min.js"
PICTURES = Path(__file__).parent / "pictures"
WIDTHS = {390: 844, 820: 1180, 1440: 900}
RACK = "/jobs/drying-rack"
PAGES = {
    "jobs": "/",
    "piece": RACK,
    "sheets": f"{RACK}/sheets",
    "making": f"{RACK}/making?trade=bench",
    "steps": f"{RACK}/steps",
    "readings": f"{RACK}/readings",
    "file": f"{RACK}/file?part=hoop",
    "photo": f"{RACK}/photo",
    "why-part": f"{RACK}/why/part/A1",
    "why-dim": f"{RACK}/why/dim/ledge_in",
    "versions": f"{RACK}/versions",
    "place": f"{RACK}/place",
    "way-in": "/jobs/workbench/way-in",
    "shop": "/shop",
    "shop-stock": "/shop/stock",
    "shop-dies": "/shop/dies",
    "shop-hours": "/shop/hours",
    "shop-quotes": "/shop/quotes",
    "quote": f"{RACK}/quote",
    "quote-shop": f"{RACK}/quote/shop",
    "alternatives": f"{RACK}/alternatives",
    "alternative": f"{RACK}/alternatives/1",
    "archived": "/archived",
    "trouble": "/jobs/nothing",
}
SLOWEST_MS = 600_000
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
READY = {
    "readings": "#enter-title",
    "photo": "html[data-photo]",
    "making": ".paper img",
    "steps": ".step-card",
    "piece": "#canvas[data-drawn]",
    "sheets": ".paper img",
    "quote": ".quote-paper img",
    "quote-shop": "table.sums",
    "alternatives": ".picture",
    "jobs": ".badges",
    "place": ".in-place img",
    "way-in": ".way-legs",
}
TARGETS = """() => [...document.querySelectorAll('a, button, input, select, summary, textarea')]
  .filter((one) => one.checkVisibility() && !one.closest('p, li, td, label') && one.type !== 'hidden')
  .filter((one) => !one.matches('.default, .skip'))
  .map((one) => [one.outerHTML.slice(0, 90), one.getBoundingClientRect()])
  .filter(([, box]) => box.height > 0 && box.height < 43.5)
  .map(([name, box]) => `${Math.round(box.height)} ${name}`)"""


WIDE_TABLES = """() => [...document.querySelectorAll('table.stacks')]
  .filter((one) => one.checkVisibility() && one.scrollWidth > innerWidth).map((one) => one.outerHTML.slice(0, 90))"""
NARROW = 600


@pytest.fixture
def server(standing: Server) -> Server:
    """Nothing is changed by these tests: one server does for all."""
    return standing


def visit(page: Page, name: str) -> None:
    """Open a page and wait for what follows later."""
    page.goto(PAGES[name])
    if name in READY:
        page.wait_for_selector(READY[name], state="attached", timeout=SLOWEST_MS)
    page.wait_for_load_state("load")


@pytest.mark.parametrize("name", PAGES)
def test_no_barrier_is_found(page: Page, name: str) -> None:
    """WCAG 2.2 A and AA by axe-core; it finds about half of what there may be, the rest was looked at by hand."""
    visit(page, name)
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        assert barriers(page) == [], scheme


def told(violation: dict[str, Any]) -> str:
    """A barrier in short."""
    node = violation["nodes"][0]
    return f"{violation['id']}: {node['html'][:160]} {node['failureSummary']}"


@pytest.mark.parametrize("name", PAGES)
def test_every_width_holds_the_page(page: Page, name: str) -> None:
    visit(page, name)
    PICTURES.mkdir(exist_ok=True)
    for width, height in WIDTHS.items():
        page.set_viewport_size({"width": width, "height": height})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert page.evaluate(TARGETS) == [], width
        if width < NARROW:
            assert page.evaluate(WIDE_TABLES) == []
        page.screenshot(path=PICTURES / f"{name}-{width}.png")


def test_no_barrier_is_found_in_what_opens_or_follows(page: Page) -> None:
    """The menu of a narrow screen, the dims of a starter, what moves a check: checked as they stand open."""
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(RACK)
    page.locator(".menu-button").click()
    expect(page.locator("#menu a").first).to_be_visible()
    assert barriers(page) == []
    page.goto("/")
    expect(page.locator("#begun img")).to_be_visible()
    assert barriers(page) == []
    page.goto(RACK)
    page.locator(".finding .ask-why").first.click()
    expect(page.locator(".why table")).to_be_visible(timeout=SLOWEST_MS)
    assert barriers(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= 390


def barriers(page: Page) -> list[str]:
    """What axe-core finds on the page as it now is."""
    page.evaluate(AXE.read_text(encoding="utf-8"))
    return [told(one) for one in page.evaluate("(tags) => axe.run({runOnly: tags})", TAGS)["violations"]]


def test_everything_on_the_pieces_page_is_reached_by_keyboard(page: Page) -> None:
    open_rack(page)
    page.wait_for_selector(".finding .ask-why", state="attached")
    wanted = {"text-width", "canvas", "shape", "apart", "cut", "cut-from"}
    reached: set[str] = set()
    for _ in range(120):
        page.keyboard.press("Tab")
        reached.add(page.evaluate("document.activeElement.id || document.activeElement.className"))
        if wanted | {"ask-why"} <= reached:
            break
    assert wanted | {"ask-why"} <= reached


def test_a_dim_is_set_and_a_shape_chosen_without_a_mouse(page: Page) -> None:
    open_rack(page)
    page.focus("#text-shelves")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.locator("#value-shelves")).to_contain_text("5")
    page.focus("#text-shelves")
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Enter")
    expect(page.locator("#value-shelves")).to_contain_text("4")
    page.focus("#shape")
    page.keyboard.press("ArrowDown")
    expect(page.locator("#shape-said")).to_contain_text("times as much")


def test_a_part_that_is_tapped_says_what_it_is(page: Page) -> None:
    open_rack(page)
    page.get_by_role("button", name="Front").click()
    box = page.locator("#canvas").bounding_box()
    assert box is not None
    said = page.locator("#tapped")
    for step in range(3, 40):
        page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] * step / 40)
        if said.inner_text():
            break
    expect(said).to_contain_text(re.compile(r"cut|blank|bought|×"))
    expect(said.get_by_role("link", name="its sheet")).to_be_visible()


def test_the_picture_turns_by_keyboard(page: Page) -> None:
    open_rack(page)
    before = page.locator("#labels span").first.get_attribute("style")
    page.focus("#canvas")
    page.keyboard.press("ArrowRight")
    expect(page.locator("#labels span").first).not_to_have_attribute("style", before or "")


def test_the_piece_under_load_is_drawn_and_told(page: Page) -> None:
    open_rack(page)
    shape = page.get_by_label("Shape")
    shape.select_option("bent")
    expect(page.locator("#shape-said")).to_contain_text("times as much")
    shape.select_option(label="only shelf 2 loaded")
    expect(page.locator("#shape-said")).to_contain_text("only shelf 2 loaded: moves")


def test_the_shape_that_welding_pulls_follows_with_progress(page: Page) -> None:
    open_rack(page)
    page.get_by_label("Shape").select_option("pulled")
    expect(page.locator("#shape-said")).to_contain_text("Pulled by welding", timeout=SLOWEST_MS)


def test_a_part_shows_its_own_sizes_in_the_scene(page: Page) -> None:
    open_rack(page)
    page.get_by_text("every part").click()
    page.locator("[data-find=A1]").click()
    expect(page.locator("#labels .part-size")).to_have_text(['69 7/8"', '31 1/2"', '69 7/8"'])
    page.locator("#apart").fill("50")
    expect(page.locator("#labels .part-size")).to_have_count(0)


def test_it_is_cut_open_from_three_sides(page: Page) -> None:
    """What a cut takes away cannot be tapped; cut all the way through, from any side, nothing is left."""
    open_rack(page)
    page.get_by_role("button", name="Front").click()
    assert tapped(page) > 0
    page.locator("#cut").fill("100")
    for side in ("front", "left", "above"):
        page.locator("#cut-from").select_option(side)
        assert tapped(page) == 0, side


def tapped(page: Page) -> int:
    """At how many of some places down the middle of the picture there is a part."""
    box = page.locator("#canvas").bounding_box()
    assert box is not None
    found = 0
    for step in range(4, 40, 2):
        page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] * step / 40)
        found += page.locator("#tapped").inner_text() != ""
    return found


def test_a_dim_answers_why(page: Page) -> None:
    page.goto(RACK)
    page.locator("#value-ledge_in a").click()
    expect(page.locator(".steps")).to_contain_text('1 1/8" / 2')
    expect(page.locator(".answer")).to_have_text('9/16"')


def test_a_finding_answers_why_and_leads_to_its_dims(page: Page) -> None:
    page.goto(RACK)
    page.locator(".finding .ask-why").first.click()
    expect(page.locator("h3", has_text="Rule")).to_be_visible()
    page.get_by_role("link", name=re.compile("^width")).first.click()
    expect(page.locator(".answer")).to_have_text('31 1/2"')


def test_the_sheets_are_shown_as_they_print(page: Page) -> None:
    visit(page, "sheets")
    first = page.locator(".paper img").first
    expect(first).to_be_visible()
    page.wait_for_function("() => document.querySelector('.paper img').naturalWidth > 100")
    expect(page.locator(".contents")).to_contain_text("Bend sheet: hoop")


def test_it_prints_black_on_white_without_buttons(page: Page) -> None:
    page.emulate_media(media="print", color_scheme="dark")
    page.goto(RACK)
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    assert page.evaluate("getComputedStyle(document.body).color") == "rgb(0, 0, 0)"
    expect(page.locator("#dim-width button").nth(1)).to_be_hidden()
