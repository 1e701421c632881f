"""Papers about money to PDF and to pictures, by templates of their own in the style of the packet's."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, date, datetime
from importlib.resources import files

from fitwright.sheets.packet.model import Head, Page
from fitwright.sheets.packet.typesetting import TypesettingError, only_own_letters, sources_of

MAIN = "money.typ"


def money_sources(head: Head, pages: Sequence[Page]) -> dict[str, bytes]:
    """Everything that the typesetter reads."""
    own = {
        file.name: file.read_bytes()
        for file in files(__package__).joinpath("templates").iterdir()
        if file.name.endswith(".typ")
    }
    return {**sources_of(head, pages), **own, "main": own[MAIN]}


def as_pdf(sources: Mapping[str, bytes], made_on: date) -> bytes:
    """The PDF; the same sources and date give the same bytes. Raises TypesettingError."""
    stamp = datetime(made_on.year, made_on.month, made_on.day, tzinfo=UTC)
    made = _compiled(sources, format="pdf", timestamp=stamp)
    assert isinstance(made, bytes), "a PDF is one file"
    return made


def as_pictures(sources: Mapping[str, bytes]) -> tuple[bytes, ...]:
    """Each page as a picture (SVG). Raises TypesettingError."""
    made = _compiled(sources, format="svg")
    return tuple(made) if isinstance(made, list) else (made,)


def page_count(sources: Mapping[str, bytes]) -> int:
    """How many pages it takes. Raises TypesettingError."""
    import json

    import typst

    ask: Callable[..., str] = typst.query
    try:
        return int(json.loads(ask(dict(sources), "<count>", field="value", one=True, **_fonts(sources))))
    except RuntimeError as wrong:
        raise TypesettingError(f"the paper could not be typeset: {wrong}") from wrong


def _compiled(sources: Mapping[str, bytes], **how: object) -> bytes | list[bytes]:
    import typst

    # its annotations leave out that a mapping of names to contents is taken, and that several pages come as a list
    setter: Callable[..., bytes | list[bytes]] = typst.compile
    try:
        return setter(dict(sources), **how, **_fonts(sources))
    except RuntimeError as wrong:
        raise TypesettingError(f"the paper could not be typeset: {wrong}") from wrong


def _fonts(sources: Mapping[str, bytes]) -> dict[str, bool]:
    return {"ignore_system_fonts": only_own_letters(sources["packet.json"].decode())}
