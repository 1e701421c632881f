"""What moves when a dim changes: the other dims and the parts whose arithmetic names it, straight or through others."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping

from fitwright.job.arithmetic import ArithmeticFault, names_in, read
from fitwright.job.reading import read_tree
from fitwright.job.written import Listed, Mapped, Node, Written

OF_THE_PLACE = "space"
PART = "part"


def users(text: str) -> dict[str, list[tuple[str, str]]]:
    """By name of a dim, what uses it: ("part", "hoop"), ("dim", "pitch"), ("space", "space")…, each once, as written.

    text: a job file that holds. A dim that another uses is followed on to what uses that one.
    """
    root = read_tree(text, "job.yaml").root
    direct: defaultdict[str, list[tuple[str, str]]] = defaultdict(list)
    for place, node in _places(root):
        for name in dict.fromkeys(_names(node)):
            direct[name].append(place)
    dims = root.get("dims")
    names = list(dims) if isinstance(dims, Mapped) else []
    return {name: list(dict.fromkeys(_followed(name, direct, {name}))) for name in names}


def dims_of(users_of: Mapping[str, list[tuple[str, str]]], place: tuple[str, str]) -> list[str]:
    """The dims that a part, or another place in the file, hangs on."""
    return [name for name, places in users_of.items() if place in places]


def _followed(name: str, direct: Mapping[str, list[tuple[str, str]]], seen: set[str]) -> Iterator[tuple[str, str]]:
    for place in direct.get(name, []):
        yield place
        if place[0] == "dim" and place[1] not in seen:
            seen.add(place[1])
            yield from _followed(place[1], direct, seen)


def _places(root: Mapped) -> Iterator[tuple[tuple[str, str], Node]]:
    """Each place of the file that is told by itself."""
    kinds = {"dims": "dim", "parts": PART}
    for section, node in root.items():
        if section in kinds and isinstance(node, Mapped):
            for name, inner in node.items():
                yield (kinds[section], name), inner
        elif section != "job":
            yield (section, section), node


def _names(node: Node) -> Iterator[str]:
    if isinstance(node, Written):
        found = read(node.text)
        if not isinstance(found, ArithmeticFault):
            yield from (name.name for name in names_in(found))
        return
    for inner in node.values() if isinstance(node, Mapped) else node:
        assert isinstance(inner, Written | Listed | Mapped)
        yield from _names(inner)
