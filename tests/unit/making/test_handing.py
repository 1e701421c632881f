from __future__ import annotations

import pytest

from fitwright.assess import assess
from fitwright.job import parse_job
from fitwright.making.bending.turning import UNTURNED, turned
from fitwright.making.finishing import Consumable
from fitwright.making.handing import used_up
from fitwright.making.plan import Step
from fitwright.sheets.drawing import A4
from fitwright.sheets.packet.pages.coping import cope_pages
from fitwright.sheets.packet.pages.welding import welds_table
from fitwright.shop import default_shop
from fitwright.units import Style
from tests.demos import assessed
from tests.stand import stand as mitred
from tests.unit.sheets.packet.jobs import stand


def _steps(kind: str) -> list[Step]:
    return [step for step in stand().steps if step.kind == kind]


def test_each_joint_is_tacked_in_one_set_up() -> None:
    """What an earlier set-up has tacked is not tacked again: together the set-ups have the tacks of the weld order."""
    welding = mitred().welding
    assert welding is not None
    counted = [int(n.value) for step in mitred().steps if step.kind == "tack" for n in step.numbers]
    assert len(counted) > 1
    assert sum(counted) == len(welding.tacks)


def test_a_step_points_to_the_template_by_the_name_that_stands_on_it() -> None:
    titles = {page.title for page in cope_pages(stand(), A4)}
    assert {step.sheet for step in _steps("cope")} <= titles


def test_a_step_turns_the_tube_as_its_bend_sheet_does() -> None:
    rail = assessed("coat-rail")
    (sheet,) = rail.bend_sheets.values()
    asked = [turned(step.turned, rail.job.style) for step in sheet.steps]
    assert len(set(asked)) > 1
    (bend,) = (step for step in rail.steps if step.kind == "bend")
    lines = [number.what for number in bend.numbers if number.what.startswith("bend ")]
    assert [UNTURNED if "turn" not in line else line.split("turn ")[1].split(",")[0] for line in lines] == asked


def test_a_tube_that_welding_closes_is_vented_before() -> None:
    (weld,) = _steps("weld")
    assert any("vent" in line for line in weld.setup)


def test_a_fluid_that_is_used_up_is_told_by_its_volume_and_bought_once() -> None:
    solvent, discs = Consumable("solvent, decilitres", 4, ""), Consumable("flap disc 40", 2, "")
    assert used_up(solvent, Style.inch()) == ("solvent, 14 fl oz", 1)
    assert used_up(solvent, Style.metric()) == ("solvent, 0.4 l", 1)
    assert used_up(discs, Style.inch()) == ("flap disc 40", 2)


def test_the_first_step_of_an_inch_job_has_nothing_by_the_decilitre() -> None:
    (buy,) = _steps("buy")
    bought = [number.what for number in buy.numbers]
    assert any(what.startswith("solvent, ") for what in bought)
    assert not any("decilitre" in what for what in bought)


ZINC = """
job: {{name: Rail, unit: mm}}
stock: {{tube: round tube 42.4 x 2.6{label}}}
parts:
  post: {{stock: tube, path: [[0, 0, 0], [0, 0, 900]], ends: free, repeat: {{x: [0, 800]}}}}
  rail: {{stock: tube, path: [[0, 0, 450], [800, 0, 450]]}}
finish: {{steel: galvanised}}
"""


@pytest.mark.parametrize(("label", "warned"), [(" galvanised", True), ("", False)])
def test_zinc_is_warned_of_where_it_is_there_before_the_weld(label: str, warned: bool) -> None:
    """Tube bought galvanised is, whatever is done to it later; bare tube dipped afterwards is not."""
    steps = {step.kind: step for step in assess(parse_job(ZINC.format(label=label)), default_shop("mm")).steps}
    assert any("Zinc" in caution.words for caution in steps["weld"].cautions) is warned
    assert any("vent and drain holes" in caution.words for caution in steps["send"].cautions)


HEAVY = """
job: {name: Tee, unit: mm}
stock: {bar: flat 40 x 6}
parts:
  post: {stock: bar, path: [[0, 0, 0], [0, 0, 600]], ends: free}
  arm: {stock: bar, path: [[0, 0, 300], [400, 0, 300]], ends: {start: auto, finish: free}}
"""


def test_a_weld_is_as_large_at_its_step_as_on_the_weld_sheet() -> None:
    """An eighth of an inch on 6 mm is 3.2 mm to the finest step of the job, and 3.0 to its usual one."""
    assessment = assess(parse_job(HEAVY), default_shop("mm"))
    (weld,) = [step for step in assessment.steps if step.kind == "weld"]
    assert assessment.welding is not None
    rows = welds_table(assessment.welding, assessment.piece, Style.metric())["rows"]
    assert {row[3] for row in rows} == {"3.2 mm"}
    assert all("leg 3.2 mm" in number.what for number in weld.numbers)
