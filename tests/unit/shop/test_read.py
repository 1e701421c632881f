from __future__ import annotations

import math
from decimal import Decimal
from pathlib import Path

import pytest

from fitwright.shop import ShopError, default_shop, load_shop, read, shipped_profile, shop_from_text
from fitwright.shop.yaml_lines import Tree, read_tree
from fitwright.units import INCH, Unit

SMALL = """
name: Shed by the canal
unit: inch
currency: USD
saws:
  - {name: bandsaw, kerf: 1/16, end trim: 1/2}
dies:
  - {name: big, od: 1 1/2, radius: 6 in, grip: 3, offset: -3/8, max angle: 120 deg}
"""


def mistakes(text: str) -> list[str]:
    with pytest.raises(ShopError) as wrong:
        shop_from_text(text, "shop.yaml")
    return [str(mistake) for mistake in wrong.value.mistakes]


@pytest.mark.parametrize("unit", ["inch", "mm", "cm"])
def test_a_shipped_profile_is_read_once(unit: Unit, monkeypatch: pytest.MonkeyPatch) -> None:
    texts: list[str] = []

    def reading(text: str) -> Tree:
        texts.append(text)
        return read_tree(text)

    monkeypatch.setattr(read, "read_tree", reading)
    read._shipped.cache_clear()
    shop = default_shop.__wrapped__(unit)
    assert texts == [shipped_profile(unit)]
    assert repr(shop) == repr(shop_from_text(shipped_profile(unit), "shop.yaml"))


@pytest.mark.parametrize("unit", ["inch", "mm", "cm"])
def test_shipped_profiles_are_whole(unit: Unit) -> None:
    shop = default_shop(unit)
    assert shop.unit == ("inch" if unit == "inch" else "mm")
    assert shop.saws
    assert shop.stock_lengths
    assert "other" in shop.usual_lengths
    assert all(die.grip <= die.lead for die in shop.dies)
    assert len({die.name for die in shop.dies}) == len(shop.dies)
    assert {die.machine for die in shop.dies} == {bender.name for bender in shop.benders}


@pytest.mark.parametrize("od", [7 / 8, 1, 1 + 1 / 8, 1.25, 1.5])
def test_the_inch_profile_has_dies_for_common_tube(od: float) -> None:
    dies = [die for die in default_shop("inch").dies if abs(die.od - od * INCH) < 0.01 and die.shape == "round"]
    assert sum(not die.rolls for die in dies) >= 2


@pytest.mark.parametrize("od", [25, 30, 32, 38, 40])
def test_the_metric_profile_has_dies_for_common_tube(od: float) -> None:
    dies = [die for die in default_shop("mm").dies if die.od == od and die.shape == "round"]
    assert sum(not die.rolls for die in dies) >= 2


def test_no_path_gives_the_inch_profile() -> None:
    assert load_shop() is default_shop("inch")


def test_a_small_file_takes_the_rest_from_the_profile(tmp_path: Path) -> None:
    file = tmp_path / "shop.yaml"
    file.write_text(SMALL, encoding="utf-8")
    shop = load_shop(file)
    (die,) = shop.dies
    assert (die.od, die.radius, die.offset) == pytest.approx((38.1, 152.4, -9.525))
    assert die.max_angle == pytest.approx(math.radians(120))
    assert (die.lead, die.between) == (die.grip, die.grip)
    assert shop.saws[0].end_trim == pytest.approx(12.7)
    assert shop.bench == default_shop("inch").bench
    assert shop.name == "Shed by the canal"


def test_a_bare_number_takes_the_shop_s_unit() -> None:
    shop = shop_from_text("{name: a, unit: mm, saws: [{name: s, kerf: 2.5}, {name: t, kerf: 1/8 in}]}", "s")
    assert [saw.kerf for saw in shop.saws] == pytest.approx([2.5, 3.175])


def test_stock_is_found_by_its_label_however_it_is_spelled() -> None:
    text = (
        "{name: a, unit: inch, stock: [{stock: 1-1/8 x 14 ga round tube, lengths: {20': 41}, offcuts: [30, 12, 30]}]}"
    )
    text = text.replace("1-1/8 x 14 ga round tube", 'round tube 1.125" x 14 ga').replace("'", " ft")
    bars = shop_from_text(text, "s").stock_lengths
    assert {bar.label for bar in bars} == {"round tube 1 1/8 x 14 ga"}
    assert [(round(bar.length / INCH), bar.price, bar.on_hand, bar.offcut) for bar in bars] == [
        (240, Decimal(41), None, False),
        (12, Decimal(0), 1, True),
        (30, Decimal(0), 2, True),
    ]


