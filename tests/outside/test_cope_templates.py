"""Templates against a solid modeller and against handbook values of intersecting cylinders.

Sources: Open CASCADE Technology 8.0 (https://dev.opencascade.org), asked through the solids that `fitwright.sheets`
makes of the untrimmed members and of the trimmed ones: lines against faces, and edges of cut solids.
Handbook: z = sqrt(R^2 - r^2 sin^2 phi) / sin(theta) + r cos(phi) / tan(theta), descriptive geometry of intersecting
cylinders, as in pipe template handbooks; values computed from the formula.
"""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray
from OCP.gp import gp_Dir, gp_Lin, gp_Pnt
from OCP.IntCurvesFace import IntCurvesFace_ShapeIntersector

from fitwright.making.coping import Template
from fitwright.piece import Member, Piece
from fitwright.sheets.solids import member_solid
from fitwright.sheets.solids.sweep import segment_solid
from tests.unit.making.coping.branches import base_level, branch_on, named, template, wrapped

Floats = NDArray[np.float64]

WITHIN_MM = 0.02
POINTS = 200
THROUGH = 7
ANGLES = (30, 45, 60, 75, 90)
TUBES = (
    ("round tube 32 x 2", "round tube 32 x 2", 0.0),
    ("round tube 32 x 2", "round tube 32 x 2", 9.0),
    ("round tube 32 x 2", "round tube 19 x 1.5", 0.0),
    ("round tube 32 x 2", "round tube 19 x 1.5", 5.0),
    ("round tube 60.3 x 3", "round tube 42.4 x 2.6", 7.5),
    ("square tube 80 x 80 x 3", "round tube 42.4 x 2.6", 6.0),
    ("rectangular tube 120 x 60 x 4", "round tube 32 x 2", 0.0),
)
INCH = 25.4


class Modelled:
    """The filled, untrimmed run as a solid, asked where lines along the branch first meet it."""

    def __init__(self, piece: Piece) -> None:
        body = named(piece, "run").body
        self._faces = IntCurvesFace_ShapeIntersector()
        self._faces.Load(segment_solid(body.path.segments[0], body.frames[0], body.section, filled=True), 1e-7)

    def stop(self, points: Floats, along: Floats) -> Floats:
        """How far along a unit direction (3,) beyond points (k, 3) the run is met (k,) [mm]; infinite if missed."""
        found = []
        for x, y, z in points.tolist():
            self._faces.PerformNearest(gp_Lin(gp_Pnt(x, y, z), gp_Dir(*along.tolist())), -1e4, 1e4)
            found.append(self._first())
        return np.array(found)

    def _first(self) -> float:
        hits = [self._faces.WParameter(k) for k in range(1, self._faces.NbPnt() + 1)]
        return min(hits, default=np.inf)


def _off_curve(one: Template, line: Floats, x: Floats, y: Floats) -> Floats:
    """Distance (k,) of places (x, y), each (k,), from the drawn line on the paper [mm]."""
    curve = np.column_stack([one.around, line])
    start, way = curve[:-1], np.diff(curve, axis=0)
    away = np.column_stack([x, y])[:, None, :] - start
    part = np.clip((away * way).sum(axis=2) / np.maximum((way**2).sum(axis=1), 1e-30), 0.0, 1.0)
    return np.asarray(np.linalg.norm(away - part[:, :, None] * way, axis=2).min(axis=1))


def _lines_through(one: Template, branch: Member, depth: float, x: Floats) -> Floats:
    """Points (k, 3) at the level of the base line, `depth` mm under the outside, under places x (k,)."""
    outside = wrapped(one, branch, x, np.zeros(len(x)))
    up = branch.body.outward(one.end)
    axis = branch.body.point_at(one.end) + base_level(one, branch) * up
    return np.asarray(outside - depth * (outside - axis) / (one.girth / (2 * np.pi)))


CASES = [(*tubes, angle) for tubes in TUBES for angle in ANGLES if angle != 90 or "round" in tubes[0]]


@pytest.mark.parametrize(("run", "tube", "offset", "angle"), CASES)
def test_lines_are_where_the_modeller_meets_them(run: str, tube: str, offset: float, angle: float) -> None:
    piece = branch_on(run, tube, angle, offset)
    branch, one, modelled = named(piece, "branch"), template(piece), Modelled(piece)
    x = (np.arange(POINTS) + 0.5) / POINTS * one.girth
    wall = branch.stock.section.dimensions["wall"]
    up = branch.body.outward(1)
    met = [modelled.stop(_lines_through(one, branch, depth, x), up) for depth in np.linspace(0.0, wall, THROUGH)]
    outside, inside = met[0], met[-1]
    for line, found in ((one.bevelled, outside), (one.inside, inside)):
        hit = np.isfinite(found)
        assert hit.sum() > 0.6 * POINTS
        assert _off_curve(one, line, x[hit], found[hit]).max() < WITHIN_MM
    square = one.at(x, one.square)
    least = np.min(met, axis=0)
    # Cut square through the wall, no metal is inside the run, and along the line some of it touches.
    whole = np.isfinite(np.max(met, axis=0))
    assert (square - least)[whole].max() < WITHIN_MM
    assert _off_curve(one, one.square, x[whole], least[whole]).max() < WITHIN_MM


