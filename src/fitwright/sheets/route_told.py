"""The way in, in words: for a terminal, and for the sheets and screens that say the same."""

from __future__ import annotations

import re
import sys
from collections.abc import Sequence

import numpy as np

from fitwright.place.route import Answer, Carry, Easing, Passage, Route
from fitwright.place.route.chain import Turnover
from fitwright.place.route.grips import Hold
from fitwright.place.route.splitting import Split
from fitwright.units import Style

COPY = re.compile(r" \d+$")
SLIGHT = np.radians(2)  # a tilt that is not worth saying
SIGNS = {Answer.PASSES: "✓ passes", Answer.NO: "✗ does not pass", Answer.NOT_FOUND: "? not found"}


def print_route(route: Route, carries: Sequence[Carry], style: Style) -> None:
    """Print every leg, what would ease it, and every carry."""
    from rich.console import Console
    from rich.table import Table

    console = Console(width=None if sys.stdout.isatty() else 160)
    table = Table(box=None, pad_edge=False, padding=(0, 3, 0, 0))
    for heading in ("answer", "where", "held", "tightest", "known by"):
        table.add_column(heading, overflow="fold")
    for leg, passage in zip(route.legs, route.passages, strict=True):
        table.add_row(SIGNS[passage.answer], leg.name, held(passage), room(passage, style), passage.proof)
    console.print(f"{route.bulk.name}: {SIGNS[route.answer]}")
    console.print(table)
    for turn in route.turnovers:
        console.print(turned(turn, route, style))
    for easing in route.easings:
        console.print(eased(easing, style))
    for carry in carries:
        console.print(f"{carry.leg.name}: {carried(carry, style)}")


def turned(turn: Turnover, route: Route, style: Style) -> str:
    """Where it is turned over, and the height for it."""
    said = f"{turn.when(route.legs)}: turn it from {turn.start.words} to {turn.finish.words}"
    takes = f"takes {style.length(turn.needs)} of height"
    if turn.has is None:
        return f"{said}, which {takes}; not known how high it is there"
    return f"{said}, which {takes}" if turn.fits else f"{said}: ✗ {takes}, and {style.length(turn.has)} is there"


def unturned(route: Route, turn: Turnover, style: Style) -> str:
    """What is lacking where there is not the height to turn it over."""
    lacking = style.length(turn.needs - (turn.has or 0.0))
    return f"{lacking} of height lacking to turn it over {turn.when(route.legs)}"


def held(passage: Passage) -> str:
    """How it goes through."""
    if passage.stance is None:
        return ""
    if passage.rolled:
        return "rolled upright"
    tipped = tipping(passage)
    return f"carried {passage.stance.words}" + (f", tipped up to {np.degrees(tipped):.0f}°" if tipped > SLIGHT else "")


def tipping(passage: Passage) -> float:
    """How far it is tipped on its way from how it is held at first [rad]."""
    ups = np.array([pose.turn.T[:, 2] for pose in passage.poses]).reshape(-1, 3)
    return float(np.arccos(np.clip((ups @ ups[0]).min(), -1.0, 1.0))) if len(ups) else 0.0


def room(passage: Passage, style: Style) -> str:
    """The least clearance on the way and to what, or what is lacking."""
    if passage.missing > 0:
        return f"lacks {style.length(passage.missing)} at {passage.spot.what}"
    return "" if passage.clearance is None else f"{style.length(passage.clearance)} to {passage.spot.what}"


def eased(easing: Easing, style: Style) -> str:
    """What an easing does."""
    where = "" if easing.cut is None else f", {_cut(easing.cut, style)}"
    if easing.passes:
        return f"{easing.name}: ✓ passes{where}"
    lacking = f", lacks {style.length(easing.missing)} at “{easing.where}”" if easing.missing > 0 else ""
    return f"{easing.name}: ✗ does not help{lacking}"


def _cut(cut: Split, style: Style) -> str:
    """Where it is made in two, and how many joints are to be bolted there."""
    off = ("from the left", "from the front", "above the floor")[cut.axis]
    return f"made in two {style.length(cut.at)} {off}, {cut.cuts} {'joints' if cut.cuts != 1 else 'joint'} bolted there"


def carried(carry: Carry, style: Style) -> str:
    """Weight, people, where to hold."""
    if carry.rolled:
        return f"{style.weight(carry.mass)}, rolls"
    people = (
        "more than 4 people" if carry.people is None else f"{carry.people} {'people' if carry.people > 1 else 'person'}"
    )
    limit = "" if carry.limit is None else f", one should lift {style.weight(carry.limit)} here"
    return f"{style.weight(carry.mass)}, {people}{limit}; {holding(carry, style)}"


def holding(carry: Carry, style: Style) -> str:
    """Where the hands go, person by person."""
    said = []
    for person in (1, 2):
        hands = [one for one in carry.holds if one.person == person]
        places = dict.fromkeys(f"{_named(one)} {style.length(one.along)} from {one.end}" for one in hands)
        if places:
            said.append(f"{'one' if person == 1 else 'other'} end: {' and '.join(places)}")
    return "; ".join(said) or "no stiff member to hold it by"


def _named(hold: Hold) -> str:
    """A member by its mark and what it is, whichever copy."""
    return f"{hold.mark} ({COPY.sub('', hold.name)})"
