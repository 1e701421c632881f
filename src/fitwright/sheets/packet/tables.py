"""Tables as the templates read them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Literal

from fitwright.sheets.packet.model import Json

Kind = Literal["text", "number", "money", "mark", "boxes", "verdict", "field"]
ColumnTold = tuple[str, Kind, float | None]

LONGEST_WORD = 16  # letters in a row without a place to break [fits the narrowest text column]


def table(columns: Sequence[ColumnTold], rows: Sequence[Sequence[Any]], **more: Any) -> Json:
    """A table: columns as (heading, kind, share of the width left over, or None for as wide as it needs)."""
    heads = [{"head": head, "kind": kind, "width": width or "auto"} for head, kind, width in columns]
    return {"columns": heads, "rows": [[_told(value) for value in row] for row in rows], **more}


def breakable(text: str) -> str:
    """The text with places to break in words that are too long for a column."""
    return " ".join(_broken(word) for word in text.split(" "))


def _broken(word: str) -> str:
    if len(word) <= LONGEST_WORD:
        return word
    return "\u200b".join(word[at : at + LONGEST_WORD] for at in range(0, len(word), LONGEST_WORD))


def _told(value: Any) -> Any:
    if isinstance(value, str):
        return breakable(value)
    return [_told(one) for one in value] if isinstance(value, tuple) else value
