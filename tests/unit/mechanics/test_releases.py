from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import Mechanism, along, beams, factorise, frame_model, section_forces, solve, supports
from fitwright.mechanics.assembly import element_stiffness

SECTION: dict[str, Any] = {
    "e": 2e5,
    "g": 8e4,
    "area": 200.0,
    "i_y": 2e4,
    "i_z": 3e4,
    "j": 6e4,
    "y_axis": (0.1, 1.0, 0.4),
}
NODES, PAIR = [[0, 0, 0], [300, 100, 50]], [[0, 1]]
AXES = {"y_axis": (0, 1, 0)}


def condensed(k: np.ndarray[tuple[int, int], np.dtype[np.float64]], gone: list[int]) -> object:
    """The textbook way: K_kk - K_kr K_rr^-1 K_rk, zero where released."""
    kept = [i for i in range(12) if i not in gone]
    result = np.zeros_like(k)
    block = k[np.ix_(kept, kept)] - k[np.ix_(kept, gone)] @ np.linalg.solve(
        k[np.ix_(gone, gone)], k[np.ix_(gone, kept)]
    )
    result[np.ix_(kept, kept)] = block
    return result


@pytest.mark.parametrize("gone", [[5], [4, 5], [3, 4, 5], [4, 5, 10, 11], [0, 5, 11], [1, 4], [3, 4, 5, 10, 11]])
def test_same_as_condensing_twelve_by_twelve(gone: list[int]) -> None:
    nodes = [[0, 0, 0], [300, 0, 0]]
    data = {**SECTION, "y_axis": (0, 1, 0)}
    releases = [i in gone for i in range(12)]
    whole = element_stiffness(beams(frame_model(nodes, PAIR, **data, i_yz=8e3)))[0]
    released = element_stiffness(beams(frame_model(nodes, PAIR, **data, i_yz=8e3, releases=releases)))[0]
    assert released == pytest.approx(condensed(whole, gone), rel=1e-9, abs=1e-6)


def test_released_twice_in_torsion_has_none_left() -> None:
    releases = [i in (3, 9) for i in range(12)]
    part = beams(frame_model(NODES, PAIR, **SECTION, releases=releases))
    assert part.released.free.sum() == 1
    assert np.abs(part.stiffness[0, 3]).max() < 1e-6


def test_truss_bar_still_carries_its_own_load_to_its_nodes() -> None:
    """w L / 2 at each end and w L2 / 8 in the middle, for a bar that passes no moments."""
    releases = [False, False, False, True, True, True] * 2
    model = frame_model([[0, 0, 0], [400, 0, 0]], PAIR, **{**SECTION, **AXES}, releases=releases)
    response = solve(factorise(model, supports(model, {0: "fixed", 1: "fixed"})), along(model, [[0.0, 0.0, -0.5]]))
    assert response.reactions.reshape(2, 6)[:, 2] == pytest.approx([100.0, 100.0])
    assert section_forces(response)[0, :, 4, 0] == pytest.approx([0.0, -0.5 * 400**2 / 8, 0.0], abs=1e-9)


def test_load_with_no_way_out_is_refused() -> None:
    """Both ends slide along the element: nothing holds a load along it."""
    releases = [i in (0, 6) for i in range(12)]
    model = frame_model(NODES, PAIR, **SECTION, releases=releases, element_labels=["B2"])
    factor = factorise(model, supports(model, {0: "fixed", 1: "fixed"}))
    with pytest.raises(Mechanism, match="load on B2 has no way") as caught:
        solve(factor, along(model, [[1.0, 0.0, 0.0]]))
    assert caught.value.elements == ("B2",)
