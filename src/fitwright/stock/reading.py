"""Taking a maker's words for stock apart: shape, sizes, words for the material."""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache

from fitwright.stock.mistakes import StockError, nearest
from fitwright.stock.tables import rows
from fitwright.units import INCH, LengthError, parse_length, plain_signs

LONGEST_TEXT = 200
NUMBER = r"\d+[\s-]+\d+/\d+|\d+/\d+|\d+\.?\d*|\.\d+"
UNIT = r"mm|cm|inches|inch|in\b|\"|gauge|gage|ga\b|g\b"
SIZE = re.compile(rf"\s*(?:#\s*)?(?P<number>{NUMBER})\s*(?P<unit>{UNIT})?\s*", re.I)
CROSS = re.compile(r"\s*(?:x|×|\*|by\b)\s*", re.I)
INCH_WORDS = ("inches", "inch", "in", '"')
SLIP = 0.8
"""How like the word for a shape another has to be, to be taken for a slip of the pen."""

GAUGE_WORDS = ("gauge", "gage", "ga", "g")


@dataclass(frozen=True)
class Size:
    """One size: the number as written and its unit: inch, mm or ga; mm: its length [mm], None for a gauge."""

    text: str
    unit: str
    mm: float | None


@dataclass(frozen=True)
class Words:
    """Stock taken apart: the shape, the sizes as written, and the rest of the words."""

    text: str
    shape: str
    spelling: str
    sizes: tuple[tuple[str, str | None], ...]
    rest: str


def take_apart(text: str) -> Words:
    """The parts of `text`. Raises StockError when it does not start with the word for a shape."""
    plain = " ".join(plain_signs(text).lower().split()) if isinstance(text, str) else ""
    if not plain or len(plain) > LONGEST_TEXT:
        raise StockError(f"{str(text)[:40]!r} is not stock: write it as in {_spellings()}")
    word = next((word for word in _shapes() if re.match(rf"{word}(?![a-z])", plain)), None)
    if word is None:
        raise StockError(_no_shape(text, plain))
    shape, spelling = _shapes()[word]
    sizes, rest = _sizes(plain[len(word) :])
    if not sizes and get_close_matches(_head(plain), set(_shapes()) - {word}, 1, SLIP):
        raise StockError(_no_shape(text, plain))  # `round tub 1`, which begins like the other word for a round bar
    return Words(text, shape, spelling, sizes, rest)


def sizes_in(words: Words, unit: str) -> tuple[Size, ...]:
    """The sizes with their units.

    A size without a unit takes the one after it, as in `32 x 2 mm`; where none follows, a fraction anywhere means
    inches, and else it is in `unit` (inch, mm or cm).
    """
    fraction = any("/" in number for number, said in words.sizes if _unit(said) != "mm")
    follows = "inch" if fraction else _unit(unit) or unit
    sizes: list[Size] = []
    for number, said in reversed(words.sizes):
        kind = _unit(said)
        if kind not in (None, "ga"):
            follows = str(kind)
        sizes.append(_size(number, kind or follows))
    return tuple(reversed(sizes))


def _size(number: str, unit: str) -> Size:
    if unit == "ga":
        return Size(number, "ga", None)
    try:
        return Size(number, "inch" if unit == "inch" else "mm", parse_length(number, unit))
    except LengthError as wrong:
        raise StockError(str(wrong)) from None


def gauge_number(size: Size) -> int:
    """The number of a gauge. Raises StockError when it is not a whole one."""
    if not size.text.isdigit():
        raise StockError(f"{size.text} ga is not a gauge: a gauge is a whole number such as 14 ga")
    return int(size.text)


def inch_words(mm: float) -> str:
    """A size in inches as the trade writes it: `1 1/4` where it is a whole number of 64ths, else `0.065`."""
    sixty_fourths = mm / INCH * 64
    if abs(sixty_fourths - round(sixty_fourths)) > 1e-6:
        return f"{mm / INCH:.4f}".rstrip("0").rstrip(".")
    whole, part = divmod(round(sixty_fourths), 64)
    over = 64
    while part and part % 2 == 0:
        part, over = part // 2, over // 2
    return " ".join(filter(None, [str(whole) if whole or not part else "", f"{part}/{over}" if part else ""]))


def mm_words(mm: float) -> str:
    """A size in mm without idle zeros: `32`, `26.9`."""
    return f"{mm:.3f}".rstrip("0").rstrip(".")


def _sizes(rest: str) -> tuple[tuple[tuple[str, str | None], ...], str]:
    """Leading sizes, divided by x, and what follows them."""
    sizes: list[tuple[str, str | None]] = []
    at = len(rest) - len(rest.lstrip())
    while match := SIZE.match(rest, at):
        sizes.append((match["number"], match["unit"]))
        at = match.end()
        cross = CROSS.match(rest, at)
        if not cross or not SIZE.match(rest, cross.end()):
            break
        at = cross.end()
    return tuple(sizes), rest[at:].strip(" ,")


def _unit(said: str | None) -> str | None:
    if said is None or said == "":
        return None
    if said in GAUGE_WORDS:
        return "ga"
    return "inch" if said in INCH_WORDS else said


@cache
def _shapes() -> dict[str, tuple[str, str]]:
    """Shape and example by word, longest word first so that `round tube` goes before `round`."""
    table = sorted(rows("shapes"), key=lambda row: -len(row["word"]))
    return {row["word"]: (row["shape"], row["spelling"]) for row in table}


def _spellings() -> str:
    return "; ".join(dict.fromkeys(row["spelling"] for row in rows("shapes")))


def _no_shape(text: str, plain: str) -> str:
    return f"{text!r} does not start with a shape{nearest(_head(plain), _shapes())} write it as in {_spellings()}"


def _head(plain: str) -> str:
    """The words before the first size."""
    return re.split(r"[\d#.\"]", plain)[0].strip() or plain
