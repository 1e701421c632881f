"""Rates of change against finite differences, kind of equation by kind."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.job.marks import Arc, EdgeMark, Height, Length, Photo, PlaneMark, Quantity, Spacing, Spot, Tube
from fitwright.place.photo import solve
from fitwright.place.photo.quantities import valued
from fitwright.place.photo.solving import Solved
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, camera

BOX = (800.0, 600.0, 900.0)


@pytest.fixture(scope="module")
def solved() -> Solved:
    """Every kind of mark at once, clicked with noise, so that nothing is by chance nothing."""
    clicks = Clicks(camera(), np.random.default_rng(4), noise=1.0, stated=1.0)
    photo = box_photo(clicks, BOX, between=1)
    spots = dict(photo.spots)

    def more(name: str, *point: float) -> str:
        spots[name] = clicks(np.array(point))
        return name

    brace = tuple(more(f"b{k}", 100 + 300 * k, 0, 100 + 200 * k) for k in range(3))
    other = tuple(more(f"o{k}", 150 + 300 * k, 0, 300 + 200 * k) for k in range(2))
    arc = tuple(more(f"a{k}", 400 + 200 * np.cos(k / 2), 0, 400 + 200 * np.sin(k / 2)) for k in range(6))
    row = tuple(more(f"r{k}", 700, 0, 100 + 150 * k) for k in range(4))
    line = tuple(more(f"s{k}", 800 * k / 4, 0, 900 * k / 4) for k in range(5))
    sides = tuple(tuple(more(f"t{i}{k}", 300 + 40 * i, 0, 200 + 300 * k) for k in range(2)) for i in range(2))
    measures: dict[str, Quantity] = {
        **photo.measures,
        "slant": Length("b0", "b2", along="brace"),
        "beside": Length("b0", "o1", across="brace"),
        "bend": Arc(arc, "front"),
        "pitch": Spacing(row, "z"),
        "tall": Height("c5", "c1"),
        "tube": Tube((sides[0], sides[1]), "z", "c1"),
        "leaning tube": Tube(((brace[0], brace[1]), (other[0], other[1])), "brace", "b0"),
    }
    edges = (*photo.edges, EdgeMark("brace", brace), EdgeMark("brace", other), EdgeMark("straight", line))
    planes = {"front": PlaneMark("y", ("c0", "c1", *brace, *other, *row))}
    return solve(replace(photo, spots=spots, edges=edges, planes=planes, measures=measures), SIZE)


def steps(solved: Solved) -> np.ndarray:
    row = solved.estimate.state.row
    return np.asarray(1e-6 * np.maximum(1.0, np.abs(row)))


def moved(row: np.ndarray, k: int, by: float) -> np.ndarray:
    other = row.copy()
    other[k] += by
    return other


def test_rates_of_all_equations(solved: Solved) -> None:
    equations, row = solved.estimate.equations, solved.estimate.state.row
    rates = equations.rates(row)
    for k, step in enumerate(steps(solved)):
        numeric = (equations.misses(moved(row, k, step)) - equations.misses(moved(row, k, -step))) / (2 * step)
        assert rates[:, k] == pytest.approx(numeric, rel=1e-4, abs=1e-4 * max(1.0, np.abs(numeric).max())), k


def test_rates_of_all_quantities(solved: Solved) -> None:
    unknowns, row = solved.estimate.state.unknowns, solved.estimate.state.row
    for name, quantity in solved.photo.measures.items():
        gradient = valued(name, quantity, solved.estimate.state)[1]
        numeric = np.array(
            [
                (
                    valued(name, quantity, unknowns.state(moved(row, k, step)))[0]
                    - valued(name, quantity, unknowns.state(moved(row, k, -step)))[0]
                )
                / (2 * step)
                for k, step in enumerate(steps(solved))
            ]
        )
        assert gradient == pytest.approx(numeric, rel=1e-4, abs=1e-5), name


def test_everything_comes_out_about_right(solved: Solved) -> None:
    """Statements hold to a thousandth of the distance's noise, lengths to their plus or minus."""
    true = {"depth": 600, "height": 900, "slant": np.hypot(600, 400), "bend": 200, "pitch": 150, "tall": 900}
    for name, value in true.items():
        measure = solved.by_name[name]
        assert abs((measure.value or 0) - value) <= 2 * (measure.plus_minus or 0), name


def test_no_marks_but_the_expected_camera() -> None:
    """Without a word about it the camera stays what is expected: the gradient of what is expected is nothing there."""
    photo = Photo(spots={"a": Spot(100, 100), "b": Spot(900, 700)}, edges=(EdgeMark("x", ("a", "b")),))
    estimate = solve(photo, SIZE).estimate
    assert np.log(estimate.state.lens.focal) == pytest.approx(estimate.equations.expected.log_focal, abs=1e-6)
    assert estimate.misfit == pytest.approx(0, abs=1e-6)
