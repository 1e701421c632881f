"""What the job file asks for as finish, in the words a maker writes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from fitwright.making.finishing.tables import Product, product, products

NUMBERS = {"one": 1, "a": 1, "two": 2, "three": 3, "four": 4, "five": 5}
COATS = re.compile(r"\b(\d+|one|two|three|four|five|a)\s+coats?\b")
METAL_WORDS = ("steel", "metal", "frame", "tube", "stainless", "aluminium", "aluminum", "iron")
NO_FINISH = ("none", "bare", "left raw", "unfinished")
USUAL_TOP, USUAL_COATS = "enamel", 2


@dataclass(frozen=True)
class Asked:
    """Coats in order as (product, how many); sent: what is done elsewhere; notes: what was taken for granted."""

    coats: tuple[tuple[Product, int], ...]
    sent: Product | None
    notes: tuple[str, ...]


def asked_for(finish: Mapping[str, str], metal: bool) -> str | None:
    """What the job file says for the metal, or for the timber; None when it says nothing."""
    said = [text for key, text in finish.items() if _is_metal(key) is metal]
    return "; ".join(said).lower() if said else None


def read_finish(text: str, metal: bool) -> Asked:
    """The coats that a text asks for, such as `degrease, prime, two coats of enamel`.

    A paint without a primer on metal gets one; a colour alone is taken as two coats of enamel. Both are noted.

    >>> [(p.name, n) for p, n in read_finish("degrease, prime, two coats of enamel", True).coats]
    [('primer', 1), ('enamel', 2)]
    """
    if any(word in text for word in NO_FINISH):
        return Asked((), None, ())
    fitting = [one for one in products() if (one.metal if metal else one.timber)]
    sent = next((one for one in fitting if one.out and _says(text, one)), None)
    if sent is not None:
        return Asked((), sent, ())
    notes = []
    top = _named(text, [one for one in fitting if one.role != "primer"])
    if top is None:
        top = product(USUAL_TOP)
        notes.append(f"The job file names no paint or oil that is known here: {USUAL_TOP} is reckoned with.")
    count = _count(text)
    if count is None:
        count = USUAL_COATS if not metal or top.role == "top" else 1
        notes.append(f"No number of coats is given: {count} of {top.name}.")
    primer = product("primer")
    wanted = metal and (_says(text, primer) or not top.bare)
    if wanted and not _says(text, primer):
        notes.append(f"{top.name.capitalize()} holds badly on bare metal: one coat of primer is added.")
    return Asked((*(((primer, 1),) if wanted else ()), (top, count)), None, tuple(notes))


def _is_metal(key: str) -> bool:
    return any(word in key.lower() for word in METAL_WORDS)


def _says(text: str, one: Product) -> bool:
    return any(re.search(rf"\b{re.escape(word)}", text) for word in one.words)


def _named(text: str, fitting: Iterable[Product]) -> Product | None:
    """The product with the longest of its words in the text, so that `deck oil` is not merely oil."""
    found = [(len(word), one) for one in fitting for word in one.words if re.search(rf"\b{re.escape(word)}", text)]
    return max(found, key=lambda pair: pair[0])[1] if found else None


def _count(text: str) -> int | None:
    found = COATS.findall(text)
    numbers = [NUMBERS.get(word) or int(word) for word in found]
    return max(numbers) if numbers else None
