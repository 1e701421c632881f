"""Marks written into the text of a job file: each function gives the new text, every other character as it was."""

from __future__ import annotations

import re
from collections.abc import Iterator

from fitwright.job import JobFile
from fitwright.job.marks import Photo
from fitwright.job.reading import read_tree
from fitwright.job.rewriting import Value
from fitwright.job.written import Listed, Mapped, Node, Written, plain
from fitwright.web.errors import NotTaken, NotThere
from fitwright.web.pages.file.removing import without

MOST_SPOTS = 40
PLACE = re.compile(r"\[?\s*(-?\d{1,6}(?:\.\d{1,6})?)\s*[, ]\s*(-?\d{1,6}(?:\.\d{1,6})?)\s*\]?")
LIST_ITEM = re.compile(r"[ \t]*-[ \t]+")
Path = tuple[str | int, ...]
SECTIONS = ("edges", "planes", "known", "measures", "spots", "dims")


def with_picture(text: str, name: str) -> str:
    """The photo section with another picture, begun where there is none; marks on the old picture are kept."""
    root = read_tree(text, "job.yaml").root
    if isinstance(root.get("photo"), Mapped):
        file = JobFile(text)
        file.set(("photo", "picture"), name)
        told = root["photo"].get("size")
        return without(file.text(), ("photo", "size")) if told is not None else file.text()
    return f"{text.rstrip()}\n\nphoto:\n  picture: {name}\n"


def moved(text: str, spot: str, u: float, v: float) -> str:
    """A spot at another place, wherever it is written. Raises NotThere."""
    file, found = JobFile(text), list(_places(text, spot))
    if not found:
        raise NotThere(f"there is no spot {spot[:60]!r} on this photo")
    for path in found:
        file.set(path, [px(u), px(v)])
    return file.text()


def added(text: str, section: str, name: str, value: Value) -> str:
    """An entry of a section of the photo, on a line of its own; one of that name is replaced."""
    photo = _photo(text)
    if section in photo and isinstance(photo[section], Mapped) and not photo[section].flow:
        file = JobFile(text)
        file.set(("photo", section, name), value)
        return file.text()
    return _begun(text, photo, section, {name: value})


def appended(text: str, section: str, value: Value) -> str:
    """One more in a list of the photo section, on a line of its own."""
    photo = _photo(text)
    listed = photo.get(section)
    if isinstance(listed, Listed) and not listed.flow:
        file = JobFile(text)
        file.set(("photo", section, len(listed)), value)
        return file.text()
    return _begun(text, photo, section, [value])


def taken_out(text: str, section: str, name: str) -> str:
    """Without one entry of a section: by its name, or for edges by its number from 1. Raises NotThere, NotTaken."""
    if section not in SECTIONS:
        raise NotTaken(f"{section[:40]!r} is not a kind of mark")
    photo = _photo(text)
    if section != "edges":
        alone = isinstance(photo.get(section), Mapped) and len(photo[section]) == 1
        return without(text, ("photo", section) if alone and name in photo[section] else ("photo", section, name))
    edges = photo.get("edges")
    if not isinstance(edges, Listed) or not name.isdecimal() or not 1 <= int(name) <= len(edges):
        raise NotThere(f"there is no edge {name[:20]} on this photo")
    return without(text, ("photo", "edges")) if len(edges) == 1 else _without_item(text, edges, int(name) - 1)


def marks_in(said: str, photo: Photo, near: float = 0.0) -> list[Value]:
    """Spots as a maker writes or taps them, separated by ; or lines: names, or places as 312, 845.

    near: a place within so many pixels of a spot that is there already is that spot. Raises NotTaken.
    """
    words = [word.strip() for word in re.split(r"[;\n]", said) if word.strip()]
    if len(words) > MOST_SPOTS:
        raise NotTaken(f"at most {MOST_SPOTS} spots are taken at once")
    return [_mark(word, photo, near) for word in words]


def place_in(word: str) -> tuple[float, float] | None:
    """A place as 312, 845 or [312, 845]."""
    found = PLACE.fullmatch(word.strip())
    return (float(found[1]), float(found[2])) if found else None


