"""The sheets set page by page as they print, each as a picture, and which sheet begins where."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from fitwright.assess import Assessment
from fitwright.sheets.drawing import A4, LETTER, Paper
from fitwright.sheets.packet.contents import head_of, pages_of
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.pages.arranging import arrangement_drawing
from fitwright.sheets.packet.typesetting import sources_of

SIZE = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')
HEAD = 400
"""Bytes of a picture in which its size is said."""
GOES_ON = " (goes on)"
WHERE = "where"
# the packet's own template labels the beginning of each sheet; this asks where those labels came to stand
ASKING = f"\n#context [#metadata(query(<sheet>).map(one => one.location().page())) <{WHERE}>]\n".encode()


@dataclass(frozen=True)
class Leaf:
    """One page of paper: its picture (SVG), and the titles and marks of the sheets on it."""

    svg: bytes
    titles: tuple[str, ...]
    marks: tuple[str, ...]

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the paper, in points (1/72 in)."""
        found = SIZE.search(self.svg[:HEAD].decode(errors="replace"))
        assert found is not None, "the typesetter gives a picture its size"
        return round(float(found[1])), round(float(found[2]))

    @property
    def title(self) -> str:
        """What is on it, in words."""
        return "; ".join(self.titles)


def leaves(assessment: Assessment, made_on: date | None = None) -> tuple[Leaf, ...]:
    """Every page of the packet. Raises what making a packet raises."""
    day = made_on or date.today()
    paper = LETTER if assessment.job.style.unit == "inch" else A4
    whole = arrangement_drawing(assessment, paper, day)
    return leaves_of(assessment, pages_of(assessment, whole, lambda _: None), paper, day)


def leaves_of(assessment: Assessment, pages: Sequence[Page], paper: Paper, day: date) -> tuple[Leaf, ...]:
    """Some pages set as they print, by themselves."""
    sources = sources_of(head_of(assessment, paper, day), tuple(pages))
    return tuple(_leaves(pages, _pictures(sources), _beginnings(sources)))


def _leaves(pages: Sequence[Page], pictures: Sequence[bytes], beginnings: Sequence[int]) -> list[Leaf]:
    found: list[Leaf] = []
    for number, svg in enumerate(pictures, 1):
        here = [page for page, at in zip(pages, beginnings, strict=True) if at == number]
        before = found[-1].titles[-1].removesuffix(GOES_ON) if found else ""
        titles = tuple(page.title for page in here) or (before + GOES_ON,)
        found.append(Leaf(svg, titles, tuple(str(page.content["mark"]) for page in here if "mark" in page.content)))
    return found


def _pictures(sources: Mapping[str, bytes]) -> list[bytes]:
    import typst

    # its annotations leave out that a mapping of names to contents is taken, and that several pages come as a list
    setter: Callable[..., list[bytes] | bytes] = typst.compile
    made = setter(sources, format="svg", ignore_system_fonts=True)
    return made if isinstance(made, list) else [made]


def _beginnings(sources: Mapping[str, bytes]) -> list[int]:
    """The page on which each sheet begins, from 1."""
    import typst

    ask: Callable[..., str] = typst.query
    asking = {**sources, "main": sources["main"] + ASKING}
    found: list[int] = json.loads(ask(asking, f"<{WHERE}>", field="value", one=True, ignore_system_fonts=True))
    return found
