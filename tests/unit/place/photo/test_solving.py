"""Set-ups that say less than everything, and what is still known; moved marks; contradictions."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.job.marks import EdgeMark, Known, Length, LensMark, Photo, PlaneMark, Spot
from fitwright.place.photo import MarksError, Solved, doubts, solve
from tests.unit.place.photo.samples import SIZE, Camera, Clicks, box_photo, camera, looking

BOX = (800.0, 600.0, 900.0)


def clicks(one: Camera | None = None, noise: float = 0.5, seed: int = 5) -> Clicks:
    return Clicks(one or camera(), np.random.default_rng(seed), noise=noise)


def kinds(solved: Solved) -> set[str]:
    return {doubt.kind for doubt in doubts(solved)}


def covers(solved: Solved, name: str, true: float) -> bool:
    measure = solved.by_name[name]
    return measure.value is not None and abs(measure.value - true) <= 1.3 * (measure.plus_minus or 0)


def face_on() -> tuple[Photo, float]:
    """Straight before the front of a box, whose depth runs to a point in the middle: one-point perspective."""
    eye = np.array([500.0, -2600.0, 1400.0])
    one = camera()
    straight = Camera(replace(one.lens, barrel=0.0), looking(eye, eye + np.array([0.0, 1.0, 0.0])), eye)
    photo = box_photo(clicks(straight), BOX, 3)
    return photo, straight.lens.focal


def test_a_good_view_has_nothing_to_doubt() -> None:
    solved = solve(box_photo(clicks(), BOX), SIZE)
    assert kinds(solved) == set()
    assert covers(solved, "depth", 600)


def test_one_point_perspective_is_said_and_covered() -> None:
    photo, _ = face_on()
    solved = solve(photo, SIZE)
    assert "one-point" in kinds(solved)
    assert "focal" in kinds(solved)
    depth, height = solved.by_name["depth"], solved.by_name["height"]
    assert covers(solved, "depth", 600)
    assert (depth.plus_minus or 0) > 0.1 * 600
    # What lies in the front plane does not need the focal length.
    assert covers(solved, "height", 900)
    assert (height.plus_minus or 0) < 0.02 * 900


def test_one_point_perspective_with_the_focal_length_known() -> None:
    photo, focal = face_on()
    solved = solve(replace(photo, lens=LensMark(focal=focal)), SIZE)
    assert covers(solved, "depth", 600)
    assert (solved.by_name["depth"].plus_minus or 0) < 0.04 * 600
    assert "focal" not in kinds(solved)


def test_one_direction_of_edges_only() -> None:
    photo = box_photo(clicks(), BOX, 3)
    upright = tuple(edge for edge in photo.edges if edge.along == "z")
    first = upright[0].spots
    known = {"post": Known(Length(first[0], first[-1], along="z"), 900, 0.3)}
    other = Length(upright[1].spots[0], upright[1].spots[-1], along="z")
    solved = solve(replace(photo, edges=upright, known=known, measures={"next post": other}), SIZE)
    assert "directions" in kinds(solved)
    # The other post hangs on nothing that ties it to the first.
    assert "unscaled" in kinds(solved)
    assert solved.by_name["next post"].value is None


def test_edges_nearly_parallel_and_close_together_are_said() -> None:
    spots = {"a": Spot(700, 500), "b": Spot(730, 502), "c": Spot(700, 520), "d": Spot(730, 522.5), "e": Spot(705, 650)}
    edges = (EdgeMark("x", ("a", "b")), EdgeMark("x", ("c", "d")), EdgeMark("z", ("a", "e")))
    solved = solve(Photo(spots=spots, edges=edges, measures={"w": Length("a", "b")}), SIZE)
    assert "parallel" in kinds(solved)


def cropped(said: bool | None) -> Solved:
    """The right three fifths of a picture cut away on the left and top: its middle is 320 px from the lens's axis."""
    one = camera(centre=(300, 500), barrel=0.0)
    photo = box_photo(clicks(one, seed=2), BOX, 3)
    return solve(replace(photo, cropped=said), SIZE)


def test_a_cropped_picture() -> None:
    assert "centre" in kinds(cropped(None))
    solved = cropped(True)
    assert "cropped" in kinds(solved)
    assert covers(solved, "depth", 600)
    assert covers(solved, "height", 900)
    assert solved.estimate.state.lens.centre[0] == pytest.approx(300, abs=120)


def test_no_known_length_gives_proportions() -> None:
    solved = solve(replace(box_photo(clicks(), BOX), known={}), SIZE)
    depth, height = solved.by_name["depth"], solved.by_name["height"]
    assert depth.value is None
    assert (depth.share, depth.share_plus_minus) == (1, 0)
    assert height.share == pytest.approx(900 / 600, abs=1.3 * height.share_plus_minus)
    assert height.share_of == "depth"
    assert "unscaled" in kinds(solved)


