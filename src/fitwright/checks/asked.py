"""The words of brief: cautions and brief: use that ask for a check.

Accepted under brief: cautions: `food`, `food contact`, `floor`, `children`, `public route`, `outdoors`, `wet`, `heat`.
The same words count in brief: use, except `floor`, which a use may mention without asking for anything.
"""

from __future__ import annotations

import re

from fitwright.job.model import Job

WORDS = {
    "food": ("food", "kitchen", "catering", "bakery"),
    "food contact": ("food contact", "cutting board", "chopping board", "butcher block", "dough"),
    "floor": ("floor",),
    "children": ("child", "children", "nursery", "toddler", "toddlers"),
    "public route": ("public route", "corridor", "hallway", "passage", "foyer", "accessible", "wheelchair"),
    "outdoors": ("outdoor", "outdoors", "outside", "garden", "patio", "balcony"),
    "wet": ("wet", "damp", "bathroom", "shower"),
    "heat": ("heat", "stove", "oven", "fire", "heater"),
}
"""What each caution is called by; matched as whole words, in any case."""

ONLY_ASKED = ("floor",)


def asked(job: Job) -> frozenset[str]:
    """The cautions that the brief asks for, by their first word in `WORDS`."""
    said = " ; ".join(job.brief.cautions).lower()
    used = job.brief.use.lower()
    return frozenset(
        name for name, words in WORDS.items() if _any(words, said) or (name not in ONLY_ASKED and _any(words, used))
    )


def is_damp(job: Job) -> bool:
    """Whether timber is to be reckoned as wet in service."""
    return bool(asked(job) & {"outdoors", "wet"})


def _any(words: tuple[str, ...], text: str) -> bool:
    return any(re.search(rf"\b{re.escape(word)}\b", text) for word in words)
