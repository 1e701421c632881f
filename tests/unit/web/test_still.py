"""The line picture: every stroke inside its frame, and nothing for nothing."""

from __future__ import annotations

import re
from xml.etree import ElementTree

from fitwright.web.still import still_picture
from tests.demos import assessed

SVG = "{http://www.w3.org/2000/svg}"


def test_every_stroke_lies_in_the_frame() -> None:
    drawn = ElementTree.fromstring(still_picture(assessed("workbench").meshes))
    left, top, width, height = (float(x) for x in drawn.attrib["viewBox"].split())
    path = drawn.find(f"{SVG}path")
    assert path is not None
    points = [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path.attrib["d"])]
    assert len(points) > 100
    assert all(left <= x <= left + width and top <= y <= top + height for x, y in points)


def test_a_larger_piece_has_a_larger_frame_of_the_same_shape() -> None:
    frames = []
    for name in ("workbench", "coat-rail"):
        box = ElementTree.fromstring(still_picture(assessed(name).meshes)).attrib["viewBox"].split()
        frames.append((float(box[2]), float(box[3])))
    assert frames[0] != frames[1]


def test_nothing_is_an_empty_picture() -> None:
    assert ElementTree.fromstring(still_picture(())).findall(f"{SVG}path") == []
