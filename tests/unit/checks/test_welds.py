from __future__ import annotations

import pytest

from fitwright.checks.fillets import filler_for, leg, line_capacity, most_leg
from fitwright.checks.welds import seams, weld_findings
from fitwright.findings import Verdict
from tests.unit.checks.samples import demo, one, table


def test_alike_joints_are_one_seam() -> None:
    found = {(seam.first, seam.second, seam.count) for seam in seams(demo("drying-rack")[1])}
    assert ("ledge", "hoop", 16) in found
    assert ("tie", "hoop", 4) in found


def test_every_welded_joint_of_the_demos_gets_a_leg_on_its_thinner_wall() -> None:
    for name in ("drying-rack", "coat-rail", "workbench"):
        found = [f for f in weld_findings(*demo(name)) if f.check == "leg of the weld"]
        assert found
        assert {f.verdict for f in found} == {Verdict.HOLDS}


def test_leg_on_thin_and_on_thick() -> None:
    thin = leg(1.65)
    assert (thin.least, thin.most, thin.make) == pytest.approx((1.65, 2.475, 1.65))
    thick = leg(10.0)
    assert (thick.least, thick.most, thick.make) == pytest.approx((5.0, 8.4, 5.0))
    assert most_leg(1.0) == 1.5


def test_the_wall_governs_where_it_is_thin() -> None:
    filler = filler_for("steel")
    assert filler is not None
    assert line_capacity(3.0, filler.strength, ((1.2, 221.0),)) == pytest.approx(0.40 * 221 * 1.2)
    assert filler_for("softwood") is None


THIN = """
  brace:
    stock: {stock}
    path: [[20, 20, 300], [20, 380, 300]]
    mirror: {{x: 400}}
"""


def test_thin_on_thick_asks_for_care() -> None:
    job, piece = table(THIN.format(stock="thin"))
    found = weld_findings(job, piece)
    assert one(found, "burn-through").verdict is Verdict.TIGHT
    assert one(found, "burn-through").value == pytest.approx(1.0)


def test_steel_is_not_welded_to_aluminium() -> None:
    found = weld_findings(*table(THIN.format(stock="light")))
    assert one(found, "metals").verdict is Verdict.FAILS
