"""The cautions page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict

from fitwright.sheets.packet.cautioning import DEFER, Caution
from fitwright.sheets.packet.model import Page

SHORT = 16  # cautions and things not checked that may stand under another sheet
LONG = 300  # letters


def cautions_page(cautions: Sequence[Caution], unchecked: Sequence[str]) -> Page:
    """What can hurt, what nobody has checked, and who decides."""
    content = {"cautions": [asdict(caution) for caution in cautions], "unchecked": list(unchecked), "defer": DEFER}
    short = len(cautions) + len(unchecked) <= SHORT and all(len(caution.text) < LONG for caution in cautions)
    return Page("cautions", "Cautions", content, joins=short)
