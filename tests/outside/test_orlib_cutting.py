"""OR-Library bin packing, the set u120 (120 items of 20 to 100 in bins of 150), u120_00 to u120_19.

Source: J. E. Beasley, OR-Library, file binpack1, set of E. Falkenauer, A hybrid grouping genetic algorithm for bin
packing, Journal of Heuristics 2 (1996) 5-30. `listed` is the best value listed there; `optimum` was proven by an
integer programme over all patterns. The library lists 51 for u120_08 and 50 for u120_19; the true optima are 50 and 49.
"""

from __future__ import annotations

import csv
from collections import Counter
from decimal import Decimal
from pathlib import Path

import pytest

from fitwright.making.cutting import Bar, Cut, plan_cuts

INSTANCES = list(csv.DictReader((Path(__file__).parent / "orlib_u120.csv").read_text().splitlines()))


@pytest.mark.parametrize("row", INSTANCES, ids=lambda row: row["instance"])
def test_optimum_is_met_and_proven(row: dict[str, str]) -> None:
    items = Counter(row["items"].split())
    cuts = [Cut(size, float(size), count) for size, count in items.items()]
    plan = plan_cuts(cuts, [Bar("bin", float(row["capacity"]), Decimal(1))], seconds=60)
    assert plan.proven
    assert plan.cost == plan.bound == int(row["optimum"]) == len(plan.bars)


def test_two_listed_values_are_beaten() -> None:
    beaten = [row["instance"] for row in INSTANCES if int(row["optimum"]) < int(row["listed"])]
    assert beaten == ["u120_08", "u120_19"]
    assert sum(len(row["items"].split()) for row in INSTANCES) == 20 * 120
