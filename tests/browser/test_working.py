"""What is done on the pages beside dims: packets, parts, text, versions, jobs, pairing."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from tests.browser.running import Server
from tests.browser.test_changing_dims import expect_written, open_rack

RACK = "/jobs/drying-rack"


def test_the_packet_is_made_with_progress_and_its_files_can_be_had(page: Page) -> None:
    page.goto(f"{RACK}/sheets")
    page.uncheck("input[name=solids]")
    page.get_by_role("button", name="Make the packet").click()
    expect(page.locator("#making progress")).to_be_visible()
    pdf = page.get_by_role("link", name="packet.pdf")
    expect(pdf).to_be_visible(timeout=600_000)
    for name in ("lists.xlsx", "arrangement.dxf", "cut-list.csv"):
        expect(page.get_by_role("link", name=name)).to_be_visible()
    answer = page.request.get(f"{RACK}/files/packet.pdf")
    assert answer.body()[:5] == b"%PDF-"


def test_parts_and_text_stay_in_step(page: Page, jobs: Path) -> None:
    page.goto(f"{RACK}/file?part=hoop")
    page.fill("#part-radius", "3 1/2")
    page.get_by_role("button", name="Change hoop").click()
    expect(page.locator("#text")).to_have_value(re.compile("radius: 3 1/2"))
    file = jobs / "drying-rack" / "job.yaml"
    assert "radius: 3 1/2" in file.read_text()
    page.get_by_text("Add a part").click()
    page.fill("#new-part", "towel bar")
    page.get_by_role("button", name="Add it").click()
    expect(page.locator(".part-list")).to_contain_text("towel bar")
    page.get_by_role("button", name="Remove towel bar").click()
    expect(page.locator(".part-list")).not_to_contain_text("towel bar")
    assert "towel bar" not in file.read_text()


def test_a_mistake_in_the_text_is_told_at_its_line_and_not_saved(page: Page, jobs: Path) -> None:
    page.goto(f"{RACK}/file?find=dims")
    editor = page.locator("#editor .cm-content")
    expect(editor).to_be_focused()
    page.keyboard.press("End")
    page.keyboard.type("\n  colour: nothing + 1")
    expect(page.locator("#editor .cm-lintRange-error").first).to_be_visible()
    page.get_by_role("button", name="Save the text").click()
    expect(page.locator("#file-said")).to_contain_text("mistake")
    dims = (jobs / "drying-rack" / "job.yaml").read_text().splitlines().index("dims:") + 1
    expect(page.locator("#file-said a").first).to_contain_text(f"line {dims + 1}")
    assert "colour" not in (jobs / "drying-rack" / "job.yaml").read_text()


def test_an_earlier_version_can_be_taken_up_again(page: Page, jobs: Path) -> None:
    open_rack(page)
    page.fill("#text-width", "30")
    page.press("#text-width", "Enter")
    expect_written(jobs, "width", "30")
    page.goto(f"{RACK}/versions")
    page.get_by_role("link", name="Look at it").first.click()
    expect(page.locator(".changes").first).to_contain_text("31 1/2")
    page.get_by_role("button", name="Go back to it").click()
    expect(page.locator("#text-width")).to_have_value("31 1/2")
    expect_written(jobs, "width", "31 1/2")


def test_a_job_is_begun_copied_put_away_and_taken_up_again(page: Page, jobs: Path) -> None:
    page.goto("/")
    page.fill("#new-name", "Hall bench")
    page.get_by_text("Workbench").last.click()
    page.get_by_role("button", name="Begin").click()
    expect(page.locator("h1")).to_have_text("Hall bench")
    page.goto("/")
    card = page.locator(".card", has_text="Hall bench")
    card.get_by_text("Copy or put away").click()
    card.get_by_role("button", name="Copy the job").click()
    expect(page.locator("h1")).to_have_text("Hall bench copy")
    page.goto("/")
    card = page.locator(".card", has=page.get_by_role("link", name="Hall bench copy"))
    card.get_by_text("Copy or put away").click()
    card.get_by_role("button", name="Put it away").click()
    expect(page.get_by_role("link", name="1 put away")).to_be_visible()
    assert (jobs / "archived" / "Hall bench copy" / "job.yaml").exists()
    page.goto("/archived")
    page.get_by_role("button", name="Take it up again").click()
    expect(page.locator("h1")).to_have_text("Hall bench copy")


def test_a_device_is_paired_once_with_the_code_from_the_terminal(browser: Browser, jobs: Path) -> None:
    server = Server(jobs, ("--lan",)).start()
    try:
        page = browser.new_context(base_url=server.address).new_page()
        page.goto("/")
        expect(page.locator("h1")).to_have_text("Pair this device")
        page.fill("#code", "WRONGONE")
        page.get_by_role("button", name="Let this device in").click()
        expect(page.locator(".trouble")).to_contain_text("not the code")
        page.fill("#code", server.code())
        page.get_by_role("button", name="Let this device in").click()
        expect(page.locator("h1")).to_have_text("Jobs")
        page.context.close()
    finally:
        server.kill()


def test_the_first_page_is_small(page: Page) -> None:
    """Bytes are counted, not seconds: the scripts and the styles as they are sent, and the page itself."""
    sizes: list[int] = []
    page.on("response", lambda answer: sizes.append(int(answer.headers.get("content-length") or 0)))
    open_rack(page)
    assert 0 < sum(sizes) < 1_500_000
