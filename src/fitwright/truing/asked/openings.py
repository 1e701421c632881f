"""Readings of feet, openings, joints, walls and paint."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from fitwright.job.readings import Of
from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation.reading import Probe
from fitwright.truing.asked.subject import Subject, counted
from fitwright.truing.errors import TruingError
from fitwright.truing.functional import Asked, Places

Z = np.array([0.0, 0.0, 1.0])
WALLS = {
    "left": ("left", "sideways", 1.0),
    "right": ("right", "sideways", -1.0),
    "behind": ("back", "along", -1.0),
    "above": ("top", "", 0.0),
}


def foot_height(asking: Subject, of: Of) -> Asked:
    """The underside of a foot over any level plane."""
    foot = foot_of(asking, of)
    spot = asking.setting.parts.feet[foot].point
    plane = {"level": 1.0, "tilt along x": float(spot[0]) / 1000.0, "tilt along y": float(spot[1]) / 1000.0}
    return Asked(0.0, asking.last, asking.names.members(""), row=rows_of(asking, "foot")[foot], unknown=plane)


def foot_gap(asking: Subject, of: Of) -> Asked:
    """The gap under a foot while the piece stands on the others."""
    foot, rows = foot_of(asking, of), rows_of(asking, "foot")
    plan = np.array([standing.point[:2] for standing in asking.setting.parts.feet])
    others = [i for i in range(len(plan)) if i != foot]
    if len(others) < 3:
        raise TruingError(f"{of}: on {len(plan)} feet no foot hangs")
    corners = np.column_stack([plan, np.ones(len(plan))])
    weights = corners[foot] @ np.linalg.pinv(corners[others])
    return Asked(0.0, asking.last, asking.names.members(""), row=rows[foot] - weights @ rows[others])


def foot_of(asking: Subject, of: Of) -> int:
    """The place of a foot in the list. Raises TruingError where there is none."""
    feet = asking.setting.parts.feet
    if not feet:
        raise TruingError(f"{of}: the piece has no feet")
    counted(of, len(feet), "feet")
    return of.number - 1


def rows_of(asking: Subject, kind: str) -> Floats:
    """(k, e) what the outcomes of one kind feel."""
    which = [i for i, outcome in enumerate(asking.setting.outcomes) if outcome.kind == kind]
    return np.asarray(asking.setting.felt[which])


def for_shelf(asking: Subject, of: Of) -> Asked:
    """The clear size between what a shelf drops into, at its narrowest, the shelf's own errors not in it."""
    _, panel = asking.names.panel(of.thing)
    mine = [
        i
        for i, o in enumerate(asking.setting.outcomes)
        if o.kind == "play" and o.name.startswith(f"{panel.name} between ")
    ]
    axes = {i: _axis_of(asking.setting.readings[i].direct) for i in mine}
    along = panel.boards[0].along if panel.boards else 0
    wanted = along if of.place != "across" else 1 - along if panel.normal == 2 else along
    chosen = [i for i in mine if axes[i] == wanted] or (mine if not of.place else [])
    if not chosen:
        raise TruingError(f"{of}: {panel.name} drops in between nothing that holds it that way")
    own = np.array([not effect.key.startswith(("shelf:", "measured:")) for effect in asking.setting.found])
    rows, plays = asking.setting.felt[chosen] * own, np.array([asking.setting.outcomes[i].nominal for i in chosen])
    boards = [board for board in panel.boards if board.role != "batten"]
    low, high = np.min([b.low for b in boards], axis=0), np.max([b.high for b in boards], axis=0)
    sizes = plays + float((high - low)[axes[chosen[0]]])
    least = int(np.argmin(sizes))
    everything = asking.names.members("")
    return Asked(float(sizes[least]), asking.last, everything, row=rows[least], places=Places(sizes, rows))


def above_shelf(asking: Subject, of: Of) -> Asked:
    """The clear height over a shelf, to the one above it."""
    _, panel = asking.names.panel(of.thing)
    panels = asking.setting.framed.piece.panels
    over = [p for p in panels if p.low[2] > panel.high[2] - 1.0 and p is not panel and p.rests_on]
    if not over or not panel.rests_on:
        raise TruingError(f"{of}: no shelf lies over {panel.name}")
    upper = min(over, key=lambda p: float(p.low[2]))
    drawn = float(upper.low[2] - panel.high[2])
    probes = [*middles(asking, upper.rests_on, Z), *middles(asking, panel.rests_on, -Z)]
    return Asked(drawn, asking.last, asking.names.members(""), tuple(probes))


def middles(asking: Subject, members: tuple[int, ...], way: Floats) -> list[Probe]:
    """Probes at the middles of some members, each counting its share along a way (3,)."""
    parts = asking.setting.parts
    found = []
    for k in members:
        if k in parts.nodes_of:
            nodes = parts.nodes_of[k]
            node = int(nodes[len(nodes) // 2])
            found.append(Probe(node, parts.model.nodes[node], way / len(members)))
    return found


def clear(asking: Subject, of: Of) -> Asked:
    """A clear size of an opening of the job."""
    name = f"{of.thing}, clear {of.axis}".lower()
    for i, outcome in enumerate(asking.setting.outcomes):
        if outcome.name.lower() == name:
            return Asked(outcome.nominal, asking.last, asking.names.members(""), row=asking.setting.felt[i])
    known = [o.name for o in asking.setting.outcomes if o.kind == "opening"]
    raise TruingError(f"{of}: no such opening is bounded by parts (there are {', '.join(known) or 'none'})")


def joint_gap(asking: Subject, of: Of) -> Asked:
    """The gap at a joint, before it is welded."""
    one, other = asking.names.member(of.thing), asking.names.member(of.other)
    for i, outcome in enumerate(asking.setting.outcomes):
        if outcome.kind == "joint":
            meeting = asking.setting.parts.meetings[int(outcome.name.split(",")[0].removeprefix("weld ")) - 1]
            if set(meeting.members) == {one, other}:
                return Asked(0.0, asking.last, (one, other), row=-asking.setting.felt[i])
    raise TruingError(f"{of}: there is no weld between them that fills a gap")


def wall_gap(asking: Subject, of: Of) -> Asked:
    """The gap to a wall of the place; where the piece stands in it is not known."""
    side, shift, sign = WALLS[of.place]
    mine = [i for i, o in enumerate(asking.setting.outcomes) if o.kind == "gap" and o.name.startswith(f"gap {side} at")]
    if not mine:
        raise TruingError(f"{of}: the space says nothing of a wall there")
    least = min(mine, key=lambda i: float(asking.setting.outcomes[i].nominal))
    unknown = {f"where it stands {shift}": sign} if shift else {}
    row, drawn = asking.setting.felt[least], asking.setting.outcomes[least].nominal
    return Asked(drawn, asking.last, asking.names.members(""), row=row, unknown=unknown)


def paint(asking: Subject, of: Of) -> Asked:
    """The dry film; no error of the frame moves it."""
    return Asked(0.0, asking.last, ())


def _axis_of(direct: Mapping[str, float]) -> int:
    """The axis of a shelf's play, from the name of the error of its size."""
    return next(int(key.split(":")[2]) for key in direct if key.startswith("shelf:"))