def test_every_mistake_is_told_with_its_line() -> None:
    text = (
        "name: a\n"
        "unit: inch\n"
        "saws:\n"
        "  - {name: bandsaw, curf: 1/16}\n"
        "dies:\n"
        "  - {name: x, od: 1 1/8, radius: round, grip: 2}\n"
        "  - {name: y, shape: sqare, od: 1, radius: 4, grip: 2}\n"
        "rates: {bending: 70}\n"
        "stock:\n"
        "  - {stock: rond tube 1 x 16 ga, lengths: {20 ft: -3}}\n"
    )
    told = mistakes(text)
    assert [one.split(":")[0] for one in told] == [
        "line 4",
        "line 4",
        "line 6",
        "line 7",
        "line 8",
        "line 10",
        "line 10",
    ]
    assert "'curf' is not known here" in told[1] + told[0]
    assert "did you mean 'kerf'?" in told[1] + told[0]
    assert "dies[1].radius" in told[2]
    assert "9 3/8 in" in told[2]
    assert told[3].startswith("line 7: dies[2].shape: 'sqare' is not known; accepted: round, square, flat, angle;")
    assert told[3].endswith("did you mean 'square'?")
    assert told[4] == "line 8: rates: 'shop' is not given"
    assert any("round tube" in one for one in told[5:])


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "a shop file is a map of sections"),
        ("- a\n- b\n", "a shop file is a map of sections"),
        ("name: a\n", "line 1: unit: is not given; accepted: inch, mm, cm"),
        (
            "name: a\nunit: inches\n",
            "line 2: unit: 'inches' is not a unit; accepted: inch, mm, cm; did you mean 'inch'?",
        ),
        ("name: a\nunit: mm\ntol: 3\n", "line 3: tol: 'tol' is not known here"),
        ("name: a\nunit: mm\nsaws: []\n", "line 3: saws:"),
        ("name: a\nunit: mm\nbench: {lenght: 20, width: 3, height: 2}\n", "did you mean 'length'?"),
        ("name: a\nunit: mm\nusual_lengths: {tube: [6 m], other: [6 m]}\n", "accepted: round tube, pipe"),
        ("name: a\nunit: mm\nprices_per_kg: {steel: {flat: 2}, other: {other: 1}}\n", "'other' is not given"),
        ("name: a\nunit: mm\nname: b\n", "line 3: name: is given twice"),
        ("name: a\nunit: [\n", "this is not YAML"),
        ("name: &x a\nunit: *x\n", "anchors and aliases"),
        ("name: a\nunit: mm\nsaws: [{name: s, kerf: -2}]\n", "greater than or equal to 0"),
        ("name: a\nunit: mm\nsaws: [{name: s, kerf: 1e300}]\n", "line 3: saws[1].kerf"),
        ("name: ''\nunit: mm\n", "line 1: name"),
        ("name: a\nunit: mm\nbench: 3\n", "line 3: bench: '3' is not a map"),
        ("name: a\nunit: mm\nsaws: {name: s}\n", "is not a list"),
        ("name: a\nunit: mm\nwelding: {process: [1], wire: 1, reach: 1}\n", "is not a word"),
        ("name: a\nunit: mm\nusual_lengths: {flt: [6 m], other: [6 m]}\n", "'flt' is not known"),
        ("name: a\nunit: mm\nusual_lengths: {flt: [6 m], other: [6 m]}\n", "did you mean 'flat'?"),
        ("name: a\nunit: mm\nrates: {shop: nan}\n", "line 3: rates.shop"),
        ("name: a\nunit: mm\nsheets: [{stock: plywood 18 birch, size: [2440], price: 3}]\n", "line 3: sheets[1].size"),
    ],
)
def test_wrong_files(text: str, said: str) -> None:
    assert any(said in one for one in mistakes(text))


def test_a_file_full_of_mistakes_is_counted() -> None:
    with pytest.raises(ShopError, match="has 200 mistakes") as wrong:
        shop_from_text("name: a\nunit: mm\n" + "\n".join(f"k{k}: 1" for k in range(200)), "shop.yaml")
    assert len(wrong.value.mistakes) == 200
    assert str(wrong.value).endswith("and 160 more")


def test_a_file_that_cannot_be_read(tmp_path: Path) -> None:
    with pytest.raises(ShopError, match="cannot be read"):
        load_shop(tmp_path / "none.yaml")
    latin = tmp_path / "latin.yaml"
    latin.write_bytes(b"name: caf\xe9\n")
    with pytest.raises(ShopError, match="not UTF-8"):
        load_shop(latin)


def test_a_shipped_profile_can_be_saved_changed_and_loaded(tmp_path: Path) -> None:
    file = tmp_path / "shop.yaml"
    file.write_text(shipped_profile("mm").replace("name: A small shop", "name: Mine"), encoding="utf-8")
    assert load_shop(file).name == "Mine"
