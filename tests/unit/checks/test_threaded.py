from __future__ import annotations

import re

import pytest

from fitwright.checks.threaded import thread_findings
from fitwright.findings import Verdict
from tests.unit.checks.samples import changed, demo, one, table

INSERT = """  insert:
    fitting: {label: threaded tube insert 3/8-16, length: 3/4}
    at: [frame.od / 2, frame.od / 2, caster_height]
    mirror: {x: width / 2, y: depth / 2}

finish:"""


def test_a_stem_in_a_bare_tube_end_fails_and_an_insert_cures_it() -> None:
    found = one(thread_findings(*demo("drying-rack")), "engaged")
    assert (found.verdict, found.value) == (Verdict.FAILS, 0.0)
    assert "threaded insert 3/8-16" in found.advice
    after = one(thread_findings(*changed("drying-rack", ("\nfinish:", INSERT))), "engaged")
    assert after.verdict is Verdict.HOLDS
    assert after.value == pytest.approx(12.0)


def test_a_stem_in_a_thin_wall_wants_a_plate_or_a_rivet_nut() -> None:
    found = one(thread_findings(*demo("coat-rail")), "engaged")
    assert found.value == pytest.approx(2.0 / 1.25, abs=0.01)
    assert found.verdict is Verdict.FAILS
    assert "rivet nut M8" in found.advice
    assert "after a 6.8 mm drill" in found.formula


def test_the_advised_plate_behind_the_wall_gives_three_threads() -> None:
    advice = one(thread_findings(*demo("coat-rail")), "engaged").advice
    plate = re.search(r"a plate of at least ([\d.]+) mm", advice)
    assert plate is not None
    assert (2.0 + float(plate[1])) / 1.25 >= 3.0


def test_strip_strength_is_checked_against_the_load() -> None:
    found = one(thread_findings(*demo("coat-rail")), "strip strength")
    assert found.verdict is Verdict.HOLDS
    # half of all there is to carry, 945 N, when the piece stands on two feet across its middle
    assert found.limit == pytest.approx(945 / 2 * 1.67, rel=0.01)


FOOT = """
  foot:
    foot: {{height: 30{more}}}
    at: [[{x}, 20, 690], [780, 20, 690], [20, 380, 690], [780, 380, 690]]
"""


def test_a_foot_without_a_thread_asks_for_it() -> None:
    found = one(thread_findings(*table(FOOT.format(x=20, more=""))), "how it is fixed")
    assert found.verdict is Verdict.NEEDS_INPUT
    assert "parts: foot: foot: thread" in found.advice


def test_a_thread_that_is_not_known_is_asked_for() -> None:
    found = one(thread_findings(*table(FOOT.format(x=20, more=", thread: coarse"))), "thread")
    assert "1/4-20" in found.advice


def test_a_foot_under_nothing_fails() -> None:
    found = one(thread_findings(*table(FOOT.format(x=300, more=", thread: M8"))), "engaged")
    assert found.verdict is Verdict.FAILS
    assert "nothing is over" in found.advice


BOLT = """
  fixing:
    bolt: {{size: M6, length: {length}}}
    at: [20, 200, 700]
"""


@pytest.mark.parametrize(("length", "verdict"), [(60, Verdict.HOLDS), (45, Verdict.FAILS)])
def test_a_bolt_through_a_tube_reaches_past_its_nut(length: float, verdict: Verdict) -> None:
    found = one(thread_findings(*table(BOLT.format(length=length))), "length of the bolt")
    assert found.limit == pytest.approx(40 + 0.875 * 6 + 2, abs=0.05)
    assert found.verdict is verdict


def test_a_machine_thread_in_timber_asks_what_holds_it() -> None:
    found = one(thread_findings(*demo("workbench")), "timber")
    assert found.verdict is Verdict.NEEDS_INPUT
    said = changed("workbench", ("slotted bracket with 1/4-20 bolt", "slotted bracket, 1/4-20 bolt in a wood insert"))
    assert one(thread_findings(*said), "timber").verdict is Verdict.HOLDS


PLATE = """
  plate:
    sheet: plate
    from: [0, 100, 700]
    to: [40, 300, 700]
    fastened: bolted
  fixing:
    {kind}: {{size: M6, length: {length}}}
    at: [20, 200, {z}]
"""


def test_two_tube_walls_and_a_plate_are_one_grip() -> None:
    found = one(thread_findings(*table(PLATE.format(kind="bolt", length=60, z=700))), "length of the bolt")
    assert found.limit == pytest.approx(40 + 5 + 0.875 * 6 + 2, abs=0.01)


def test_a_wall_and_a_plate_tapped_together_count_their_turns() -> None:
    found = one(thread_findings(*table(PLATE.format(kind="screw", length=20, z=700))), "engaged")
    assert found.value == pytest.approx(7 / 1.0, abs=0.01)
    assert "rail 1 and plate" in found.formula


def test_an_anchor_is_held_by_the_wall() -> None:
    more = "\n  fixing: {anchor: {size: M8 x 60, rated: 500 N}, at: [20, 400, 680]}\n"
    assert not [found for found in thread_findings(*table(more)) if found.subject == "fixing"]
