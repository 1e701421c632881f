"""What is predicted of a further mark against what it does when it is made."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.job.marks import Arc, EdgeMark, Known, LensMark, PlaneMark, Quantity, Spot
from fitwright.place.photo import Solved, advice, solve
from fitwright.place.photo.helping import candidates, spread_with, weakest
from fitwright.place.photo.solving import LIKELY
from fitwright.place.photo.usual import EXIF_SIGMA
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, camera
from tests.unit.place.photo.test_solving import face_on

BOX = (800.0, 600.0, 900.0)


def test_a_known_length_does_what_was_predicted() -> None:
    photo, _ = face_on()
    solved = solve(photo, SIZE)
    (said,) = [one for one in advice(solved) if "give diagonal as a second known length" in one.text]
    known = {**photo.known, "diagonal": Known(photo.measures["diagonal"], 1000.0, 1.0)}
    then = solve(replace(photo, known=known), SIZE).by_name["depth"]
    assert said.measure == "depth"
    assert said.now == solved.by_name["depth"].plus_minus
    assert then.plus_minus == pytest.approx(said.then, rel=0.35)
    assert (then.plus_minus or 0) < said.now / 5


def test_the_focal_length_does_what_was_predicted() -> None:
    photo, focal = face_on()
    solved = solve(photo, SIZE)
    said = next(one for one in candidates_after(solved) if one[0].startswith("use the camera's own file"))
    film = focal / np.hypot(*SIZE) * 43.267
    then = solve(replace(photo, lens=LensMark(focal_35mm=film)), SIZE).by_name["depth"]
    assert EXIF_SIGMA < 0.05
    assert then.plus_minus == pytest.approx(said[1], rel=0.35)


def candidates_after(solved: Solved) -> list[tuple[str, float]]:
    weak = weakest(solved)
    assert weak is not None
    gradient = solved.estimate.value(weak.name, weak.quantity)[2]
    return [(one.text, LIKELY * spread_with(solved, gradient, one)) for one in candidates(solved, weak)]


def test_another_edge_does_what_was_predicted() -> None:
    """A lone upright far off: its plus or minus after the edge is really marked, near to the prediction."""
    clicks = Clicks(camera(), np.random.default_rng(3), noise=1.0, stated=1.0)
    photo = box_photo(clicks, BOX, 0)
    few = tuple(edge for edge in photo.edges if edge.along != "z")
    photo = replace(photo, edges=few, measures={"depth": photo.measures["depth"]}, click=1.0)
    solved = solve(photo, SIZE)
    tried = dict(candidates_after(solved))
    text, predicted = min(((t, p) for t, p in tried.items() if " along z " in t), key=lambda pair: pair[1])
    assert predicted < 0.95 * (solved.by_name["depth"].plus_minus or 0)
    place = {"left": (0.1, 0.5), "right": (0.9, 0.5), "top left": (0.15, 0.15), "top right": (0.85, 0.15)}
    place |= {"bottom left": (0.15, 0.85), "bottom right": (0.85, 0.85), "top": (0.5, 0.1), "bottom": (0.5, 0.9)}
    where = np.array(place[text.split(" at the ")[1].removesuffix(" of the picture")]) * SIZE
    one = clicks.camera
    ray = one.lens.rays(where[None])[0]
    far = one.lens.drawn((ray + 1e-3 * one.rotation[:, 2])[None])[0] - where
    end = where + 0.4 * 1200 * far / np.linalg.norm(far) * np.sign(far @ (np.array(SIZE) / 2 - where))
    ends = {"p": Spot(float(where[0]), float(where[1]), 1.0), "q": Spot(float(end[0]), float(end[1]), 1.0)}
    more = replace(photo, spots={**photo.spots, **ends}, edges=(*photo.edges, EdgeMark("z", ("p", "q"))))
    assert solve(more, SIZE).by_name["depth"].plus_minus == pytest.approx(predicted, rel=0.3)


def test_the_best_comes_first_and_little_is_not_said() -> None:
    photo, _ = face_on()
    said = advice(solve(photo, SIZE))
    assert [one.then for one in said] == sorted(one.then for one in said)
    assert all(one.then < 0.85 * one.now for one in said)
    assert len(said) <= 3


def test_nothing_to_advise_without_a_scaled_measure() -> None:
    photo = replace(box_photo(Clicks(camera(), np.random.default_rng(1)), BOX), known={})
    assert advice(solve(photo, SIZE)) == ()


def test_a_cropped_picture_is_better_whole() -> None:
    clicks = Clicks(camera(), np.random.default_rng(3), noise=1.0, stated=1.0)
    photo = replace(box_photo(clicks, BOX, 0), cropped=True)
    assert any("before it was cropped" in text for text, _ in candidates_after(solve(photo, SIZE)))


def test_a_bend_marked_again_does_what_was_predicted() -> None:
    """Seven spots on an arc, then seven more between them: the prediction from the first seven alone."""
    clicks = Clicks(camera(), np.random.default_rng(5), noise=0.5, stated=0.5)
    photo = box_photo(clicks, BOX, 2)
    spots = dict(photo.spots)
    angles = np.radians(np.linspace(20, 80, 14))
    for k, angle in enumerate(angles):
        spots[f"arc{k}"] = clicks(np.array([400 + 120 * np.cos(angle), 0.0, 400 + 120 * np.sin(angle)]))
    planes = {"front": PlaneMark("y", ("c0", "c1", "c4", "c5"))}
    few: dict[str, Quantity] = {"bend": Arc(tuple(f"arc{k}" for k in range(0, 14, 2)), "front")}
    all_of_them: dict[str, Quantity] = {"bend": Arc(tuple(f"arc{k}" for k in range(14)), "front")}
    solved = solve(replace(photo, spots=spots, planes=planes, measures=few), SIZE)
    (said,) = [one for one in advice(solved) if one.text == "mark bend again at as many other spots"]
    then = solve(replace(photo, spots=spots, planes=planes, measures=all_of_them), SIZE).by_name["bend"]
    assert said.measure == "bend"
    assert then.plus_minus is not None
    assert then.plus_minus == pytest.approx(said.then, rel=0.35)
    assert then.plus_minus < 0.85 * said.now
