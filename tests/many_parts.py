"""A job with as many parts as are wanted: a trellis of posts, rungs and ties, for what has to stay quick."""

from __future__ import annotations

FIELDS = 8
TIES = 5 * (FIELDS + 1)
POSTS = 2 * (FIELDS + 1)


def trellis(parts: int) -> str:
    """The text of a job with at least this many parts, and at most 15 more."""
    rows = -(-(parts - TIES - POSTS) // (2 * FIELDS))
    return f"""\
job: {{name: Trellis, unit: mm}}
brief: {{use: climbing beans}}
dims:
  width: 2400
  height: 1800
  depth: 600
  field: width / {FIELDS}
  pitch: (height - 240) / {rows}
stock: {{post: round tube 25 x 2 mm, bar: round bar 10 mm}}
parts:
  post:
    stock: post
    path: [[0, 0, 0], [0, 0, height]]
    ends: {{start: free, finish: free}}
    repeat: {{x: {{every: field, count: {FIELDS + 1}}}, y: [0, depth]}}
  rung:
    stock: bar
    path: [[0, 0, 120], [field, 0, 120]]
    repeat: {{x: {{every: field, count: {FIELDS}}}, y: [0, depth], z: {{every: pitch, count: {rows}}}}}
  tie:
    stock: bar
    path: [[0, 0, 160], [0, depth, 160]]
    repeat: {{x: {{every: field, count: {FIELDS + 1}}}, z: {{every: 300, count: 5}}}}
"""
