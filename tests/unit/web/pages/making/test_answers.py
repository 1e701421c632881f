"""The sheets of each trade by themselves."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from starlette.testclient import TestClient

from fitwright.web.pages.making.trades import TRADES
from tests.unit.web.serving import client, some_jobs

BAR = "/jobs/coat-rail"


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    with client(some_jobs(tmp_path_factory.mktemp("making"), "coat-rail")) as found:
        yield found


@pytest.mark.parametrize(
    ("trade", "sheets"), [("bench", True), ("templates", True), ("timber", False), ("finish", True)]
)
def test_each_trade_has_its_sheets_or_says_that_it_has_none(opened: TestClient, trade: str, sheets: bool) -> None:
    page = opened.get(f"{BAR}/making?trade={trade}&whole=1")
    assert page.status_code == 200
    assert ("<img" in page.text) is sheets
    assert (TRADES[trade].none in page.text) is not sheets
    assert "on-a4" in page.text or not sheets


def test_a_sheet_is_as_large_as_its_paper(opened: TestClient) -> None:
    sheet = opened.get(f"{BAR}/making/templates/1.svg")
    assert sheet.headers["content-type"].startswith("image/svg+xml")
    assert 'width="595.2' in sheet.text  # A4 in points
    again = opened.get(f"{BAR}/making/templates/1.svg", headers={"if-none-match": sheet.headers["etag"]})
    assert again.status_code == 304


@pytest.mark.parametrize("path", ["making?trade=baking", "making/baking/all", "making/bench/99.svg"])
def test_what_is_not_there_is_told(opened: TestClient, path: str) -> None:
    assert opened.get(f"{BAR}/{path}").status_code == 404
