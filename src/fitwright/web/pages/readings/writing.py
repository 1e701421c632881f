"""Readings written into the job file, and taken out; every other character stays as it was."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from fitwright.job import JobFile
from fitwright.job.reading import read_tree
from fitwright.job.readings import parse_of
from fitwright.job.written import Listed, Mapped, Written, plain
from fitwright.web.errors import NotTaken, NotThere


def with_reading(text: str, said: Mapping[str, str], today: date) -> str:
    """The text with one more reading: of, is, and within and note where they are said."""
    entry = {"of": said["of"], "is": said["is"], "when": today.isoformat()}
    entry |= {key: said[key] for key in ("within", "note") if said.get(key)}
    file = JobFile(text)
    file.append("readings", entry)
    return file.text()


def without_reading(text: str, number: str, of: str) -> str:
    """The text without the reading at a place of the list, with the comment on its line.

    Raises NotThere where another one stands there now, NotTaken where it cannot be taken out alone.
    """
    root = read_tree(text, "job.yaml").root
    listed = root.get("readings")
    place = int(number) if number.isdecimal() and len(number) < 6 else -1
    entry = listed[place] if isinstance(listed, Listed) and 0 <= place < len(listed) else None
    said = entry.get("of") if isinstance(entry, Mapped) else None
    known = parse_of(said.text) if isinstance(said, Written) else None
    if not isinstance(listed, Listed) or known is None or str(known) != of:
        raise NotThere("that reading was changed or taken out meanwhile: look again")
    expected = plain(root)
    del expected["readings"][place]
    if not expected["readings"]:
        expected["readings"] = None
    cut = _cut(text, listed, place)
    found = plain(read_tree(cut, "job.yaml").root)
    if found != expected and found != {**expected, "readings": []}:
        raise NotTaken("this reading cannot be taken out alone: change it in the text")
    return cut


def _cut(text: str, listed: Listed, place: int) -> str:
    """The line or lines of an entry taken out; in brackets, the entry and its comma."""
    span = listed.spans[place]
    if not listed.flow:
        first = text.rfind("\n", 0, span.start) + 1
        last = text.find("\n", len(text[: span.end].rstrip()))
        return text[:first] + (text[last + 1 :] if last >= 0 else "")
    if place + 1 < len(listed):
        return text[: span.start] + text[listed.spans[place + 1].start :]
    start = listed.spans[place - 1].end if place else span.start
    return text[:start] + text[span.end :]
