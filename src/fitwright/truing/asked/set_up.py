"""Readings of what lies on the bench, just tacked: the check numbers of its sheet, and its twist."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from fitwright.job.readings import Of
from fitwright.making.bench.model import Check
from fitwright.making.bench.pose import Posed, posed
from fitwright.making.bench.tape import checks_of
from fitwright.mechanics.variation.reading import Probe, apart
from fitwright.mechanics.variation.stagewise import joined_after
from fitwright.truing.asked.loose import span
from fitwright.truing.asked.subject import Subject
from fitwright.truing.errors import TruingError
from fitwright.truing.functional import Asked


def along(asking: Subject, of: Of) -> Asked:
    """A length or width along a side of a set-up on the bench."""
    name = f"{of.axis} along the {of.place}"
    return on_bench(asking, of, "width", lambda found: next((c for c in found if c.name.startswith(name)), None))


def above_bench(asking: Subject, of: Of) -> Asked:
    """How high the top of a set-up lies above the bench."""
    pose, members = laid(asking, of)
    check = next((c for c in checks_of(pose, asking.style, None) if c.kind == "height"), None)
    if check is None:
        raise TruingError(f"{of}: the set-up lies flat and has no height to read")
    nodes = nodes_of(asking, members)
    heights = pose.seen(asking.setting.parts.model.nodes[nodes])[:, 2]
    high, low = nodes[int(np.argmax(heights))], nodes[int(np.argmin(heights))]
    at, up = asking.setting.parts.model.nodes, pose.rotation[2]
    probes = apart((int(low), at[low]), (int(high), at[high]), up)
    return Asked(check.length, joined_after(asking.setting, members), members, probes)


def twist(asking: Subject, of: Of) -> Asked:
    """How far the front right corner stands off when the three others lie on the bench."""
    pose, members = laid(asking, of)
    nodes = nodes_of(asking, members)
    plan = pose.seen(asking.setting.parts.model.nodes[nodes])[:, :2]
    middle = (plan.min(axis=0) + plan.max(axis=0)) / 2
    at, probes = asking.setting.parts.model.nodes, []
    for x, y in ((1, -1), (-1, -1), (1, 1), (-1, 1)):
        node = int(nodes[int(np.argmax((plan - middle) @ np.array([x, y])))])
        probes.append(Probe(node, at[node], pose.rotation[2] * (1.0 if x * y < 0 else -1.0)))
    return Asked(0.0, joined_after(asking.setting, members), members, tuple(probes))


def laid(asking: Subject, of: Of) -> tuple[Posed, tuple[int, ...]]:
    """A set-up as it lies on the bench, and its members. Raises TruingError where nothing is set up."""
    if not asking.groups:
        raise TruingError(f"{of}: nothing is set up on the bench for this piece")
    number = asking.names.group(of.thing)
    return posed(asking.setting.framed.piece, asking.groups, number), asking.groups[number].members


def nodes_of(asking: Subject, members: tuple[int, ...]) -> np.ndarray[tuple[int], np.dtype[np.intp]]:
    """(n,) the nodes of some members."""
    found = asking.setting.parts.nodes_of
    return np.concatenate([found[k] for k in members if k in found])


def on_bench(asking: Subject, of: Of, kind: str, choose: Callable[[list[Check]], Check | None]) -> Asked:
    """A check number of a set-up's sheet, chosen from those of its kind. Raises TruingError where it has none."""
    pose, members = laid(asking, of)
    known = [c for c in checks_of(pose, asking.style, None) if c.kind == kind]
    check = choose(known)
    if check is None:
        listed = "; ".join(c.name for c in known) or "none"
        raise TruingError(f"{of}: the set-up has no such number to read (there are: {listed})")
    nodes = nodes_of(asking, members)
    seen = pose.seen(asking.setting.parts.model.nodes[nodes])
    ends = []
    for spot in (check.start, check.end):
        off = np.linalg.norm(seen[:, :2] - np.array(spot), axis=1) + 1e-3 * seen[:, 2]
        node = int(nodes[int(np.argmin(off))])
        ends.append((node, asking.setting.parts.model.nodes[node]))
    way = pose.rotation.T @ np.array([check.end[0] - check.start[0], check.end[1] - check.start[1], 0.0])
    stage = joined_after(asking.setting, members)
    if stage == 0:
        one = span(asking, members[0], ends[0], ends[1], outside=False)
        middle, exact = one.drawn, one.exact
        assert exact is not None
        return Asked(
            check.length, 0, members, one.probes, row=one.row, exact=lambda e: check.length - middle + exact(e)
        )
    return Asked(check.length, stage, members, apart(ends[0], ends[1], way / np.linalg.norm(way)))
