from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from fitwright.assess import assess
from fitwright.job import load_job
from fitwright.shop import default_shop, shop_from_text
from fitwright.shop.equipped import equipped
from fitwright.shop.errors import ShopError
from fitwright.shop.records import Hours, Measured, Where, open_records
from tests.demos import EXAMPLES
from tests.unit.shop.records.samples import DAY, EACH, OFFCUT, TRIAL, TUBE

SHOP = default_shop("inch")


def test_a_shop_without_records_is_as_its_file_says(tmp_path: Path) -> None:
    assert equipped(SHOP, Where(tmp_path / "records.db")) == (SHOP, None)
    with open_records(Where(tmp_path / "records.db")):
        pass
    assert equipped(SHOP, Where(tmp_path / "records.db")) == (SHOP, None)


def test_records_bring_stock_prices_and_what_was_learnt(tmp_path: Path) -> None:
    place = Where(tmp_path / "records.db")
    with open_records(place) as records:
        for record in EACH:
            records.add(record)
    shop, learnt = equipped(SHOP, place)
    assert learnt is not None
    assert (TRIAL.die, TUBE) in learnt.bends
    assert {"on the rack, by the records", "a price in the records"} <= {bar.basis for bar in shop.stock_lengths}
    assert next(die for die in shop.dies if die.name == TRIAL.die).take_up != 1.0
    assert replace(shop, stock_lengths=SHOP.stock_lengths, dies=SHOP.dies) == SHOP
    assert OFFCUT.heat == learnt.heats[TUBE]


def test_what_was_learnt_reaches_the_job(tmp_path: Path) -> None:
    """Times, spreads, the angle to bend to and the rack; a job in a shop without records has none of it."""
    job = load_job(EXAMPLES / "drying-rack" / "job.yaml")
    plain = assess(job, SHOP)
    tube = next(iter(plain.bend_sheets.values()))
    place = Where(tmp_path / "records.db")
    with open_records(place) as records:
        records.add_all([replace(TRIAL, die=tube.steps[0].die, section=tube.stock, heat="")] * 3)
        records.add_all([Hours(DAY, "Rack", "bend A1", "bend", 2.0, 1, 1.0)] * 5)
        records.add_all([Measured(DAY, "Rack", f"leg {k} of hoop 1", 500.0, 501.5, "mm") for k in (1, 2, 3)])
        records.add(replace(OFFCUT, label=tube.stock, length=1500.0))
    taught = assess(job, *equipped(SHOP, place))
    assert next(iter(taught.bend_sheets.values())).steps[0].command_angle > tube.steps[0].command_angle
    assert plain.making is not None
    assert taught.making is not None
    assert taught.making.spreads.trim > plain.making.spreads.trim
    assert taught.making.spreads.survey == plain.making.spreads.survey
    bends = [[step.minutes for step in one.steps if step.kind == "bend"] for one in (plain, taught)]
    assert sum(bends[1]) > 1.3 * sum(bends[0])
    saws = [[step.minutes for step in one.steps if step.kind == "saw"] for one in (plain, taught)]
    assert saws[0] == saws[1]
    assert taught.cutting_plans[tube.stock].cost <= plain.cutting_plans[tube.stock].cost
    assert any(bar.on_hand == OFFCUT.count and bar.length == 1500.0 for bar in taught.shop.stock_lengths)


def test_the_shop_file_says_where_its_records_are() -> None:
    shop = shop_from_text("name: Shed\nunit: inch\ncurrency: USD\nrecords: /srv/shed/records.db\n", "shop.yaml")
    assert shop.records == "/srv/shed/records.db"
    assert SHOP.records == ""
    with pytest.raises(ShopError, match=r"line 4: records: is records\.db: give the whole path"):
        shop_from_text("name: Shed\nunit: inch\ncurrency: USD\nrecords: records.db\n", "shop.yaml")
