"""The survey as fields: where each stands in the job file and on the diagrams, and what is written there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitwright.job.reading import read_tree
from fitwright.job.shape.space import FLAT_WORDS, REACHED_FROM, WALLS
from fitwright.job.written import Listed, Mapped, Node, Written, is_empty
from fitwright.web.errors import NotThere

Path = tuple[str | int, ...]

MOST = 60  # sizes of one kind that are shown
PLAIN = 3  # three sizes in a list stand at the start, the middle and the end


@dataclass(frozen=True)
class Entry:
    """One field: its name in the form, what it is called, what is written, and where on its diagram it stands."""

    name: str
    label: str
    text: str
    x: float = 0.0
    y: float = 0.0


@dataclass(frozen=True)
class Boxed:
    """A thing or a door: its kind, its name and its fields; on_wall: whether it is given by a wall."""

    kind: str
    name: str
    entries: tuple[Entry, ...]
    choices: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True)
class Survey:
    """All fields of the survey. elevation, plan, floor: on the diagrams; listed, rest: beside them."""

    elevation: tuple[Entry, ...]
    plan: tuple[Entry, ...]
    floor: tuple[Entry, ...]
    rest: tuple[Entry, ...]
    things: tuple[Boxed, ...]
    doors: tuple[Boxed, ...]
    listed: tuple[Entry, ...]


# On the elevation: a wall left and right, three widths, three heights, how far the walls lean; 360 wide, 420 high.
THREE = {
    "width": (("at the floor", 190, 322), ("half way up", 190, 222), ("at the top", 190, 122)),
    "height": (("at the left", 78, 40), ("in the middle", 190, 40), ("at the right", 302, 40)),
    "depth": (("at the floor", 180, 234), ("half way up", 180, 177), ("at the top", 180, 120)),
}
ELEVATION = {"lean.left": ("left wall leans in", 78, 172), "lean.right": ("right wall leans in", 302, 172)}
PLAN = {
    "plan.front": ("front side", 180, 318),
    "plan.back": ("back side", 180, 60),
    "plan.left": ("left side", 66, 182),
    "plan.right": ("right side", 294, 182),
    "plan.diagonals.0": ("front left to back right", 64, 250),
    "plan.diagonals.1": ("front right to back left", 296, 250),
    "lean.back": ("back wall leans in", 290, 110),
}
REST = {
    "opening.plan.at": "height at which the plan was measured",
    "within": "what the lengths are known to, ±",
    "aisle": "free floor before the opening",
    "uneven": "how uneven the floor is, ±",
    "level": "how far out of level it may stand",
    "skirting.height": "skirting: height",
    "skirting.thickness": "skirting: thickness",
    "skirting.on": "skirting: along which walls",
    "clear.left": "gap wanted on the left",
    "clear.right": "gap wanted on the right",
    "clear.back": "gap wanted at the back",
    "clear.front": "gap wanted in front",
    "clear.top": "gap wanted above",
    "stand.left": "stands from the left wall",
    "stand.right": "stands from the right wall",
    "clean.below": "room wanted below, for cleaning",
    "clean.behind": "room wanted behind, for cleaning",
}
ON_WALL = ("on", "at.0", "at.1", "size.0", "size.1", "size.2", "reach", "room")
IN_SPACE = ("from.0", "from.1", "from.2", "to.0", "to.1", "to.2", "reach", "room")
DOOR = ("hinge.0", "hinge.1", "width", "height", "shut", "opens", "turns", "thickness")
CALLED = {
    "on": "on which wall", "at.0": "from the left (side walls: from the front)", "at.1": "up to its lower edge",
    "size.0": "how wide", "size.1": "how high", "size.2": "how far out from the wall",
    "from.0": "one corner: from the left", "from.1": "one corner: from the front", "from.2": "one corner: up",
    "to.0": "other corner: from the left", "to.1": "other corner: from the front", "to.2": "other corner: up",
    "reach": "has to stay in reach from", "room": "room for the hand",
    "hinge.0": "hinge: from the left wall", "hinge.1": "hinge: from the front line", "width": "width of the leaf",
    "height": "height of the leaf", "shut": "points there when shut", "opens": "opens to the",
    "turns": "opens by, degrees", "thickness": "thickness of the leaf",
}  # fmt: skip
CHOICES = {"on": WALLS, "reach": ("", *REACHED_FROM), "shut": FLAT_WORDS, "opens": FLAT_WORDS}
KEYS = {"thing on a wall": ON_WALL, "thing in the room": IN_SPACE, "door": DOOR}
SECTION = {"thing on a wall": "things", "thing in the room": "things", "door": "doors"}


def survey_of(text: str) -> Survey:
    """The fields of a job file's survey. Raises JobFileError where the file cannot be read."""
    space = space_of(text)
    elevation: list[Entry] = []
    plan: list[Entry] = []
    listed: list[Entry] = []
    for what, spots in THREE.items():
        entries = _three(space, what, spots)
        if entries is None:
            listed += _listed(space, what)
        else:
            (plan if what == "depth" else elevation).extend(entries)
    elevation += [_entry(space, f"opening.{key}", *spot) for key, spot in ELEVATION.items()]
    plan += [_entry(space, f"opening.{key}", *spot) for key, spot in PLAN.items()]
    rest = tuple(_entry(space, key, label) for key, label in REST.items())
    things = tuple(_boxed(kind_of(node), name, node) for name, node in _named(space, "things"))
    doors = tuple(_boxed("door", name, node) for name, node in _named(space, "doors"))
    return Survey(tuple(elevation), tuple(plan), _floor(space), rest, things, doors, tuple(listed))


