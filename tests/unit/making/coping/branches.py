"""Branches on runs, made for the tests of templates."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.job import parse_job
from fitwright.making.coping import Template, template_of
from fitwright.piece import Member, Piece, build

Floats = NDArray[np.float64]

HEAD = "job: {name: trial, unit: mm}\n"


def piece_from(text: str) -> Piece:
    """The piece of a job file given without its head, in millimetres."""
    return build(parse_job(HEAD + text))


def branch_on(run: str, branch: str, angle_deg: float, offset: float = 0.0) -> Piece:
    """A member `branch` whose finish comes down on a long level `run` at an angle, `offset` mm beside its axis."""
    lean = np.radians(angle_deg)
    x, z = 600 * np.cos(lean), 600 * np.sin(lean)
    return piece_from(f"""
stock: {{run: {run}, branch: {branch}}}
parts:
  run: {{stock: run, path: [[-1500, 0, 0], [1500, 0, 0]], ends: free}}
  branch: {{stock: branch, path: [[{x:.9f}, {offset}, {z:.9f}], [0, {offset}, 0]], ends: [free, auto]}}
""")


def named(piece: Piece, name: str) -> Member:
    """The member of a name."""
    return next(member for member in piece.members if member.name == name)


def template(piece: Piece, name: str = "branch", end: int = 1, step: float = 5.0) -> Template:
    """The template of one end."""
    return template_of(named(piece, name), end, piece, step)


def base_level(one: Template, member: Member) -> float:
    """Where the base line lies, by the distance that is printed: beyond the drawn end [mm]."""
    if member.path.bent:
        return one.placement.distance - member.path.segments[0 if one.end == 0 else -1].length
    return member.ends[one.end].longest - one.placement.distance


def wrapped(one: Template, member: Member, x: Floats, y: Floats) -> Floats:
    """Points (k, 3) [mm] of places on a template that is wrapped round a round member as a maker does it.

    Printed side out and its top toward the end: to the right on the paper is to the right for one who looks at the
    tube from outside with its end held up.
    """
    body, radius = member.body, one.girth / (2 * np.pi)
    up, out = body.outward(one.end), one.seam_at / radius
    right = np.cross(up, out)
    spokes = np.cos(x / radius)[:, None] * out + np.sin(x / radius)[:, None] * right
    return np.asarray(body.point_at(one.end) + radius * spokes + (base_level(one, member) + y)[:, None] * up)
