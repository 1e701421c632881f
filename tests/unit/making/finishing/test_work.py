from __future__ import annotations

import itertools

import pytest

from fitwright.findings import Verdict
from fitwright.making.finishing import (
    Air,
    FinishError,
    finish_work,
    product,
    products,
    quantity,
    sold,
    tins_for,
    wait_at,
)
from fitwright.making.finishing.preparing import flush_welds
from fitwright.making.finishing.reading import read_finish
from fitwright.making.finishing.tables import table
from tests.unit.sheets.packet.jobs import of_text, stand

FRAME = """
job: {name: Frame, unit: mm}
brief: {use: %s}
stock: {tube: square tube 40 x 40 x 2}
parts: {frame: {stock: tube, path: [[0, 0, 0], [500, 0, 0], [500, 400, 0], [0, 400, 0]], closed: true, corners: mitred}}
finish: {steel: "%s"}
"""


@pytest.mark.parametrize(
    ("text", "metal", "coats"),
    [
        ("degrease, prime, two coats of black enamel", True, [("primer", 1), ("enamel", 2)]),
        ("two coats of boiled linseed oil; lay oily rags out flat", False, [("boiled linseed oil", 2)]),
        ("three coats of hardening oil", False, [("hardening oil", 3)]),
        ("clear lacquer, 3 coats", True, [("clear lacquer", 3)]),
        ("one coat of wax", True, [("wax", 1)]),
        ("none", True, []),
    ],
)
def test_finish_is_read_as_makers_write_it(text: str, metal: bool, coats: list[tuple[str, int]]) -> None:
    assert [(one.name, count) for one, count in read_finish(text, metal).coats] == coats


def test_a_colour_alone_is_primed_and_painted_twice_and_says_so() -> None:
    asked = read_finish("matt black", True)
    assert [(one.name, count) for one, count in asked.coats] == [("primer", 1), ("enamel", 2)]
    assert len(asked.notes) == 2


def test_powder_is_done_elsewhere() -> None:
    asked = read_finish("powder coated red", True)
    assert asked.sent is not None
    assert asked.coats == ()


def test_quantities_follow_from_area_spread_and_loss() -> None:
    work = finish_work(stand().piece, stand().job)
    first = work.coats[0]
    assert first.litres == pytest.approx(first.area_m2 / (1000 * 0.45 / 38) / (1 - 0.2))
    assert first.area_m2 == pytest.approx(work.metal_m2)
    assert {tins.product for tins in work.tins} == {"primer", "enamel", "boiled linseed oil"}
    assert all(tins.bought >= tins.litres for tins in work.tins)


@pytest.mark.parametrize("litres", [0.1, 0.5, 0.9, 1.3, 2.2, 3.1, 5.4])
@pytest.mark.parametrize("unit", ["inch", "mm"])
def test_no_other_tins_are_cheaper(litres: float, unit: str) -> None:
    """Every set of up to eight tins of each size, tried one by one."""
    sizes = sold("inch" if unit == "inch" else "mm")
    power = table("coatings")["tins"]["power"]
    chosen = tins_for(litres, sizes)
    cost = sum(count * each**power for count, _, each in chosen)
    enough = [
        sum(n * each**power for n, (_, each) in zip(counts, sizes, strict=True))
        for counts in itertools.product(range(5), repeat=len(sizes))
        if sum(n * each for n, (_, each) in zip(counts, sizes, strict=True)) >= litres
    ]
    assert sum(count * each for count, _, each in chosen) >= litres
    assert cost == pytest.approx(min(enough), rel=1e-9)


def test_a_wait_doubles_for_ten_degrees() -> None:
    assert wait_at(16.0, 20.0, 10.0) == 32.0


def test_grits_go_from_coarse_to_fine_in_steps_of_at_most_two() -> None:
    for row in table("preparing")["grits"].values():
        for grits in (row["flush"], row["all"]):
            assert all(a < b <= 2 * a for a, b in itertools.pairwise(grits))


def test_degreasing_comes_first() -> None:
    assert finish_work(stand().piece, stand().job).cleaning[0].startswith("Degrease before anything else")


def test_mitres_are_ground_flush_and_tees_are_not() -> None:
    (flush,) = flush_welds(of_text(FRAME % ("a frame", "paint")).piece)
    assert (flush.what, flush.count) == ("mitred corners, outside faces", 4)
    assert all("mitred" not in one.what for one in flush_welds(stand().piece))


def test_damp_air_is_a_finding() -> None:
    job = stand().job
    found = {f.check: f.verdict for f in finish_work(stand().piece, job, Air(12.0, 92.0, 11.0)).findings}
    assert found["above the dew point before painting"] is Verdict.FAILS
    assert found["humidity while painting"] is Verdict.FAILS


def test_linseed_oil_is_not_for_outdoors() -> None:
    text = """
job: {name: Seat, unit: mm}
brief: {use: a seat in the garden}
stock: {slat: board 20 x 95 oak}
parts: {seat: {solid: slat, from: [0, 0, 400], to: [900, 95, 400], along: x}}
finish: {timber: two coats of boiled linseed oil}
"""
    found = next(f for f in of_text(text).finishing.findings if f.subject == "boiled linseed oil" and "fit" in f.check)
    assert found.verdict is Verdict.FAILS
    assert "exterior oil" in found.advice


def test_a_finish_that_is_not_said_is_asked_for() -> None:
    text = """
job: {name: Rail, unit: mm}
stock: {tube: round tube 32 x 2}
parts: {rail: {stock: tube, path: [[0, 0, 0], [1000, 0, 0]], ends: free}}
"""
    assert [f.verdict for f in of_text(text).finishing.findings] == [Verdict.NEEDS_INPUT]


def test_every_product_says_where_its_figures_are_from() -> None:
    assert all(one.basis and (one.metal or one.timber) for one in products())
    with pytest.raises(KeyError):
        product("whitewash")


def test_what_cannot_be_is_told() -> None:
    with pytest.raises(FinishError, match="brush or spray"):
        finish_work(stand().piece, stand().job, method="roller")
    with pytest.raises(FinishError, match="loss of 1"):
        quantity(1.0, 10.0, 1.0)
    with pytest.raises(FinishError, match="no tins"):
        tins_for(1.0, [])
