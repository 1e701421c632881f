"""The set-ups on the bench that the maker asks for, in their order."""

from __future__ import annotations

from dataclasses import dataclass

UPS = ("top", "bottom", "front", "back", "left", "right")
FLIPS = ("when tacked", "when welded", "never")


@dataclass(frozen=True)
class SubassemblySpec:
    """One set-up: its name, what is in it, which side of the piece faces up, and when it is turned over.

    parts: names of parts ("hoop", all of them), of their copies ("hoop 2") or of earlier subassemblies. up, flip: one
    of `UPS` and `FLIPS`, "" where the program is to find it. line: in the job file.
    """

    name: str
    parts: tuple[str, ...]
    up: str = ""
    flip: str = ""
    line: int = 0
