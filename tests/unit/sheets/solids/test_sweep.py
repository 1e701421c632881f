"""Segments of a path as solids."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.piece.body import Body
from fitwright.piece.path import Arc, Path
from fitwright.sheets.solids.kernel import joined, solids_in, sound, volume
from fitwright.sheets.solids.sweep import ring_solid, segment_solid
from fitwright.stock import parse_stock

WORDS = (
    "round tube 32 x 2 mm",
    "pipe 1 sch 40",
    "square tube 40 x 40 x 2",
    "rect tube 50 x 25 x 2",
    "angle 30 x 30 x 3",
    "flat 25 x 6",
    "round bar 10",
    "lumber 1x4 eastern white pine",
)


def _bent(words: str, hand: int) -> Body:
    """Two bends in different planes; the frame is left-handed when hand is -1."""
    vertices = np.array([[0, 0, 0], [0, 0, 500], [400, 0, 500], [400, 300, 500.0]])
    frame = np.array([[1.0, 0, 0], [0, -1.0 * hand, 0]])
    return Body(Path(vertices, np.array([0, 100.0, 80.0, 0])), frame, parse_stock(words).section)


@pytest.mark.parametrize("hand", [1, -1])
@pytest.mark.parametrize("words", WORDS)
def test_a_straight_has_the_volume_of_its_metal(words: str, hand: int) -> None:
    body = _bent(words, hand)
    solid = segment_solid(body.path.segments[0], body.frame, body.section)
    assert volume(solid) == pytest.approx(body.section.metal_area * body.path.segments[0].length, rel=1e-9)


@pytest.mark.parametrize("hand", [1, -1])
@pytest.mark.parametrize("words", WORDS)
def test_segments_join_into_one_sound_solid(words: str, hand: int) -> None:
    """Pappus: each arc sweeps area x angle x radius of its centroid (of angle, the heel is on the path)."""
    body = _bent(words, hand)
    parts = zip(body.path.segments, body.frames, strict=True)
    whole = joined([segment_solid(segment, frame, body.section) for segment, frame in parts])
    swept = 0.0
    for segment, frame in zip(body.path.segments, body.frames, strict=True):
        outward = 0.0
        if isinstance(segment, Arc):
            spoke = (segment.start - segment.centre) / segment.radius
            outward = float(body.section.centroid @ frame @ spoke) * segment.angle
        swept += body.section.metal_area * (segment.length + outward)
    assert len(solids_in(whole)) == 1
    assert sound(whole)
    assert volume(whole) == pytest.approx(swept, rel=1e-6)


@pytest.mark.parametrize("words", ["round tube 32 x 2 mm", "square tube 25 x 25 x 2", "flat 25 x 6"])
def test_a_ring_closes_on_itself(words: str) -> None:
    corners = np.array([[150, 150, 0], [-150, 150, 0], [-150, -150, 0], [150, -150, 0.0]])
    body = Body(
        Path(corners, np.full(4, 150.0), True), np.array([[0, 1.0, 0], [0, 0, 1.0]]), parse_stock(words).section
    )
    first = body.path.segments[0]
    assert isinstance(first, Arc)
    ring = ring_solid(first, body.frame, body.section)
    assert sound(ring)
    assert volume(ring) == pytest.approx(body.section.metal_area * 2 * np.pi * 150, rel=1e-9)
