"""One number explained."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Input:
    """Something that a number is worked out from: its name, its value, and where it leads, under the job."""

    name: str
    value: str
    to: str


@dataclass(frozen=True)
class Reason:
    """Why a number is what it is.

    steps: lines of arithmetic, from the rule to the number; basis: where the rule comes from; inputs: as links;
    moves: what hangs on it in turn.
    """

    title: str
    answer: str
    steps: tuple[str, ...]
    basis: str
    inputs: tuple[Input, ...]
    advice: str = ""
    moves: tuple[Input, ...] = ()
    rows: tuple[tuple[str, str], ...] = field(default=())