def test_a_known_length_between_things_not_tied_is_not_used() -> None:
    photo = box_photo(clicks(), BOX)
    lone = {"p": clicks()(np.array([900.0, 900.0, 0.0]))}
    known = {**photo.known, "odd": Known(Length("c4", "p"), 1000, 1)}
    solved = solve(replace(photo, spots={**photo.spots, **lone}, known=known), SIZE)
    assert solved.ignored == ("odd",)
    assert "untied" in kinds(solved)
    assert covers(solved, "depth", 600)


def test_two_known_lengths_are_better_than_one() -> None:
    photo = box_photo(clicks(), BOX)
    one = solve(photo, SIZE).by_name["diagonal"]
    both = {**photo.known, "height": Known(photo.measures["height"], 900, 0.3)}
    two = solve(replace(photo, known=both), SIZE).by_name["diagonal"]
    assert (two.plus_minus or 0) < (one.plus_minus or 0)


def test_a_moved_mark_from_where_it_was() -> None:
    """The answer from the last one is that from nothing."""
    photo = box_photo(clicks(), BOX)
    before = solve(photo, SIZE)
    moved = replace(photo, spots={**photo.spots, "c6": replace(photo.spots["c6"], u=photo.spots["c6"].u + 3)})
    warm, cold = solve(moved, SIZE, before=before), solve(moved, SIZE)
    for name in photo.measures:
        assert warm.by_name[name].value == pytest.approx(cold.by_name[name].value, rel=1e-5)
        assert warm.by_name[name].plus_minus == pytest.approx(cold.by_name[name].plus_minus, rel=1e-3)
    assert warm.by_name["depth"].value != before.by_name["depth"].value


def test_a_new_mark_begins_anew() -> None:
    photo = box_photo(clicks(), BOX)
    before = solve(photo, SIZE)
    more = replace(photo, measures={**photo.measures, "other": Length("c5", "c6")})
    assert solve(more, SIZE, before=before).by_name["other"].value == pytest.approx(1000, rel=0.02)
    plane = replace(more, planes={"top": PlaneMark("z", ("c4", "c5"))})
    assert solve(plane, SIZE, before=before).by_name["other"].value == pytest.approx(1000, rel=0.02)


def test_marks_that_do_not_agree_raise_every_plus_or_minus() -> None:
    photo = box_photo(clicks(), BOX)
    good = solve(photo, SIZE)
    wrong = replace(photo, spots={**photo.spots, "m46.1": replace(photo.spots["m46.1"], v=photo.spots["m46.1"].v + 25)})
    solved = solve(wrong, SIZE)
    assert solved.estimate.raised > 2
    (said,) = [doubt.text for doubt in doubts(solved) if doubt.kind == "disagree"]
    assert "m46.1 is the furthest off" in said
    assert (solved.by_name["height"].plus_minus or 0) > 2 * (good.by_name["height"].plus_minus or 0)


def test_an_edge_under_the_wrong_direction_is_noticed() -> None:
    photo = box_photo(clicks(), BOX)
    loose = {"p": photo.spots["c4"], "q": photo.spots["c6"]}
    wrong = replace(photo, spots={**photo.spots, **loose}, edges=(*photo.edges, EdgeMark("x", ("p", "q"))))
    assert "disagree" in kinds(solve(wrong, SIZE))


def test_an_edge_along_two_directions_is_refused() -> None:
    photo = box_photo(clicks(), BOX)
    with pytest.raises(MarksError, match="one and the same point"):
        solve(replace(photo, measures={"wrong": Length("c4", "c6", along="x")}), SIZE)


def test_axes_come_out_whichever_way_marks_were_clicked() -> None:
    photo = box_photo(clicks(), BOX)
    turned = tuple(replace(edge, spots=edge.spots[::-1]) for edge in photo.edges)
    other = solve(replace(photo, edges=turned), SIZE)
    assert other.by_name["depth"].value == pytest.approx(solve(photo, SIZE).by_name["depth"].value, rel=1e-6)


def test_turned_and_mirrored_pictures_give_the_same_lengths() -> None:
    """A picture lying on its side, and one seen in a mirror, are measured alike but for their hands."""
    photo = box_photo(clicks(), BOX)
    lying = {name: Spot(1199 - spot.v, spot.u, spot.click) for name, spot in photo.spots.items()}
    upright, side = solve(photo, SIZE), solve(replace(photo, spots=lying), (1200, 1600))
    for name in photo.measures:
        assert side.by_name[name].value == pytest.approx(upright.by_name[name].value, rel=1e-5)


def test_nothing_marked() -> None:
    with pytest.raises(MarksError, match="nothing is marked"):
        solve(Photo(), SIZE)
