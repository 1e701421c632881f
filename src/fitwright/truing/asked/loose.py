"""Readings of parts that are still loose: bends, legs, lengths, spreads."""

from __future__ import annotations

import numpy as np

from fitwright.job.readings import Of
from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation import Variation
from fitwright.mechanics.variation.reading import distance
from fitwright.mechanics.variation.sources import bends_of
from fitwright.piece.path import Straight
from fitwright.truing.asked.subject import Subject, counted
from fitwright.truing.errors import TruingError
from fitwright.truing.functional import Asked
from fitwright.truing.loose import Chain, spanned


def bend(asking: Subject, of: Of) -> Asked:
    """The angle of a bend."""
    k = asking.names.member(of.thing)
    arcs = bends_of(asking.setting.framed, k)
    counted(of, len(arcs), "bends")
    return Asked(arcs[of.number - 1].angle, 0, (k,), direct={f"bend:{k}:{of.number}": 1.0})


def rotation(asking: Subject, of: Of) -> Asked:
    """The angle between the planes of a bend and of the one before."""
    k = asking.names.member(of.thing)
    arcs = bends_of(asking.setting.framed, k)
    counted(of, len(arcs), "bends", first=2)
    one, other = arcs[of.number - 2].axis, arcs[of.number - 1].axis
    key = f"turn:{k}:{of.number}"
    if key not in asking.column:
        raise TruingError(f"{of}: there is no straight between the two bends to turn")
    along = other_way(asking.setting, k, of.number)
    drawn = float(np.arctan2(np.cross(one, other) @ along, one @ other))
    return Asked(abs(drawn), 0, (k,), direct={key: 1.0 if drawn >= 0 else -1.0})


def cut_length(asking: Subject, of: Of) -> Asked:
    """The length sawn, tip to tip."""
    k = asking.names.member(of.thing)
    member = asking.setting.framed.piece.members[k]
    sheet = asking.sheets.get(asking.setting.framed.piece.mark_of.get(member.name, ""))
    if not member.path.bent:
        return Asked(member.cut_length, 0, (k,), direct={f"tip:{k}:0": 1.0, f"tip:{k}:1": 1.0})
    drawn = sheet.blank if sheet else member.cut_length
    spare = sheet is not None and any(trim.allowance > 0 for trim in sheet.trims)
    return Asked(
        drawn, 0, (k,), direct={} if spare or asking.setting.making.trim_after_bending else {f"tip:{k}:1": 1.0}
    )


def leg(asking: Subject, of: Of) -> Asked:
    """A straight between bends back to back, or an end one from the back of its bend to its tip."""
    k = asking.names.member(of.thing)
    member, count = asking.setting.framed.piece.members[k], len(bends_of(asking.setting.framed, k))
    if not count or member.path.closed:
        raise TruingError(f"{of}: {member.name} has no legs; read its cut length")
    counted(of, count + 1, "legs")
    reach = member.body.reach
    arcs = bends_of(asking.setting.framed, k)
    before, after = of.number - 1, of.number
    direct: dict[str, float] = {}
    drawn = _straight(member.path.segments, of.number, count)
    for bend, sign in ((before, -1.0), (after, 1.0)):
        if 1 <= bend <= count:
            direct[f"place:{k}:{bend}"] = sign
            drawn += arcs[bend - 1].radius * float(np.tan(min(arcs[bend - 1].angle, np.pi / 2) / 2)) + reach
    if of.number == 1:
        direct[f"tip:{k}:0"] = 1.0
        drawn += member.ends[0].longest
    if of.number == count + 1:
        direct[f"tip:{k}:1"] = 1.0
        drawn += member.ends[1].longest
    return Asked(drawn, 0, (k,), direct=direct)


def spread(asking: Subject, of: Of) -> Asked:
    """Outside to outside between the first and the last leg of a bent part."""
    k = asking.names.member(of.thing)
    member = asking.setting.framed.piece.members[k]
    if not member.path.bent or member.path.closed:
        raise TruingError(f"{of}: {member.name} has no two legs")
    nodes, parts = asking.setting.parts.nodes_of[k], asking.setting.parts
    first, last = (nodes[0], nodes[-1]) if of.place == "ends" else tangents(asking, k)
    at = parts.model.nodes
    return span(asking, k, (int(first), at[first]), (int(last), at[last]))


def tangents(asking: Subject, k: int) -> tuple[int, int]:
    """The nodes where the first bend of a member begins and the last one ends."""
    line, parts = asking.setting.framed.lines[k], asking.setting.parts
    places = line.bend_places
    nodes = parts.nodes_of[k]
    pick = [int(nodes[int(np.argmin(np.abs(parts.s[nodes] - s)))]) for s in (places[0], places[-1])]
    return pick[0], pick[1]


def span(asking: Subject, k: int, one: tuple[int, Floats], other: tuple[int, Floats], outside: bool = True) -> Asked:
    """A distance on one loose part, in full geometry."""
    chain = Chain(asking.setting, k)
    middle, probes = distance(one, other)
    more = 2 * asking.setting.framed.piece.members[k].body.reach if outside else 0.0
    row = np.zeros(len(asking.setting.found))
    row[[number for number, _ in chain.into_gaps]] = 1.0
    return Asked(middle + more, 0, (k,), probes, row=row, exact=lambda errors: spanned(chain, probes, errors) + more)


def other_way(setting: Variation, k: int, number: int) -> Floats:
    """(3,) the way of travel on the straight before a bend."""
    return np.asarray(
        np.cross(bends_of(setting.framed, k)[number - 1].axis, bends_of(setting.framed, k)[number - 1].spoke)
    )


def _straight(segments: tuple[object, ...], number: int, bends: int) -> float:
    """Length of the straight that is leg `number` of a part with so many bends [mm]; 0 where bends follow at once."""
    lengths, seen = dict.fromkeys(range(1, bends + 2), 0.0), 1
    for segment in segments:
        if isinstance(segment, Straight):
            lengths[seen] += segment.length
        else:
            seen += 1
    return lengths[number]
