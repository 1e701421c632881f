"""A shop is read again when its file or its records change, and at no other time."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from fitwright.shop import default_shop
from fitwright.shop.errors import ShopError
from fitwright.shop.records import ENVIRONMENT
from fitwright.web.equipment import Equipment


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
