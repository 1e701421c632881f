from __future__ import annotations

import numpy as np
import pytest

from fitwright.job.marks import Arc, EdgeMark, Height, Known, Length, Photo, PlaneMark, Quantity, Spacing, Spot, Tube
from fitwright.place.photo.gathering import gathered
from fitwright.place.photo.mistakes import MarksError
from fitwright.place.photo.scene import edges_of, spots_of

SPOTS = {name: Spot(10.0 * k, 5.0 * k) for k, name in enumerate("abcdefgh")}


def photo(*edges: EdgeMark, planes: dict[str, PlaneMark] | None = None, **measures: Quantity) -> Photo:
    return Photo(spots=SPOTS, edges=edges, planes=planes or {}, measures=measures)


def test_an_edge_shares_the_two_other_coordinates() -> None:
    scene = gathered(photo(EdgeMark("x", ("a", "b"))), 1.0)
    one, other = scene.index
    assert scene.names == ("a", "b")
    assert [bool(same) for same in one == other] == [False, True, True]
    assert scene.unknowns == 4


def test_a_plane_shares_one_coordinate() -> None:
    scene = gathered(photo(planes={"top": PlaneMark("z", ("a", "b", "c"))}), 1.0)
    assert len(set(scene.index[:, 2].tolist())) == 1
    assert scene.unknowns == 7
    assert set(scene.group.tolist()) == {0}


def test_edges_that_do_not_meet_are_groups_apart() -> None:
    scene = gathered(photo(EdgeMark("x", ("a", "b")), EdgeMark("z", ("c", "d"))), 1.0)
    assert scene.groups_of(("a", "b")) != scene.groups_of(("c", "d"))


def test_a_slanted_edge_ties_without_sharing() -> None:
    scene = gathered(photo(EdgeMark("brace", ("a", "b", "c"))), 1.0)
    assert scene.unknowns == 9
    assert scene.slanted[0].pairs.tolist() == [[0, 1], [0, 2]]
    assert len(scene.groups_of("abc")) == 1


def test_a_straight_edge_has_no_points_in_space() -> None:
    scene = gathered(photo(EdgeMark("straight", ("a", "b", "c"))), 0.7)
    assert scene.names == ()
    assert scene.straights[0].pixels.tolist() == [[0, 0], [10, 5], [20, 10]]
    assert scene.straights[0].sigmas.tolist() == [0.7] * 3


def test_a_foot_stands_on_the_floor() -> None:
    floor = {"floor": PlaneMark("z", ("a", "b"))}
    scene = gathered(photo(planes=floor, tall=Height("c", "d")), 1.0)
    top, foot, ground = (scene.index[scene.at(name)] for name in "cda")
    assert foot[2] == ground[2] != top[2]
    assert (top[:2] == foot[:2]).all()


def test_a_spot_has_its_own_click_where_said() -> None:
    spots = {"a": Spot(0, 0, click=0.2), "b": Spot(9, 9)}
    scene = gathered(Photo(spots=spots, edges=(EdgeMark("x", ("a", "b")),)), 1.5)
    assert scene.sigmas.tolist() == [0.2, 1.5]


def test_quantities_are_marks_too() -> None:
    tube = Tube((("a", "b"), ("c", "d")), "z", "e")
    marks = Photo(
        spots=SPOTS,
        known={"k": Known(Length("a", "b", along="x"), 5, 1)},
        measures={
            "t": tube,
            "s": Spacing(("a", "b", "c"), "y"),
            "d": Length("a", "e"),
            "w": Length("a", "e", across="x"),
        },
    )
    edges = edges_of(marks)
    assert [(edge.along, edge.spots) for edge in edges] == [
        ("x", ("a", "b")), ("z", ("a", "b")), ("z", ("c", "d")), ("y", ("a", "b", "c")),
    ]  # fmt: skip
    assert spots_of(tube) == ("e",)


def test_an_arc_has_a_centre_and_a_radius_in_its_plane() -> None:
    planes = {"front": PlaneMark("y", ("a", "b"))}
    scene = gathered(photo(planes=planes, bend=Arc(tuple("cdefg"), "front")), 1.0)
    arc = scene.rounds["bend"]
    assert arc.others == (0, 2)
    assert len(set(scene.index[:, 1].tolist())) == 1
    assert len({*arc.centre, arc.radius, *scene.index.ravel().tolist()}) == scene.unknowns


def test_a_row_is_even() -> None:
    scene = gathered(photo(pitch=Spacing(("a", "b", "c"), "z")), 1.0)
    row = scene.rows["pitch"]
    assert row.coordinates.tolist() == scene.index[:, 2].tolist()
    assert np.all(scene.group == 0)


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (photo(EdgeMark("x", ("a", "nobody"))), "no spot is called 'nobody'"),
        (photo(EdgeMark("x", ("a", "a"))), "1 different spots: mark 2 or more"),
        (photo(EdgeMark("straight", ("a", "b"))), "mark 3 or more"),
        (photo(pitch=Spacing(("a", "b"), "z")), "mark 3 or more"),
        (photo(bend=Arc(tuple("abcd"), "front")), "mark 5 or more"),
        (photo(bend=Arc(tuple("abcde"), "front")), "no plane is called 'front'; planes marked: none yet"),
    ],
)
def test_marks_that_cannot_be(wrong: Photo, says: str) -> None:
    with pytest.raises(MarksError, match=says):
        gathered(wrong, 1.0)
