"""Pictures of a leg: the piece at even steps, walls cut to the window, the tightest gap."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import numpy as np
import pytest

from fitwright.place.route import find_route
from fitwright.place.route.convex import box_corners
from fitwright.place.route.whole import Route
from fitwright.sheets.packet.legs import leg_picture
from fitwright.sheets.way import frames_of, scene_of
from fitwright.sheets.way.scene import clipped
from tests.demos import assessed

BENCH = assessed("workbench")


@pytest.fixture(scope="module")
def route() -> Route:
    found = find_route(BENCH.job.space.route, BENCH.piece)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("low", "high", "size"), [((-5, -5), (5, 5), (5, 5)), ((20, 20), (30, 30), None), ((2, 2), (3, 3), (1, 1))]
)
def test_walls_are_cut_to_the_window(
    low: tuple[float, float], high: tuple[float, float], size: tuple[float, float] | None
) -> None:
    found = clipped(box_corners(low, high), np.array([[0.0, 0.0], [10.0, 10.0]]))
    assert (np.ptp(found, axis=0).tolist() if len(found) else None) == (list(size) if size else None)


def test_steps_begin_and_end_where_the_way_does(route: Route) -> None:
    for leg, passage in zip(route.legs, route.passages, strict=True):
        scene = scene_of(leg, passage, route.bulk, 7)
        assert scene is not None
        assert len(scene.steps) == 7
        axes = [0, 1] if scene.view == "plan" else [1, 2]
        for step, pose in ((scene.steps[0], passage.poses[0]), (scene.steps[-1], passage.poses[-1])):
            points = pose.points(route.bulk.points)[:, axes]
            assert step.outline.min(axis=0) == pytest.approx(points.min(axis=0), abs=0.01)
        assert (scene.window[0] < step.outline.min(axis=0)).all()


def test_the_gap_shown_is_the_clearance(route: Route) -> None:
    leg, passage = route.legs[3], route.passages[3]
    scene = scene_of(leg, passage, route.bulk, 5)
    assert scene is not None
    assert scene.gap is not None
    assert passage.clearance is not None
    assert float(np.linalg.norm(scene.gap[0] - scene.gap[1])) == pytest.approx(passage.clearance, abs=0.1)


def test_frames_are_whole_svg_of_one_size(route: Route) -> None:
    frames = frames_of(route.legs[3], route.passages[3], route.bulk, count=5)
    assert frames is not None
    roots = [ET.fromstring(svg) for svg in frames.svgs]
    assert len({root.get("viewBox") for root in roots}) == 1
    assert len(set(frames.svgs)) == 5


def test_the_picture_fits_its_room(route: Route) -> None:
    for leg, passage in zip(route.legs, route.passages, strict=True):
        drawing = leg_picture(leg, passage, route.bulk, BENCH.job.style, (57.0, 66.0))
        assert drawing is not None
        assert drawing.paper.width <= 57.0
        assert drawing.paper.height <= 66.0
