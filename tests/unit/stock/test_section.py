"""What every section promises, on one of each shape."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.stock import Angle, Flat, Lumber, Pipe, RectTube, RoundBar, RoundTube, Section
from fitwright.stock.section import Points, rounded_distance

SECTIONS: list[Section] = [
    RoundTube(31.75, 1.651),
    RoundTube(42.0, 3.5, 3.3),
    Pipe(42.164, 3.556, 3.302, "1 1/4", "40"),
    RoundBar(9.525),
    RectTube(40.0, 40.0, 2.0, 4.0),
    RectTube(60.0, 30.0, 3.0, 3.0),
    RectTube(60.0, 30.0, 3.0, 1.0),
    RectTube(60.0, 30.0, 3.0, 0.0),
    Flat(25.4, 6.35),
    Flat(12.0, 12.0),
    Lumber(88.9, 38.1, "2x4"),
    Angle(30.0, 30.0, 3.0, 5.0, 2.5),
    Angle(50.0, 30.0, 5.0, 4.0, 2.0),
    Angle(50.0, 30.0, 3.0, 6.0, 3.0),
    Angle(38.1, 38.1, 3.175),
]


def shoelace(points: Points) -> tuple[float, Points]:
    """Area and centroid of a polygon (k, 2), counterclockwise positive."""
    following = np.roll(points, -1, axis=0)
    cross = points[:, 0] * following[:, 1] - following[:, 0] * points[:, 1]
    area = cross.sum() / 2
    return float(area), (points + following).T @ cross / (6 * area)


@pytest.mark.parametrize("section", SECTIONS)
def test_fibres_sum_to_the_area_and_its_first_moment(section: Section) -> None:
    fibres = section.fibres()
    assert fibres[:, 2].sum() == section.area
    assert (fibres[:, 2] > 0).all()
    np.testing.assert_allclose(fibres[:, 2] @ fibres[:, :2], section.area * section.centroid, atol=1e-9)
    assert len(fibres) <= 250


@pytest.mark.parametrize("section", SECTIONS)
def test_outline_runs_counterclockwise_and_encloses_the_metal(section: Section) -> None:
    outer, centroid = shoelace(section.outline(720))
    bore = section.bore(720)
    inner = shoelace(bore)[0] if bore is not None else 0.0
    assert outer > 0
    assert outer - inner == pytest.approx(section.metal_area, rel=2e-4)
    if bore is None:
        np.testing.assert_allclose(centroid, section.centroid, atol=5e-3)


@pytest.mark.parametrize("section", SECTIONS)
def test_distance_is_nothing_on_the_outline_and_negative_at_the_fibres(section: Section) -> None:
    outline = section.outline()
    np.testing.assert_allclose(section.distance(outline), 0.0, atol=1e-9)
    assert (section.distance(section.fibres()[:, :2]) < 0).all()
    far = outline * 3 + np.sign(outline)
    assert (section.distance(far[np.abs(outline).min(axis=1) > 1]) > 0).all()


@pytest.mark.parametrize("section", SECTIONS)
def test_distance_agrees_with_the_nearest_point_of_a_fine_outline(section: Section) -> None:
    low_u, high_u, low_v, high_v = section.extents
    grid = np.stack(
        np.meshgrid(np.linspace(low_u - 7, high_u + 7, 13), np.linspace(low_v - 7, high_v + 7, 11)), axis=-1
    )
    fine = section.outline(1440)
    along = np.roll(fine, -1, axis=0) - fine
    spokes = grid[:, :, None] - fine
    where = np.clip((spokes * along).sum(axis=-1) / (along * along).sum(axis=-1), 0, 1)
    nearest = np.linalg.norm(spokes - where[..., None] * along, axis=-1).min(axis=-1)
    assert section.distance(grid).shape == grid.shape[:-1]
    np.testing.assert_allclose(np.abs(section.distance(grid)), nearest, atol=1e-3)


@pytest.mark.parametrize("section", SECTIONS)
def test_extents_hold_the_outline(section: Section) -> None:
    outline = section.outline()
    low_u, high_u, low_v, high_v = section.extents
    np.testing.assert_allclose(outline.min(axis=0), [low_u, low_v], atol=1e-9)
    np.testing.assert_allclose(outline.max(axis=0), [high_u, high_v], atol=1e-9)


@pytest.mark.parametrize("section", SECTIONS)
def test_symmetries_carry_the_fibres_onto_the_section(section: Section) -> None:
    fibres = section.fibres()
    for turn in section.symmetries():
        np.testing.assert_allclose(turn @ turn.T, np.eye(2), atol=1e-15)
        moved = fibres[:, :2] @ turn.T
        np.testing.assert_allclose(section.distance(moved), section.distance(fibres[:, :2]), atol=1e-9)
        np.testing.assert_allclose(turn @ section.centroid, section.centroid, atol=1e-9)


def test_how_many_symmetries_each_shape_has() -> None:
    counts = [len(section.symmetries()) for section in SECTIONS]
    assert counts == [1, 1, 1, 1, 8, 4, 4, 4, 4, 8, 4, 2, 1, 1, 2]
    assert [section.is_round for section in SECTIONS] == [True] * 4 + [False] * 11


@pytest.mark.parametrize("section", SECTIONS)
def test_principal_moments(section: Section) -> None:
    largest, smallest, angle = section.principal
    assert largest + smallest == pytest.approx(section.i_u + section.i_v)
    assert largest * smallest == pytest.approx(section.i_u * section.i_v - section.i_uv**2)
    fibres = section.fibres()
    across = (fibres[:, :2] - section.centroid) @ np.array([-np.sin(angle), np.cos(angle)])
    assert fibres[:, 2] @ across**2 == pytest.approx(largest)


def test_the_strong_axis_of_equal_angle_is_its_line_of_symmetry() -> None:
    assert Angle(30.0, 30.0, 3.0, 5.0, 2.5).principal[2] == pytest.approx(np.pi / 4)
    assert RectTube(40.0, 40.0, 2.0, 4.0).principal[2] == 0.0
    assert Flat(25.4, 6.35).principal[2] == pytest.approx(np.pi / 2)


def test_rounded_distance_of_a_square_by_hand() -> None:
    at = np.array([[0.0, 0.0], [7.0, 0.0], [5.0, 5.0], [6.0, 9.0]])
    inside_corner = np.hypot(1, 1) - 1
    np.testing.assert_allclose(rounded_distance(at, 10.0, 10.0, 1.0), [-5, 2, inside_corner, np.hypot(2, 5) - 1])


def test_properties_are_computed_once() -> None:
    tube = RoundTube(32.0, 2.0)
    assert tube.centroid is tube.centroid
    assert tube == RoundTube(32.0, 2.0)
    assert hash(tube) == hash(RoundTube(32.0, 2.0))
