"""Which members, shelves and set-ups the words of a reading mean."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from functools import cached_property

from fitwright.job.readings import WHOLE, Of
from fitwright.making.bench.groups import Group
from fitwright.piece.model import Panel, Piece
from fitwright.truing.errors import TruingError

NTH = re.compile(r"(?P<mark>[A-Za-z]{1,2}\d+)(?:/(?P<nth>\d+))?")
SHOWN = 12


@dataclass(frozen=True, eq=False)
class Names:
    """The names that readings may use; groups: the set-ups on the bench."""

    piece: Piece
    groups: tuple[Group, ...]

    @cached_property
    def _members(self) -> Mapping[str, int]:
        return {member.name.lower(): member.index for member in self.piece.members}

    @cached_property
    def _marks(self) -> Mapping[str, tuple[int, ...]]:
        """Members of each mark, and of each part of the job file."""
        found: dict[str, list[int]] = {}
        for member in self.piece.members:
            for word in dict.fromkeys((self.piece.mark_of.get(member.name, ""), member.part)):
                found.setdefault(word.lower(), []).append(member.index)
        return {word: tuple(members) for word, members in found.items() if word}

    def member(self, words: str) -> int:
        """The index of a member by its name, its mark (the first made of it) or its mark and number.

        Raises TruingError with the names that there are.
        """
        said = words.lower()
        if said in self._members:
            return self._members[said]
        match = NTH.fullmatch(said)
        word, nth = (match["mark"], int(match["nth"] or 1)) if match else (said, 1)
        members = self._marks.get(word)
        if members is None:
            raise TruingError(self._unknown(words, [*self.marks, *(m.name for m in self.piece.members)]))
        if not 1 <= nth <= len(members):
            raise TruingError(
                f"{words}: of {word.upper()} there are {len(members)}, so 1 to {len(members)} belongs here"
            )
        return members[nth - 1]

    def in_full(self, of: Of) -> Of:
        """The same with a member by its own name, where it is told by its mark or its part."""
        if not of.thing:
            return of
        try:
            return replace(of, thing=self.piece.members[self.member(of.thing)].name)
        except TruingError:
            return of

    @property
    def marks(self) -> tuple[str, ...]:
        """The marks of members."""
        return tuple(mark.mark for mark in self.piece.marks if mark.kind == "member")

    def panel(self, words: str) -> tuple[int, Panel]:
        """A panel and its number, by its name or the name of its part (the first of it)."""
        names = [(panel.name.lower(), panel.part.lower()) for panel in self.piece.panels]
        for kind in (0, 1):
            for number, pair in enumerate(names):
                if pair[kind] == words.lower():
                    return number, self.piece.panels[number]
        raise TruingError(self._unknown(words, [panel.name for panel in self.piece.panels]))

    def group(self, words: str) -> int:
        """The number of a set-up, by its name or the name of a member that lies in it first."""
        said = words.lower().replace(",", "")
        for number, group in enumerate(self.groups):
            if group.name.lower().replace(",", "") == said:
                return number
        if said in (WHOLE, "the whole") and self.groups:
            return len(self.groups) - 1
        try:
            member = self.member(words)
        except TruingError:
            names = [group.name for group in self.groups]
            raise TruingError(self._unknown(words, names)) from None
        return next(number for number, group in enumerate(self.groups) if member in group.members)

    def members(self, words: str) -> tuple[int, ...]:
        """The members of a set-up, one member, or all of them for the whole piece ("")."""
        if not words:
            return tuple(m.index for m in self.piece.members if m.sleeve_of is None)
        try:
            return (self.member(words),)
        except TruingError as error:
            if self.groups:
                return self.groups[self.group(words)].members
            raise error from None

    def _unknown(self, words: str, names: Iterable[str]) -> str:
        known = list(names)
        near = get_close_matches(words, known, 1)
        listed = ", ".join(known[:SHOWN]) + (", …" if len(known) > SHOWN else "")
        hint = f"; did you mean {near[0]}?" if near else ""
        return f"nothing here is called {words!r}{hint} (there are {listed})"
