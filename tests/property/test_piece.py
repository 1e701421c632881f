"""A piece moved, turned or mirrored is the same work; drawing order does not matter; nothing runs into anything."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from fitwright.job import parse_job
from fitwright.job.model import Job, MemberSpec, PartSpec, Point
from fitwright.piece import Member, Piece, build, trimmed
from fitwright.piece.body import Body
from fitwright.piece.matter import volume
from fitwright.piece.path import Path
from fitwright.stock import RectTube, RoundTube

Floats = NDArray[np.float64]

JOBS = (
    """
job: {name: stool, unit: mm}
stock: {leg: round tube 22 x 2 mm, ring: round tube 22 x 2 mm, seat: square tube 25 x 25 x 2}
parts:
  seat: {stock: seat, path: [[0, 0, 435], [400, 0, 435], [400, 300, 435], [0, 300, 435]], closed: true}
  leg: {stock: leg, path: [[-60, -40, 0], [12, 12, 435]], mirror: {x: 200, y: 150}}
  rung: {stock: ring, path: [[-26.896551724, -14.75862069, 200], [426.896551724, -14.75862069, 200]], mirror: {y: 150}}
""",
    """
job: {name: frame, unit: mm}
stock: {tube: round tube 25 x 2 mm, post: square tube 40 x 40 x 2, flat: flat 30 x 5}
parts:
  hoop: {stock: tube, path: [[0, 0, 0], [0, 0, 600], [150, 50, 700], [500, 0, 700], [500, 0, 0]], radius: 60}
  post: {stock: post, path: [[250, 400, 0], [250, 400, 500]], ends: free}
  tie: {stock: tube, path: [[0, 0, 300], [250, 400, 300]]}
  other: {stock: tube, path: [[500, 0, 250], [250, 400, 350]]}
  brace: {stock: flat, path: [[0, 0, 100], [500, 0, 400]], wide: back}
""",
    """
job: {name: cube, unit: mm}
stock: {frame: square tube 30 x 30 x 2, ledge: angle 25 x 25 x 3, tube: round tube 20 x 2 mm}
parts:
  post: {stock: frame, path: [[15, 15, 0], [15, 15, 385]], mirror: {x: 300, y: 200}}
  long: {stock: frame, path: [[15, 15, 385], [585, 15, 385]], mirror: {y: 200}}
  short: {stock: frame, path: [[15, 15, 385], [15, 385, 385]], mirror: {x: 300}}
  ledge: {stock: ledge, path: [[15, 15, 200], [15, 385, 200]], legs: [right, down], follows: heel, mirror: {x: 300}}
  arm:
    stock: tube
    path: [[15, 15, 300], [-100, 15, 300], [-100, 150, 300], [-100, 150, 500]]
    radius: 40
    ends: [auto, free]
