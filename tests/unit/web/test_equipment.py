"""A shop is read again when its file or its records change, and at no other time."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from fitwright.shop import default_shop
from fitwright.shop.errors import ShopError
from fitwright.shop.learning import Learnt
from fitwright.shop.records import ENVIRONMENT
from fitwright.web import equipment as equipment_module
from fitwright.web.equipment import Equipment
from tests.unit.web.serving import client, some_jobs

NOWHERE = "postgresql://ada@127.0.0.1:1/shop"


@pytest.fixture
def shop_file(tmp_path: Path) -> Path:
    file = tmp_path / "shop.yaml"
    file.write_text("name: Shed\nunit: mm\n")
    return file


def test_the_shipped_shop_alone_has_no_state_of_its_own() -> None:
    equipment = Equipment()
    assert equipment.stamp(None) == ""
    found = equipment.of(None, "mm")
    assert found.shop == default_shop("mm")
    assert found.learnt is None


def test_a_shop_is_kept_until_its_file_changes(shop_file: Path) -> None:
    equipment = Equipment()
    first, stamp = equipment.of(shop_file, "mm"), equipment.stamp(shop_file)
    assert equipment.of(shop_file, "mm") is first
    shop_file.write_text("name: Barn\nunit: mm\n")
    assert equipment.stamp(shop_file) != stamp
    assert (first.shop.name, equipment.of(shop_file, "mm").shop.name) == ("Shed", "Barn")


def test_records_that_are_written_to_are_another_state(
    shop_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    records = tmp_path / "records.db"
    monkeypatch.setenv(ENVIRONMENT, str(records))
    equipment = Equipment()
    before = equipment.stamp(None)
    records.write_bytes(b"")
    os.utime(records, (1_000, 1_000))
    after = equipment.stamp(None)
    os.utime(records, (2_000, 2_000))
    assert len({before, after, equipment.stamp(None)}) == 3


def test_a_shop_file_with_mistakes_has_a_state_and_is_told(shop_file: Path) -> None:
    equipment = Equipment()
    shop_file.write_text("nme: Shed\nunit: mm\n")
    assert equipment.stamp(shop_file)
    with pytest.raises(ShopError, match="name"):
        equipment.of(shop_file, "mm")


def test_a_server_that_is_not_there_leaves_the_shop_as_its_file_says_and_is_told(
    shop_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv(ENVIRONMENT, NOWHERE)
    equipment = Equipment()
    found = equipment.of(shop_file, "mm")
    assert (found.shop.name, found.learnt) == ("Shed", None)
    assert "cannot be reached" in found.unreached
    assert equipment.of(shop_file, "mm") is found, "the server is not asked again at once"
    assert equipment.stamp(shop_file)


def test_a_server_that_went_away_is_not_taken_for_what_it_held(
    shop_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv(ENVIRONMENT, NOWHERE)
    monkeypatch.setattr(equipment_module, "state_of", lambda place: "17")
    equipment = Equipment()
    unreached = equipment.of(shop_file, "mm")
    assert unreached.unreached
    monkeypatch.setattr(equipment_module, "equipped_or_told", lambda shop, place: (shop, Learnt(), ""))
    assert not equipment.of(shop_file, "mm").unreached


def test_a_job_is_computed_without_its_server_and_every_page_of_it_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv(ENVIRONMENT, NOWHERE)
    with client(some_jobs(tmp_path, "coat-rail")) as opened:
        page = opened.get("/jobs/coat-rail?whole=1").text
        assert "records were not reached" in page
        assert "reach the records and compute again" in page, "a finding among the others"
        assert "slope at which it tips" in page
        assert "records were not reached" in opened.get("/jobs/coat-rail/steps").text
        assert opened.get("/shop/stock").status_code == 422, "nothing can be written down meanwhile"
