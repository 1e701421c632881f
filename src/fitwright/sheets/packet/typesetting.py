"""Pages to PDF, by templates that ship with the package; nothing of a job is ever read as markup."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import asdict
from datetime import UTC, date, datetime
from importlib.resources import files

from fitwright.errors import FitwrightError
from fitwright.sheets.drawing import Drawing
from fitwright.sheets.packet.model import Head, Json, Page
from fitwright.sheets.packet.pictures import packet_svg
from fitwright.sheets.photo_drawing import Shot

# the fonts that the typesetter carries have Latin, Greek, Cyrillic and signs up to here, and nothing much beyond
LAST_OWN_LETTER = 0x2BFF


class TypesettingError(FitwrightError, RuntimeError):
    """The typesetter refused the pages; its own words are kept."""


def typeset(head: Head, pages: Sequence[Page], made_on: date) -> bytes:
    """The pages as one PDF; the same pages and date give the same bytes.

    Raises TypesettingError when the typesetter fails.
    """
    import typst

    sources = sources_of(head, pages)
    stamp = datetime(made_on.year, made_on.month, made_on.day, tzinfo=UTC)
    alone = only_own_letters(sources["packet.json"].decode())
    # its annotations leave out that a mapping of names to contents is taken
    setter: Callable[..., bytes] = typst.compile
    try:
        return setter(sources, format="pdf", ignore_system_fonts=alone, timestamp=stamp)
    except RuntimeError as wrong:
        raise TypesettingError(f"the packet could not be typeset: {wrong}") from wrong


def sources_of(head: Head, pages: Sequence[Page]) -> dict[str, bytes]:
    """Everything that the typesetter reads, by name: templates, the data and the pictures."""
    return {**_templates(), **_contents(head, pages)}


def only_own_letters(text: str) -> bool:
    """Whether no letters are wanted (Chinese, Japanese, …) that only the machine's own fonts can have."""
    return all(ord(letter) <= LAST_OWN_LETTER for letter in text)


def _templates() -> dict[str, bytes]:
    folder = files(__package__).joinpath("templates")
    found = {file.name: file.read_bytes() for file in folder.iterdir() if file.name.endswith(".typ")}
    return {"main": found.pop("packet.typ"), **found}


def _contents(head: Head, pages: Sequence[Page]) -> dict[str, bytes]:
    """The data file and every picture, under the names that the templates read."""
    pictures: dict[str, bytes] = {}
    told = [_page(number, page, pictures) for number, page in enumerate(pages)]
    data = {"head": asdict(head), "sheets": told}
    return {"packet.json": json.dumps(data, ensure_ascii=False).encode(), **pictures}


def _page(number: int, page: Page, pictures: dict[str, bytes]) -> Json:
    told: Json = {**page.content, "kind": page.kind, "title": page.title, "joins": page.joins, "pictures": {}}
    for name, drawing in page.pictures.items():
        told["pictures"][name] = _picture(f"{number}-{name}.svg", drawing, pictures)
    if page.shots:
        told["shots"] = {name: _shot(f"{number}-{name}.svg", *shot, pictures) for name, shot in page.shots.items()}
    if page.whole is not None:
        told["whole"] = _picture(f"{number}.svg", page.whole, pictures)
        told["flipped"] = page.whole.paper.width > page.whole.paper.height
    return told


def _picture(file: str, drawing: Drawing, pictures: dict[str, bytes]) -> Json:
    pictures[file] = packet_svg(drawing).encode()
    return {"file": file, "width": drawing.paper.width, "height": drawing.paper.height}


def _shot(file: str, shot: Shot, width: float, pictures: dict[str, bytes]) -> Json:
    pictures[file] = shot.svg.encode()
    return {"file": file, "width": width}