""",
)
QUARTERS = [np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]], dtype=float) for c, s in ((1, 0), (0, 1), (-1, 0), (0, -1))]
FLIPS = [np.diag([-1.0, 1, 1]), np.diag([1.0, -1, 1])]


def spread(text: str) -> Job:
    """The job with every copy of a part a part of its own, so that it can be moved as a whole."""
    job = parse_job(text)
    piece = build(job)
    by_part = {spec.name: spec for spec in job.parts}
    parts: list[PartSpec] = []
    for name, members in _drawn(piece).items():
        spec = by_part[members[0].part]
        assert isinstance(spec, MemberSpec)
        first = members[0].body
        line = first.path.vertices if len(members) == 1 else np.array([m.path.vertices[0] for m in members])
        frame = first.frame
        angle = spec.stock.section.shape == "angle"
        parts.append(
            replace(
                spec,
                name=name,
                points=tuple(_point(p) for p in line),
                placings=(),
                follows="heel" if angle else "centre",
                legs=(_point(frame[0]), _point(frame[1])) if angle else None,
                wide=None if angle or spec.stock.section.is_round else _point(frame[0]),
            )
        )
    return replace(job, parts=tuple(parts))


def _drawn(piece: Piece) -> dict[str, list[Member]]:
    groups: dict[str, list[Member]] = {}
    for member in piece.members:
        groups.setdefault(member.name.split(" leg ")[0] if " leg " in member.name else member.name, []).append(member)
    return groups


def _point(vector: Floats) -> Point:
    x, y, z = (float(v) for v in vector)
    return x, y, z


def moved(job: Job, turn: Floats, move: Floats) -> Job:
    def turned(p: Point) -> Point:
        return _point(turn @ np.array(p))

    def part(spec: PartSpec) -> PartSpec:
        assert isinstance(spec, MemberSpec)
        legs = None if spec.legs is None else (turned(spec.legs[0]), turned(spec.legs[1]))
        wide = None if spec.wide is None else turned(spec.wide)
        points = tuple(_point(turn @ np.array(p) + move) for p in spec.points)
        return replace(spec, points=points, legs=legs, wide=wide)

    return replace(job, parts=tuple(part(spec) for spec in job.parts))


SPREAD = [spread(text) for text in JOBS]
BUILT = [build(job) for job in SPREAD]


def work(piece: Piece) -> list[tuple[str, float, float, str]]:
    """What has to be made, whatever its place: stock, cut length, mass and kinds of cut of every member."""
    return sorted(
        (
            member.part,
            round(member.cut_length, 2),
            round(member.mass, 5),
            "-".join(sorted(end.kind.value for end in member.ends)),
        )
        for member in piece.members
    )


def same_work(first: Piece, second: Piece) -> None:
    for one, other in zip(work(first), work(second), strict=True):
        assert one[0] == other[0]
        assert one[1:3] == pytest.approx(other[1:3], abs=0.02)
        assert one[3] == other[3]


def joints(piece: Piece) -> Counter[tuple[str, frozenset[str]]]:
    names = [member.name for member in piece.members]
    return Counter((j.kind.value, frozenset((names[j.first], names[j.second]))) for j in piece.joints)


@settings(max_examples=12, deadline=None)
@given(
    which=st.sampled_from(range(len(JOBS))),
    quarter=st.sampled_from(range(4)),
    flip=st.sampled_from([None, 0, 1]),
    x=st.floats(-2000, 2000),
    y=st.floats(-2000, 2000),
)
def test_moved_turned_and_mirrored_it_is_the_same_work(
    which: int, quarter: int, flip: int | None, x: float, y: float
) -> None:
    turn = QUARTERS[quarter] @ (np.eye(3) if flip is None else FLIPS[flip])
    move = np.array([x, y, 0.0])
    piece, again = BUILT[which], build(moved(SPREAD[which], turn, move))
    same_work(piece, again)
    assert joints(piece) == joints(again)
    assert again.mass == pytest.approx(piece.mass, rel=1e-6)
    assert again.centre == pytest.approx(turn @ piece.centre + move, abs=1e-3)
    corners = np.array([turn @ piece.envelope.low + move, turn @ piece.envelope.high + move])
    assert again.envelope.low == pytest.approx(corners.min(axis=0), abs=0.02)
    assert again.envelope.high == pytest.approx(corners.max(axis=0), abs=0.02)
    assert [(m.mark, m.names, m.mirror_of) for m in again.marks] == [
        (m.mark, m.names, m.mirror_of) for m in piece.marks
    ]


@settings(max_examples=10, deadline=None)
@given(which=st.sampled_from(range(len(JOBS))), data=st.data())
def test_members_may_be_drawn_from_either_end(which: int, data: st.DataObject) -> None:
    job = SPREAD[which]
    turned = data.draw(st.lists(st.booleans(), min_size=len(job.parts), max_size=len(job.parts)))

    def reverse(spec: PartSpec) -> PartSpec:
        assert isinstance(spec, MemberSpec)
        ends = (spec.ends[1], spec.ends[0])
        return replace(spec, points=spec.points[::-1], radii=spec.radii[::-1], ends=ends)

    parts = tuple(reverse(spec) if flip else spec for spec, flip in zip(job.parts, turned, strict=True))
    piece, again = BUILT[which], build(replace(job, parts=parts))
    assert sorted(m.mass for m in again.members) == pytest.approx(sorted(m.mass for m in piece.members), rel=1e-5)
    lengths = sorted(m.cut_length for m in piece.members)
    assert sorted(m.cut_length for m in again.members) == pytest.approx(lengths, abs=0.02)
    assert Counter(m.quantity for m in again.marks) == Counter(m.quantity for m in piece.marks)


@settings(max_examples=8, deadline=None)
@given(which=st.sampled_from(range(len(JOBS))), data=st.data())
def test_the_order_of_the_parts_does_not_matter(which: int, data: st.DataObject) -> None:
    job = SPREAD[which]
    parts = tuple(data.draw(st.permutations(job.parts)))
    piece, again = BUILT[which], build(replace(job, parts=parts))
    assert again.mass == pytest.approx(piece.mass, rel=1e-6)
    assert again.centre == pytest.approx(piece.centre, abs=0.01)
    assert Counter(m.quantity for m in again.marks) == Counter(m.quantity for m in piece.marks)
    assert joints(again) == joints(piece)


@pytest.mark.parametrize("piece", BUILT, ids=["stool", "frame", "cube"])
def test_no_surface_lies_inside_another_member(piece: Piece) -> None:
    """Points of every trimmed outside, a few millimetres apart, against every other trimmed body."""
    solids = [trimmed(member, piece.members) for member in piece.members]
    clouds = [dense(solid.rings(36)) for solid in solids]
    for k, cloud in enumerate(clouds):
        for m, other in enumerate(solids):
            if m != k:
                assert float(other.depth(cloud).max()) < 0.3, (piece.members[k].name, piece.members[m].name)


def dense(rings: list[Floats]) -> Floats:
    """Points (n, 3) at most 5 mm apart along the member, from its outlines segment by segment."""
    points = []
    for part in rings:
        for one, other in pairwise(part):
            steps = max(int(np.ceil(np.linalg.norm(other - one, axis=1).max() / 5)), 1)
            at = np.linspace(0, 1, steps + 1)[:, None, None]
            points.append((one + at * (other - one)).reshape(-1, 3))
    return np.vstack(points)


@pytest.mark.parametrize("piece", BUILT, ids=["stool", "frame", "cube"])
def test_the_whole_is_the_sum_of_its_parts(piece: Piece) -> None:
    assert piece.mass == pytest.approx(sum(member.mass for member in piece.members))
    moment = sum((member.mass * member.centre for member in piece.members), np.zeros(3))
    assert piece.centre == pytest.approx(moment / piece.mass)
    assert sum(mark.quantity for mark in piece.marks) == len(piece.members)


@settings(max_examples=25, deadline=None)
@given(
    legs=st.lists(st.tuples(*[st.integers(-3, 3)] * 3), min_size=2, max_size=4),
    radius=st.floats(20, 60),
    square=st.booleans(),
)
def test_volume_is_that_of_a_prism_as_long_as_the_centreline(
    legs: list[tuple[int, int, int]], radius: float, square: bool
) -> None:
    """Pappus: a section whose centroid follows the path has the volume area x length."""
    points = np.cumsum([(0, 0, 0), *legs], axis=0) * 150.0
    try:
        path = Path(points, np.array([0, *[radius] * (len(points) - 2), 0]))
    except ValueError:
        return
    section = RectTube(30, 20, 2, 4) if square else RoundTube(25, 2)
    direction = path.directions[0]
    u = np.cross(direction, np.eye(3)[int(np.argmin(np.abs(direction)))])
    u /= np.linalg.norm(u)
    body = Body(path, np.array([u, np.cross(direction, u)]), section)
    amount, moment = volume(body, np.zeros(len(section.fibres())), np.zeros(len(section.fibres())))
    assert amount == pytest.approx(section.area * path.length, rel=1e-9)
    inside = body.distance((moment / amount)[None])
    assert np.isfinite(inside).all()
