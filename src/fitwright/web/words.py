"""How names and values are shown on pages."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any
from urllib.parse import quote

from fitwright.findings import Finding, Verdict
from fitwright.job.model import Dim
from fitwright.units import Style

SIGNS = {Verdict.FAILS: "✕", Verdict.NEEDS_INPUT: "?", Verdict.TIGHT: "!", Verdict.HOLDS: "✓"}


def plainly(name: str) -> str:
    """A name of the job file as words."""
    return name.replace("_", " ")


def anchor(text: str) -> str:
    """A text as the name of a place on a page."""
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-") or "it"


def sign(verdict: Verdict) -> str:
    """The sign of a verdict, which stands beside its word."""
    return SIGNS[verdict]


def verdict_class(verdict: Verdict) -> str:
    """The verdict as the name of a style."""
    return verdict.value.replace(" ", "-")


def finding_key(finding: Finding) -> str:
    """A finding's name in addresses."""
    return quote(f"{finding.area}:{finding.subject}:{finding.check}", safe="")


def comes_to(dim: Dim, style: Style) -> str:
    """The value of a dim as the shop writes it."""
    return style.length(dim.value) if dim.is_length else f"{dim.value:g}"


def unbroken(text: object) -> str:
    """A text whose mixed numbers are not parted at the end of a line: 3 15/16 must not be read as 15/16."""
    return re.sub(r"(\d) (?=\d+/\d)", "\\1\N{NO-BREAK SPACE}", str(text))


FILTERS: dict[str, Callable[..., Any]] = {
    "plainly": plainly,
    "anchor": anchor,
    "sign": sign,
    "verdict_class": verdict_class,
    "finding_key": finding_key,
    "unbroken": unbroken,
    "part": lambda text: quote(str(text), safe=""),
}
