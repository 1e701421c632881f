"""What the forms say, in the text: only what differs is changed, and what was emptied is gone."""

from __future__ import annotations

import pytest

from fitwright.job import parse_job
from fitwright.web.errors import NotTaken, NotThere
from fitwright.web.pages.place.survey import survey_of
from fitwright.web.pages.place.writing import with_measures, with_one, with_wishes, without_one
from tests.demos import EXAMPLES

BENCH = (EXAMPLES / "workbench" / "job.yaml").read_text(encoding="utf-8")
BARE = """job: {name: a, unit: mm}
stock: {post: square bar 40}
parts:
  post: {stock: post, path: [[20, 20, 0], [20, 20, 1000]]}
"""


def filled(text: str, **changed: str) -> dict[str, str]:
    """The form of the diagrams as it is sent, with some fields filled in; `__` stands for a dot."""
    survey = survey_of(text)
    form = {e.name: e.text for e in (*survey.elevation, *survey.plan, *survey.floor, *survey.listed, *survey.rest)}
    return form | {name.replace("__", "."): value for name, value in changed.items()}


def test_a_form_sent_as_it_came_changes_nothing() -> None:
    assert with_wishes(with_measures(BENCH, filled(BENCH)), filled(BENCH)) == BENCH


def test_one_length_changes_one_word() -> None:
    text = with_measures(BENCH, filled(BENCH, opening__width__1="64 5/16"))
    assert text == BENCH.replace("[64 1/2, 64 3/8, 64 7/16]", "[64 1/2, 64 5/16, 64 7/16]")


def test_a_first_survey() -> None:
    text = with_measures(BARE, filled(BARE, opening__width__0="700", opening__depth__0="420", opening__lean__left="3"))
    opening = parse_job(text).space.opening
    assert opening is not None
    assert opening.widths == ((0.0, 700.0),)
    assert opening.lean == {"left": 3.0}
    text = with_measures(text, filled(text, floor__0="0", floor__1="2", floor__2="1", floor__3="3"))
    assert [height for _, height in parse_job(text).space.floor] == [0.0, 2.0, 1.0, 3.0]


def test_emptied_is_taken_out() -> None:
    plan = {f"opening__plan__{side}": "" for side in ("front", "back", "left", "right", "diagonals__0", "diagonals__1")}
    text = with_measures(BENCH, filled(BENCH, opening__lean__left="", **plan, **{f"floor__{k}": "" for k in range(4)}))
    space = parse_job(text).space
    assert space.opening is not None
    assert space.opening.plan is None
    assert space.opening.lean == {}
    assert space.floor == ()


def test_half_a_list_is_refused() -> None:
    with pytest.raises(NotTaken, match="one width"):
        with_measures(BENCH, filled(BENCH, opening__width__1=""))
    with pytest.raises(NotTaken, match="diagonal"):
        with_measures(BENCH, filled(BENCH, opening__plan__left=""))
    with pytest.raises(NotTaken, match="floor"):
        with_measures(BENCH, filled(BENCH, floor__2=""))


def test_sizes_with_their_place_keep_it() -> None:
    text = BARE + "space: {opening: {width: [{at: 0, is: 700}, {at: 900, is: 690, station: 300}]}}\n"
    changed = with_measures(text, filled(text, **{"opening__width__1__is": "688"}))
    assert changed == text.replace("690", "688")


def test_wishes() -> None:
    text = with_wishes(BENCH, filled(BENCH, clear__left="", aisle="40", skirting__on="left back",
                                     skirting__height="4", skirting__thickness="1/2"))  # fmt: skip
    space = parse_job(text).space
    assert set(space.clear) == {"right", "back"}
    assert space.aisle == pytest.approx(40 * 25.4)
    assert space.skirting is not None
    assert space.skirting.on == ("left", "back")


SHELF = {
    "on": "back", "at.0": "100", "at.1": "300", "size.0": "80", "size.1": "80", "size.2": "10", "reach": "", "room": "",
}  # fmt: skip


def test_a_thing_is_added_changed_and_taken_out() -> None:
    text = with_one(BARE, "thing on a wall", "socket", SHELF, new=True)
    assert parse_job(text).space.things[0].on == "back"
    text = with_one(text, "thing on a wall", "socket", {**SHELF, "at.1": "320", "reach": "front"}, new=False)
    (thing,) = parse_job(text).space.things
    assert (thing.low[1], thing.reach) == (320.0, "front")
    text = with_one(text, "thing on a wall", "socket", {**SHELF, "at.1": "320"}, new=False)
    assert parse_job(text).space.things[0].reach is None
    assert parse_job(without_one(text, "thing on a wall", "socket")).space.things == ()


def test_what_cannot_be_added() -> None:
    with pytest.raises(NotTaken, match="already"):
        with_one(BENCH, "thing on a wall", "outlet", SHELF, new=True)
    with pytest.raises(NotTaken, match="lengths of at"):
        with_one(BARE, "thing on a wall", "socket", {**SHELF, "at.0": ""}, new=True)
    with pytest.raises(NotTaken, match="kind"):
        with_one(BARE, "moat", "socket", SHELF, new=True)
    with pytest.raises(NotTaken, match="taken out or renamed"):
        with_one(BARE, "door", "gate", {}, new=False)
    with pytest.raises(NotThere):
        without_one(BARE, "door", "gate")


def test_a_door_is_added() -> None:
    form = {"hinge.0": "720", "hinge.1": "0", "width": "600", "shut": "right", "opens": "front", "turns": "100"}
    (door,) = parse_job(with_one(BARE, "door", "closet", form, new=True)).space.doors
    assert (door.width, door.shut) == (600.0, "right")
