from __future__ import annotations

from tests.unit.making.bench.samples import planned

SPLAYED = """
job: {name: Table, unit: mm}
stock: {tube: square tube 30 x 30 x 2, leg: round tube 25 x 2}
parts:
  rim:
    stock: tube
    outside: [[0, 0, 485], [460, 0, 485], [460, 360, 485], [0, 360, 485]]
    closed: true
    corners: mitred
  leg:
    stock: leg
    path: [[-20, -20, 0], [20, 20, 470]]
    ends: {start: level, finish: auto}
    mirror: {x: 230, y: 180}
"""

TROLLEY = """
job: {name: Trolley, unit: mm}
stock: {tube: round tube 25 x 2}
parts:
  side:
    stock: tube
    outside: [[0, 0, 0], [0, 0, 750], [0, 450, 750], [0, 450, 0]]
    radius: 75
    repeat: {x: [0, 700]}
  low cross:
    stock: tube
    path: [[12.5, 12.5, 200], [687.5, 12.5, 200]]
    mirror: {y: 225}
  low side:
    stock: tube
    path: [[12.5, 12.5, 200], [12.5, 437.5, 200]]
    mirror: {x: 350}
"""


def test_a_leg_that_leans_is_set_out_and_not_plumbed() -> None:
    """Drawn from 20 mm within the rim to 20 mm without, over 470 mm: 40 each way, standing on a rim 30 mm high."""
    whole = planned(SPLAYED)[-1]
    assert not any("plumb" in step for step in whole.steps)
    legs = [step for step in whole.steps if step.startswith("Stand")]
    assert len(legs) == 4
    assert all("30.0 mm above the bench; over 470.0 mm of height it leans 40.0 mm to the" in step for step in legs)
    feet = {(x, y) for x in (20, 440) for y in (20, 340)}
    told = {
        (x, y) for x, y in feet for step in legs if f"lower end {x}.0 mm from the left and {y}.0 mm from the" in step
    }
    assert told == feet
    front_left = next(step for step in legs if "20.0 mm from the left and 20.0 mm" in step)
    assert "leans 40.0 mm to the left and 40.0 mm to the front" in front_left
    assert not [f for f in whole.findings if f.check == "squares"]


def test_what_stands_on_its_edge_is_set_by_its_sides() -> None:
    """The low frame lies between the legs of a side and bears on no block: its height there, less half a tube."""
    whole = planned(TROLLEY)[-1]
    (stood,) = [step for step in whole.steps if step.startswith("Stand low cross")]
    assert "plumb both ways" in stood
    assert "its left side marked 187.5 mm from the left and its front side marked 0.0 mm from the front" in stood


def test_what_stands_is_held_by_a_tack() -> None:
    whole = planned(TROLLEY)[-1]
    (stood,) = [step for step in whole.steps if step.startswith("Stand low cross")]
    assert stood.endswith("hold it with one tack at its foot.")


def test_what_lies_above_is_told_how_high() -> None:
    """Two sides 700 mm apart over all, of 25 mm tube."""
    whole = planned(TROLLEY)[-1]
    (over,) = [step for step in whole.steps if "brought over" in step]
    assert over.endswith("its underside 675.0 mm above the bench.")