def _mark(word: str, photo: Photo, near: float) -> Value:
    place = place_in(word)
    if place is None:
        if word not in photo.spots:
            raise NotTaken(f"{word[:60]!r} is neither a spot of this photo nor a place such as 312, 845")
        return word
    u, v = place
    off = {name: max(abs(spot.u - u), abs(spot.v - v)) for name, spot in photo.spots.items()}
    nearest = min(off, key=off.__getitem__, default=None)
    if nearest is not None and off[nearest] <= near:
        spot = photo.spots[nearest]
        return [px(spot.u), px(spot.v)] if nearest.startswith("[") else nearest
    return [px(u), px(v)]


def px(value: float) -> str:
    """A place in the picture as it is written, to a hundredth of a pixel."""
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _photo(text: str) -> Mapped:
    photo = read_tree(text, "job.yaml").root.get("photo")
    if not isinstance(photo, Mapped):
        raise NotTaken("this job has no photo yet: choose a picture first")
    return photo


def _places(text: str, spot: str) -> Iterator[Path]:
    """The paths at which a spot's place is written: under its name, or in place wherever it is marked."""
    photo = _photo(text)
    named = photo.get("spots")
    if isinstance(named, Mapped) and spot in named:
        yield ("photo", "spots", spot, "at") if isinstance(named[spot], Mapped) else ("photo", "spots", spot)
    elif (wanted := place_in(spot)) is not None:
        for section in ("edges", "planes", "known", "measures"):
            yield from _written_at(photo.get(section), ("photo", section), wanted)


def _written_at(node: Node | None, path: Path, wanted: tuple[float, float]) -> Iterator[Path]:
    if isinstance(node, Mapped):
        for key, inner in node.items():
            yield from _written_at(inner, (*path, key), wanted)
    elif isinstance(node, Listed):
        if len(node) == 2 and all(isinstance(one, Written) for one in node):
            place = place_in(", ".join(one.text for one in node))
            if place is not None and all(f"{a:g}" == f"{b:g}" for a, b in zip(place, wanted, strict=True)):
                yield path
            return
        for number, inner in enumerate(node):
            yield from _written_at(inner, (*path, number), wanted)


def _begun(text: str, photo: Mapped, section: str, more: dict[str, Value] | list[Value]) -> str:
    """A section that is not there yet, or stands in brackets, in lines of its own at the end of the photo section."""
    if photo.flow:
        raise NotTaken("photo stands in brackets in this file: write it on lines of its own under photo: in the text")
    if section in photo:
        whole = plain(photo[section])
        text = without(text, ("photo", section))
        more = {**whole, **more} if isinstance(more, dict) else [*whole, *more]
        photo = _photo(text)
    indent = " " * (next(iter(photo.keys_at.values())).column - 1) if photo else "  "
    at = _end_of(text, photo)
    entries = _entries(more) if isinstance(more, dict) else [f"- {_flow(one)}" for one in more]
    lines = "".join(f"\n{indent}  {entry}" for entry in entries)
    return f"{text[:at]}\n{indent}{section}:{lines}{text[at:]}"


def _end_of(text: str, owner: Mapped) -> int:
    """Where the line ends on which the last entry does."""
    last = next(reversed(owner))
    end = max(owner.spans[last].end, owner.keys_at[last].end)
    stop = text.find("\n", len(text[:end].rstrip()))
    return stop if stop >= 0 else len(text)


def _entries(value: dict[str, Value]) -> list[str]:
    return [_flow({key: inner})[1:-1] for key, inner in value.items()]


def _flow(value: Value) -> str:
    """A value on one line, as the file's own writer writes it."""
    file = JobFile("x: 0\n")
    file.set(("x",), value)
    return file.text().removeprefix("x: ").rstrip("\n")


def _without_item(text: str, listed: Listed, index: int) -> str:
    """Without one item of a list that has more."""
    span = listed.spans[index]
    if listed.flow:
        after = text[span.end :].lstrip()
        if after.startswith(","):
            return text[: span.start] + after[1:].lstrip(" ")
        return text[: span.start].rstrip().removesuffix(",") + text[span.end :]
    first = text.rfind("\n", 0, span.start) + 1
    last = text.find("\n", len(text[: span.end].rstrip()))
    if not LIST_ITEM.match(text[first : span.start + 1]):
        raise NotTaken("this edge cannot be taken out alone: change it in the text")
    return text[:first] + (text[last + 1 :] if last >= 0 else "")
