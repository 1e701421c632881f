"""What to do differently in the making, with the chances that it would leave."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fitwright.mechanics.variation.chances import by_name
from fitwright.mechanics.variation.model import Change
from fitwright.mechanics.variation.quick import quick_chances
from fitwright.mechanics.variation.setting import Variation, with_making
from fitwright.mechanics.variation.sources import Making, copies

SAME_LENGTH_MM = 0.5
WORDS = {
    "check_bends": "lay every bend against a square and touch it up before going on",
    "trim_after_bending": "leave the legs long and trim them after bending",
    "one_stop": "cut all pieces of one length on one stop setting",
    "match_frames": "bend and true the second frame to match the first",
    "shim": "measure the gap under the foot that is off the floor and shim it",
    "level": "fit levelling feet or levelling caster stems",
    "fit_shelves": "cut the shelves to the frame as it came out",
}


def changes(setting: Variation, n: int, seed: int | None) -> tuple[Change, ...]:
    """Every change that this piece allows, best first: by the least chance it leaves, then by all of them.

    n: builds for each, quickly drawn; all with one seed, so that differences are not chance alone.
    """
    found = []
    for key, making in _possible(setting):
        chances, overall = quick_chances(with_making(setting, making), n, seed)
        words = WORDS.get(key, "all of these together")
        found.append(Change(key, words, by_name(chances) | {"all": overall}))
    return tuple(sorted(found, key=lambda change: -change.chances["all"]))


def _possible(setting: Variation) -> Iterator[tuple[str, Making]]:
    now, together = setting.making, setting.making
    allowed = {
        "check_bends": any(k.startswith("bend:") for k in (e.key for e in setting.found)) and not now.check_bends,
        "trim_after_bending": _open_bent(setting) and not now.trim_after_bending,
        "one_stop": _cut_to_marks(setting) and not now.one_stop,
        "match_frames": bool(copies(setting.framed, setting.parts)) and not now.match_frames,
        "shim": _rocks(setting) and not (now.shim or now.level),
        "level": _rocks(setting) and not now.level,
        "fit_shelves": any(o.kind == "play" for o in setting.outcomes) and not now.fit_shelves,
    }
    for key, good in allowed.items():
        if good:
            yield key, replace(now, **{key: True})
            together = replace(together, **{key: True})
    if sum(allowed.values()) > 1:
        yield "all", together


def _rocks(setting: Variation) -> bool:
    return any(question.subject == "rock" for question in setting.decisive[0])


def _open_bent(setting: Variation) -> bool:
    members = setting.framed.piece.members
    return any(members[k].path.bent and not members[k].path.closed for k in setting.parts.nodes_of)


def _cut_to_marks(setting: Variation) -> bool:
    """Whether two pieces of one stock and length are each cut to their own mark."""
    members = [setting.framed.piece.members[k] for k in setting.parts.nodes_of]
    marked = [m for m in members if m.cut_length > setting.making.stop_reach]
    return any(
        a.stock.label == b.stock.label and abs(a.cut_length - b.cut_length) < SAME_LENGTH_MM
        for i, a in enumerate(marked)
        for b in marked[i + 1 :]
    )
