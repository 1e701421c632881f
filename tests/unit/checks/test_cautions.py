from __future__ import annotations

from dataclasses import replace

import pytest

from fitwright.checks.asked import asked
from fitwright.checks.cautions import caution_findings
from fitwright.findings import Verdict
from tests.unit.checks.samples import demo, one, table


def test_nothing_is_said_unless_it_is_asked() -> None:
    assert caution_findings(*table()) == []
    assert caution_findings(*demo("workbench")) == []


def test_a_floor_in_the_use_is_not_a_caution_and_one_in_the_cautions_is() -> None:
    assert "floor" not in asked(demo("drying-rack")[0])
    assert "floor" in asked(table(cautions="floor")[0])


SHELF = "\n  shelf:\n    slats: board\n    from: [0, 40, {z}]\n    to: [800, 360, {z}]\n"
RAIL = "\n  low:\n    stock: thin\n    path: [[20, 20, {z}], [20, 380, {z}]]\n    mirror: {{x: 400}}\n"


@pytest.mark.parametrize(("z", "verdict"), [(120, Verdict.FAILS), (200, Verdict.HOLDS)])
def test_room_to_clean_and_food_off_the_floor(z: int, verdict: Verdict) -> None:
    found = caution_findings(*table(RAIL.format(z=z - 12.5) + SHELF.format(z=z), use="bread in a bakery"))
    assert one(found, "room to clean").verdict is verdict
    assert one(found, "food stored").verdict is verdict
    assert "4-402.12" in one(found, "room to clean").basis
    assert all("local" in f.basis + f.advice or f.verdict is Verdict.HOLDS for f in found)


def test_wood_that_touches_food() -> None:
    found = one(caution_findings(*table(RAIL.format(z=300) + SHELF.format(z=312.5), cautions="food contact")), "wood")
    assert found.verdict is Verdict.FAILS
    assert "4-101.17" in found.basis
    assert "hard maple" in found.advice


def test_the_other_words() -> None:
    found = caution_findings(*table(cautions="children, public route, outdoors, heat"))
    assert [f.verdict for f in found] == [Verdict.NEEDS_INPUT] * 4
    assert len({f.check for f in found}) == 4


def test_food_and_floor_together_say_a_thing_once() -> None:
    found = caution_findings(*table(cautions="food, floor"))
    assert len({(f.subject, f.check) for f in found}) == len(found)


def test_standing_out_over_a_public_route() -> None:
    anchor = "\n  anchor:\n    anchor: {diameter: 8, length: 60}\n    at: [[20, 400, 690], [780, 400, 690]]\n"
    hung = one(caution_findings(*table(anchor, cautions="public route", foot="300")), "standing out")
    assert hung.verdict is Verdict.HOLDS  # its lower edge is below 27 in, where a cane finds it


def test_only_what_is_hollow_is_drained() -> None:
    outdoors = one(caution_findings(*table(cautions="outdoors")), "water and rust")
    assert "drain holes" in outdoors.advice
    job, piece = table(cautions="outdoors")
    wood = replace(piece, members=tuple(m for m in piece.members if m.stock.section.bore() is None))
    assert "drain holes" not in one(caution_findings(job, wood), "water and rust").advice
