"""The quote's pages: what the client sees, what the shop sees, the margin, and keeping it in the records."""

from __future__ import annotations

import re
import time
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from fitwright.job import parse_job
from fitwright.shop.records import Quoted, open_records, where
from tests.stand import TEXT
from tests.unit.web.serving import client, send

STAND = "/jobs/stand"
PATIENCE = 90.0


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[TestClient]:
    """An application on a folder with the stand."""
    folder = tmp_path / "jobs" / "stand"
    folder.mkdir(parents=True)
    (folder / "job.yaml").write_text(TEXT, encoding="utf-8")
    with client(tmp_path / "jobs") as found:
        yield found


def later(opened: TestClient, path: str) -> str:
    """What a part of a page says when it is done."""
    until = time.monotonic() + PATIENCE
    while time.monotonic() < until:
        text = opened.get(path, headers={"hx-request": "true"}).text
        if text and 'class="progress"' not in text:  # empty: of a state that is past
            return str(text)
    raise AssertionError(f"{path} was not done in time")


def test_the_client_sees_the_price_and_not_the_cost(opened: TestClient) -> None:
    assert "as the client sees it" in opened.get(f"{STAND}/quote").text
    told = later(opened, f"{STAND}/quote/client")
    assert "with tax" in told
    assert "margin" not in told.lower()
    picture = opened.get(f"{STAND}/quote/1.svg")
    assert picture.headers["content-type"].startswith("image/svg+xml")
    assert opened.get(f"{STAND}/quote/quote.pdf").content.startswith(b"%PDF")
    assert opened.get(f"{STAND}/quote/9.svg").status_code == 404


def test_the_shop_sees_the_cost_by_kind_and_step(opened: TestClient) -> None:
    told = later(opened, f"{STAND}/quote/shop/costs")
    for word in ("By kind", "By step", "(this price)", "Overhead and rework"):
        assert word in told
    assert opened.get(f"{STAND}/quote/shop/costs.pdf").content.startswith(b"%PDF")
    asked = re.search(r'href="(/jobs/stand/why/step-cost/\d+)"', told)
    assert asked is not None
    assert "Worked out" in opened.get(asked[1]).text
    assert "what is paid for hours" in opened.get(f"{STAND}/why/cost/hours").text


def test_a_margin_goes_into_the_job_file(opened: TestClient, tmp_path: Path) -> None:
    answer = send(opened, f"{STAND}/quote/margin", {"margin": " 32,5 %".replace(",", ".")}, f"{STAND}/quote/shop")
    assert answer.status_code == 303
    job = parse_job((tmp_path / "jobs" / "stand" / "job.yaml").read_text(encoding="utf-8"))
    assert job.price.margin == Decimal("0.325")
    assert 'value="32.5 %"' in opened.get(f"{STAND}/quote/shop").text


@pytest.mark.parametrize("margin", ["much", "120 %", "-3", ""])
def test_a_margin_that_is_none_is_refused_in_words(opened: TestClient, margin: str) -> None:
    answer = send(opened, f"{STAND}/quote/margin", {"margin": margin}, f"{STAND}/quote/shop")
    assert answer.status_code == 422
    assert "is not a margin" in answer.text


def test_kept_as_sent_it_is_in_the_records(opened: TestClient, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert "Keep it in the records" not in later(opened, f"{STAND}/quote/client")
    monkeypatch.setenv("FITWRIGHT_RECORDS", str(tmp_path / "records.db"))
    with open_records(where()):
        pass
    told = later(opened, f"{STAND}/quote/client")
    assert "Keep it in the records" in told
    revision = re.search(r'name="revision" value="([^"]+)"', told)
    assert revision is not None
    kept = send(opened, f"{STAND}/quote/record", {"revision": revision[1]}, f"{STAND}/quote/shop")
    assert kept.status_code == 303
    with open_records(where()) as records:
        (quoted,) = records.all(Quoted)
    assert (quoted.job, quoted.state, quoted.currency) == ("Stand", "sent", "EUR")
    assert quoted.cost is not None
    assert quoted.price > quoted.cost


def test_a_shop_that_lacks_a_price_says_which(opened: TestClient, tmp_path: Path) -> None:
    (tmp_path / "jobs" / "stand" / "shop.yaml").write_text(
        "name: Poor\nunit: mm\ncurrency: EUR\npaint: {}\n", encoding="utf-8"
    )
    told = later(opened, f"{STAND}/quote/client")
    assert "enamel" in told
    assert "under paint in the shop file" in told
    assert opened.get(f"{STAND}/quote/quote.pdf").status_code == 404
