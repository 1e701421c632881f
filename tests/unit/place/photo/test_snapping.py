from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.place.photo import snapped

Floats = NDArray[np.float64]


def half_plane(point: Floats, normal: Floats, bow: float = 0.0, noise: float = 0.0) -> NDArray[np.uint8]:
    """Dark on one side of a line (bowed by so much at the middle of 300 px), blurred by 0.8 px, 240 x 320."""
    v, u = np.mgrid[:240, :320].astype(float)
    toward = np.array([-normal[1], normal[0]])
    away = (u - point[0]) * normal[0] + (v - point[1]) * normal[1]
    along = (u - point[0]) * toward[0] + (v - point[1]) * toward[1]
    edge = away - bow * (1 - (along / 150) ** 2)
    grey = 60 + 120 / (1 + np.exp(-edge / 0.5))
    grained = grey + noise * np.random.default_rng(1).standard_normal(grey.shape)
    return np.asarray(np.clip(grained, 0, 255), dtype=np.uint8)


@pytest.mark.parametrize("angle_deg", [0, 17, 90, 131])
@pytest.mark.parametrize("noise", [0.0, 6.0])
def test_to_a_fraction_of_a_pixel(angle_deg: float, noise: float) -> None:
    normal = np.array([np.cos(np.radians(angle_deg)), np.sin(np.radians(angle_deg))])
    middle, toward = np.array([160.3, 119.6]), np.array([-normal[1], normal[0]])
    grey = half_plane(middle, normal, noise=noise)
    rough = [middle + side * 90 * toward + off * normal for side, off in ((-1, 4.0), (1, -3.0))]
    found = snapped(grey, *rough)
    assert found.found
    assert np.abs((found.spots - middle) @ normal).max() < (0.1 if noise == 0 else 0.3)
    assert found.sigma < 1


def test_a_bowed_edge_keeps_its_bow() -> None:
    middle, normal = np.array([160.0, 120.0]), np.array([0.0, 1.0])
    grey = half_plane(middle, normal, bow=2.0)
    spots = snapped(grey, np.array([20.0, 121.0]), np.array([300.0, 119.0])).spots
    assert spots[len(spots) // 2, 1] - spots[0, 1] == pytest.approx(2 * (140 * 0.88 / 150) ** 2, abs=0.2)


def test_the_strongest_edge_wins_over_a_nearer_weak_one() -> None:
    grey = half_plane(np.array([160.0, 120.0]), np.array([0.0, 1.0])).astype(float)
    grey[114:] += 10
    found = snapped(grey.clip(0, 255).astype(np.uint8), np.array([40.0, 115.0]), np.array([280.0, 115.0]))
    assert found.spots[:, 1] == pytest.approx(120, abs=0.15)


def test_an_edge_crossed_by_things_in_front() -> None:
    grey = half_plane(np.array([160.0, 120.0]), np.array([0.0, 1.0]))
    grey[:, 100:130] = 30
    grey[:, 200:215] = 220
    found = snapped(grey, np.array([40.0, 123.0]), np.array([280.0, 118.0]))
    assert found.spots[:, 1] == pytest.approx(120, abs=0.2)


def test_nothing_to_snap_to() -> None:
    flat = np.full((240, 320), 90, dtype=np.uint8)
    noisy = np.random.default_rng(2).integers(80, 100, (240, 320)).astype(np.uint8)
    ends = np.array([40.0, 120.0]), np.array([280.0, 120.0])
    assert not snapped(flat, *ends).found
    assert not snapped(noisy, *ends).found
    assert not snapped(flat, np.array([40.0, 120.0]), np.array([45.0, 120.0])).found


def test_an_edge_out_of_reach_is_left_alone() -> None:
    grey = half_plane(np.array([160.0, 120.0]), np.array([0.0, 1.0]))
    assert not snapped(grey, np.array([40.0, 150.0]), np.array([280.0, 150.0])).found
    assert snapped(grey, np.array([40.0, 150.0]), np.array([280.0, 150.0]), reach=40).found


def test_marks_that_leave_the_picture() -> None:
    grey = half_plane(np.array([160.0, 120.0]), np.array([0.0, 1.0]))
    found = snapped(grey, np.array([-60.0, 121.0]), np.array([400.0, 121.0]))
    assert not found.found or np.isfinite(found.spots).all()
