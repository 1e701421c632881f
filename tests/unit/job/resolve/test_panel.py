from __future__ import annotations

import pytest

from fitwright.job import JobFileError, parse_job
from fitwright.job.model import PanelKind, PanelSpec

FILE = """job: {name: Test, unit: mm}
stock:
  tube: round tube 30 x 2
  angle: angle 30 x 30 x 3
  flat: flat 40 x 5
  board: board 20 x 95 oak
  ply: plywood 18 mm birch
dims: {width: 800, depth: 400, height: 1800, shelves: 3}
"""


def panel(keys: str) -> PanelSpec:
    """The panel of some keys; a level face of 800 x 400 at 500 unless they say one."""
    face = "" if "from:" in keys else ", from: [0, 0, 500], to: [800, 400, 500]"
    spec = parse_job(f"{FILE}parts: {{part: {{{keys}{face}}}}}\n").parts[0]
    assert isinstance(spec, PanelSpec)
    return spec


def told(keys: str) -> str:
    """What is wrong with a panel of some keys, when one thing is."""
    with pytest.raises(JobFileError) as error:
        panel(keys)
    (mistake,) = error.value.mistakes
    return mistake.what


def test_a_level_panel_grows_up_and_runs_along_its_longer_side() -> None:
    spec = panel("slats: board, gap: 6")
    assert (spec.kind, spec.normal, spec.grows, spec.along) == (PanelKind.SLATS, 2, 1, 0)
    assert (spec.low, spec.high, spec.gap) == ((0, 0, 500), (800, 400, 500), 6)
    assert (spec.fastened, spec.removable, spec.battens) == ("rests", None, None)


def test_corners_in_any_order() -> None:
    spec = panel("solid: board, from: [95, 10, 900], to: [0, 10, 300], grows: front")
    assert (spec.low, spec.high) == ((0, 10, 300), (95, 10, 900))
    assert (spec.normal, spec.grows, spec.along) == (1, -1, 2)


def test_along_and_removable_as_said() -> None:
    spec = panel("sheet: ply, along: y, removable: front, fastened: screwed")
    assert (spec.kind, spec.along, spec.removable, spec.fastened) == (PanelKind.SHEET, 1, (0, -1, 0), "screwed")


def test_battens_have_a_usual_number_and_inset() -> None:
    battens = panel("slats: board, battens: {stock: board}").battens
    assert battens is not None
    assert (battens.count, battens.inset, battens.length) == (2, 50, None)
    said = panel("slats: board, battens: {stock: board, count: shelves, inset: 30, length: 350}").battens
    assert said is not None
    assert (said.count, said.inset, said.length) == (3, 30, 350)


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ("slats: board, from: [0, 0, 0], to: [1, 1, 1]", "differ in x, y and z"),
        ("slats: board, from: [0, 0, 0], to: [1, 0, 0]", "agree in y and z: the face that rests has no area"),
        ("slats: board, grows: left", "square to the face that rests, along z or -z"),
        ("slats: board, along: z", "no side along z: x or y"),
        ("slats: ply", "comes as a sheet: use sheet"),
        ("sheet: board", "does not come as a sheet: use solid or slats"),
        ("solid: tube", "a panel needs boards, flat or sheet"),
        ("solid: board, gap: 3", "gap is for slats, and this panel is solid"),
        ("slats: board, gap: -3", "at least 0.0 mm"),
        ("slats: board, battens: {stock: board, count: 1 1/2}", "a count has to be whole"),
        ("slats: board, battens: {stock: bord}", "not a short name under stock"),
    ],
)
def test_what_a_panel_cannot_be(keys: str, says: str) -> None:
    assert says in told(keys)