def blank(kind: str) -> Boxed:
    """The fields of a new thing or door. Raises NotThere for no such kind."""
    if kind not in KEYS:
        raise NotThere(f"there is no kind called {kind[:40]!r}: {', '.join(KEYS)}")
    return _boxed(kind, "", Mapped("", read_tree("a: b\n", "").root.place))


def space_of(text: str) -> Mapped | None:
    """The section of the survey as it is written; None where there is none."""
    found = read_tree(text, "job.yaml").root.get("space")
    return found if isinstance(found, Mapped) else None


def written_at(space: Mapped | None, path: Path) -> str:
    """What is written at a path under the section, empty where nothing is or where it is not a single value."""
    node: Node | None = space
    for step in path:
        if isinstance(node, Mapped):
            node = node.get(str(step))
        elif isinstance(node, Listed) and str(step).isdecimal() and int(step) < len(node):
            node = node[int(step)]
        else:
            return ""
    if isinstance(node, Listed) and all(isinstance(item, Written) for item in node):
        return ", ".join(item.text for item in node)
    return node.text if isinstance(node, Written) and not is_empty(node) else ""


def path_of(name: str) -> Path:
    """The path under the section that a field's name stands for."""
    return tuple(int(step) if step.isdecimal() else step for step in name.split("."))


def kind_of(node: Node) -> str:
    """Of which kind a thing is, by its keys."""
    return "thing in the room" if isinstance(node, Mapped) and ("from" in node or "to" in node) else "thing on a wall"


def floor_places(space: Mapped | None) -> list[tuple[str, str, str]]:
    """Places of the floor as written: from the left, from the front, height; the four corners where none are."""
    given = space.get("floor") if space is not None else None
    if isinstance(given, Listed) and given:
        return [
            (written_at(space, ("floor", k, "at", 0)), written_at(space, ("floor", k, "at", 1)),
             written_at(space, ("floor", k, "is")))
            for k in range(len(given))
        ]  # fmt: skip
    wide = _first(space, "width") or written_at(space, ("opening", "plan", "front"))
    deep = _first(space, "depth") or written_at(space, ("opening", "plan", "left"))
    return [("0", "0", ""), (wide, "0", ""), ("0", deep, ""), (wide, deep, "")] if wide and deep else []


def _first(space: Mapped | None, what: str) -> str:
    """The first of the sizes of a kind."""
    return (
        written_at(space, ("opening", what, 0, "is"))
        or written_at(space, ("opening", what, 0))
        or written_at(space, ("opening", what))
    )


def _three(space: Mapped | None, what: str, spots: tuple[tuple[str, int, int], ...]) -> list[Entry] | None:
    """Three fields for a size that is one value or three; None for one that is written in another way."""
    opening = space.get("opening") if space is not None else None
    node = opening.get(what) if isinstance(opening, Mapped) else None
    texts = ["", "", ""]
    if isinstance(node, Written):
        texts = [node.text, "", ""]
    elif isinstance(node, Listed):
        if len(node) != PLAIN or not all(isinstance(item, Written) for item in node):
            return None
        texts = [item.text for item in node]
    return [
        Entry(f"opening.{what}.{k}", f"{what} {place}", text, x, y)
        for k, (text, (place, x, y)) in enumerate(zip(texts, spots, strict=True))
    ]


def _listed(space: Mapped | None, what: str) -> list[Entry]:
    """One field for every size that is written with its place."""
    found = []
    for k in range(MOST):
        at = written_at(space, ("opening", what, k, "at"))
        if not at:
            break
        station = written_at(space, ("opening", what, k, "station"))
        where = f"{at} from the left" if what == "height" else f"{at} up"
        label = f"{what} at {where}" + (f", {station} in" if station else "")
        found.append(_entry(space, f"opening.{what}.{k}.is", label))
    return found


def _entry(space: Mapped | None, name: str, label: str, x: float = 0.0, y: float = 0.0) -> Entry:
    return Entry(name, label, written_at(space, path_of(name)), x, y)


def _floor(space: Mapped | None) -> tuple[Entry, ...]:
    """One field for each place of the floor, where it lies on the plan of 360 by 360."""
    places = floor_places(space)
    spots = ((62, 312), (298, 312), (62, 62), (298, 62))
    found = []
    for k, (x, y, height) in enumerate(places):
        spot = spots[k] if k < len(spots) else (180, 187)
        found.append(Entry(f"floor.{k}", f"floor {x} from the left, {y} from the front", height, *spot))
    return tuple(found)


def _named(space: Mapped | None, section: str) -> list[tuple[str, Mapped]]:
    found = space.get(section) if space is not None else None
    return (
        [(name, node) for name, node in found.items() if isinstance(node, Mapped)] if isinstance(found, Mapped) else []
    )


def _boxed(kind: str, name: str, node: Mapped) -> Boxed:
    entries = tuple(Entry(key, CALLED[key], written_at(node, path_of(key))) for key in KEYS[kind])
    return Boxed(kind, name, entries, {key: CHOICES[key] for key in KEYS[kind] if key in CHOICES})