@pytest.mark.parametrize(
    ("run", "tube", "offset", "angle"),
    [
        ("round tube 32 x 2", "round tube 32 x 2", 0.0, 90),
        ("round tube 32 x 2", "round tube 19 x 1.5", 5.0, 45),
        ("round tube 60.3 x 3", "round tube 42.4 x 2.6", 7.5, 60),
        ("square tube 80 x 80 x 3", "round tube 42.4 x 2.6", 6.0, 30),
    ],
)
def test_edges_of_the_cut_solid_lie_on_the_lines(run: str, tube: str, offset: float, angle: float) -> None:
    piece = branch_on(run, tube, angle, offset)
    branch, one = named(piece, "branch"), template(piece)
    up, point = branch.body.outward(1), branch.body.point_at(1)
    radius = one.girth / (2 * np.pi)
    wall = branch.stock.section.dimensions["wall"]
    ends = {"outside": 0, "inside": 0}
    for edge in member_solid(branch, piece).edges():
        points = np.array([tuple(edge.position_at(float(t))) for t in np.linspace(0, 1, 50)]) - point
        along = points @ up
        spokes = points - along[:, None] * up
        across = np.linalg.norm(spokes, axis=1)
        if along.min() < -200 or np.ptp(across) > 0.01:
            continue
        out = one.seam_at / radius
        x = np.arctan2(spokes @ np.cross(up, out), spokes @ out) % (2 * np.pi) * radius
        which = "outside" if abs(across.mean() - radius) < wall / 4 else "inside"
        line = one.bevelled if which == "outside" else one.inside
        assert _off_curve(one, line, x, along - base_level(one, branch)).max() < WITHIN_MM
        ends[which] += len(points)
    assert min(ends.values()) >= 50


BOXES = (
    ("round tube 60.3 x 3", "square tube 40 x 40 x 2", 0.0, 60),
    ("round tube 76.1 x 3", "rectangular tube 50 x 30 x 3", 5.0, 45),
    ("square tube 80 x 80 x 3", "rectangular tube 50 x 30 x 3", 0.0, 30),
)


@pytest.mark.parametrize(("run", "tube", "offset", "angle"), BOXES)
def test_edges_of_cut_square_tube_lie_on_the_unfolded_line(run: str, tube: str, offset: float, angle: float) -> None:
    piece = branch_on(run, tube, angle, offset)
    branch, one = named(piece, "branch"), template(piece)
    body, section = branch.body, branch.stock.section
    up, frame = body.outward(1), body.frame_at(1)
    ring = section.outline(2400) @ frame
    if float(np.cross(*frame) @ up) < 0:  # so that it runs to the right for one who looks at it from outside
        ring = ring[::-1]
    ring = _from_point(ring, one.seam_at)
    walked = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(ring, axis=0), axis=1))])
    assert walked[-1] == pytest.approx(one.girth, abs=0.001)
    seen = 0
    for edge in member_solid(branch, piece).edges():
        points = np.array([tuple(edge.position_at(float(t))) for t in np.linspace(0, 1, 50)]) - body.point_at(1)
        along = points @ up
        uv = points @ frame.T
        if along.min() < -250 or np.abs(section.distance(uv)).max() > 1e-3:
            continue
        x = np.array([_walked_to(ring, walked, spoke) for spoke in points - along[:, None] * up])
        assert _off_curve(one, one.bevelled, x, along - base_level(one, branch)).max() < WITHIN_MM
        seen += len(points)
    assert seen >= 200


def _from_point(ring: Floats, first: Floats) -> Floats:
    """A closed outline (k, 3) that begins and ends at a point (3,) of it."""
    nexts = np.roll(ring, -1, axis=0)
    _, gap = _along(ring, nexts - ring, first)
    at = int(np.argmin(gap))
    assert gap[at] < 1e-6
    return np.vstack([first, np.roll(ring, -at - 1, axis=0), first])


def _walked_to(ring: Floats, walked: Floats, point: Floats) -> float:
    way = np.diff(ring, axis=0)
    part, gap = _along(ring[:-1], way, point)
    at = int(np.argmin(gap))
    return float(walked[at] + part[at] * np.linalg.norm(way[at]))


def _along(start: Floats, way: Floats, point: Floats) -> tuple[Floats, Floats]:
    """The nearest place on each span to a point, as a fraction of it, and how far that is from the point."""
    part = np.clip(((point - start) * way).sum(axis=1) / np.maximum((way**2).sum(axis=1), 1e-30), 0.0, 1.0)
    return part, np.linalg.norm(start + part[:, None] * way - point, axis=1)


def test_square_cope_of_equal_tubes() -> None:
    """1.25 on 1.25 in, 90 degrees: beyond the shortest line 0.08373, 0.3125, 0.625 in at 30, 60, 90 degrees."""
    tube = "round tube 31.75 x 2"
    one = template(branch_on(tube, tube, 90))
    assert one.girth / INCH == pytest.approx(3.9270, abs=1e-4)
    heights = one.at(one.girth * np.array([0, 30, 60, 90, 180, 270]) / 360, one.bevelled) / INCH
    # 0.625 at the tip itself, where the line has a corner
    assert heights - heights[0] == pytest.approx([0, 0.08373, 0.3125, 0.625, 0, 0.625], abs=1e-4)


def test_cope_of_equal_tubes_at_45_degrees() -> None:
    """1.25 on 1.25 in at 45 degrees: max less z 0, 0.20215, 0.75444, 1.50888, 1.37944, 1.28468, 1.2500 in."""
    tube = "round tube 31.75 x 2"
    one = template(branch_on(tube, tube, 45))
    # The shortest line, where the seam is, is the one on the acute side: phi = 0, both ways round.
    around = np.array([0, 30, 60, 90, 120, 150, 180])
    for places in (around, 360 - around):
        heights = one.at(one.girth * places / 360, one.bevelled) / INCH
        published = [0, 0.20215, 0.75444, 1.50888, 1.37944, 1.28468, 1.2500]
        assert heights - heights[0] == pytest.approx(published, abs=1e-4)
