from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.assess import Assessment
from fitwright.sheets.lists import Listing, listings
from tests.unit.sheets.packet.jobs import stand


@pytest.fixture(scope="module")
def assessment() -> Assessment:
    """The boot stand."""
    return stand()


@pytest.fixture(scope="module")
def lists(assessment: Assessment) -> dict[str, Listing]:
    """Its lists by name."""
    return {listing.name: listing for listing in listings(assessment)}


def test_every_row_has_a_cell_for_each_column(lists: dict[str, Listing]) -> None:
    assert list(lists) == ["cut-list", "buying", "hardware", "welds", "findings"]
    for listing in lists.values():
        assert listing.rows
        assert {len(row) for row in listing.rows} == {len(listing.columns)}


def test_the_cut_list_is_the_assessments(assessment: Assessment, lists: dict[str, Listing]) -> None:
    rows = lists["cut-list"].rows
    groups = [*assessment.cut_groups, *assessment.blocks.groups]  # blocks for the bench after the parts
    assert [row[3] for row in rows] == pytest.approx([group.setting_mm for group in groups], abs=1e-4)
    assert sum(int(str(row[4])) for row in rows) == sum(group.quantity for group in groups)
    assert rows[0][2] == assessment.job.style.length(assessment.cut_groups[0].setting_mm)


def test_sums_are_price_times_quantity(assessment: Assessment, lists: dict[str, Listing]) -> None:
    for row, bought in zip(lists["buying"].rows, assessment.buying, strict=True):
        assert row[4] == (None if bought.price is None else bought.price * bought.quantity)


def test_hardware_is_counted(lists: dict[str, Listing]) -> None:
    (row,) = lists["hardware"].rows
    assert row[1:] == ("swivel caster", "caster", 4, 0.3, Decimal("5.50"))


def test_welds_carry_the_order_of_their_runs(assessment: Assessment, lists: dict[str, Listing]) -> None:
    """Every run of the order stands with its weld, once; a tie of 32 mm tube is welded all round its coped end."""
    rows, plan = lists["welds"].rows, assessment.welding
    assert plan is not None
    assert [row[0] for row in rows] == [weld.number for weld in plan.welds]
    orders = sorted(int(order) for row in rows for order in str(row[-1]).split(","))
    assert orders == [step.number for step in plan.steps]
    assert {row[2] for row in rows} == {"B1 A1"}
    assert [row[7] for row in rows] == pytest.approx([weld.length for weld in plan.welds], abs=1e-4)


def test_findings_keep_numbers_beside_their_printed_form(assessment: Assessment, lists: dict[str, Listing]) -> None:
    rows = lists["findings"].rows
    assert [row[0] for row in rows] == [found.verdict.value for found in assessment.all_findings]
    gap = next(row for row in rows if row[3] == "gap on the left")
    found = next(found for found in assessment.findings if found.check == "gap on the left")
    assert found.value is not None
    assert gap[4] == assessment.job.style.length(found.value)
    assert gap[5] == pytest.approx(found.value, abs=1e-4)
    assert gap[9] == "mm"
