"""How likely the piece comes out right: the chances, what decides them, and what to do differently."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import inf

from fitwright.assess import Assessment
from fitwright.checks.fit_chance import TIGHT_SHARE, WORTH
from fitwright.findings import Verdict
from fitwright.mechanics.variation import BestNominal, Chance, Change, VirtualBuilds, spread_notes
from fitwright.sheets.drawing import Drawing
from fitwright.sheets.packet.distribution import distribution_picture, limits_of
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.sheets.terminal import SIGNS
from fitwright.sheets.wording import FITS, SURE, WANTED, demand, fine, percent
from fitwright.units import Style

TITLE = "How likely it comes out right"
# what a piece must, by the names of the chances
MUST = {"fits": "go in", "stands flat": "stand flat", "shelves drop in": "take their shelves"}
# what the number of a question is, by its subject
MEASURED = {
    "across": "room left over from side to side, both gaps together",
    "along": "room left over from front to back",
    "above": "room left over above it",
    "rock": "how far a foot is off the floor",
    "shelves": "play of the tightest shelf",
    "joints": "what is left of the widest gap that a weld fills",
}


def chance_page(assessment: Assessment) -> Page | None:
    """The page; None where nothing was asked of the piece, or it is no frame."""
    builds, style = assessment.builds, fine(assessment.job.style)
    if builds is None or (governing := builds.governing) is None:
        return None
    pictures: dict[str, Drawing] = {}
    shown = []
    for number, chance in enumerate(_shown(builds, governing)):
        alike = [other for other in builds.chances if other.subject == chance.subject and other is not chance]
        pictures[f"p{number}"] = distribution_picture(chance, limits_of([chance, *alike]), style)
        shown.append([f"p{number}", f"{demand(chance)}: {MEASURED.get(chance.subject, chance.subject)}"])
    content: Json = {
        "overall": _overall(builds),
        "shown": shown,
        "chances": _chances(builds, style),
        "deciding": _deciding(governing),
        "changes": _changes(builds, governing),
        "advice": list(_advice(builds, governing, style)),
    }
    return Page("chance", TITLE, content, pictures)


def _overall(builds: VirtualBuilds) -> str:
    """How many are good for what they are made for."""
    names = {chance.name for chance in builds.chances}
    must = [words for name, words in MUST.items() if name in names]
    if not must:
        return ""
    said = " and ".join([", ".join(must[:-1]), must[-1]] if len(must) > 1 else must)
    told = percent(builds.overall)
    return f"{told[0].upper()}{told[1:]} of such pieces {said}."


def _shown(builds: VirtualBuilds, governing: Chance) -> list[Chance]:
    """The most doubtful demand, and the most doubtful way in which it fits its place."""
    fits = [chance for chance in builds.chances if chance.name in (FITS, WANTED)]
    place = min(fits, key=lambda chance: (chance.value, _room(chance)), default=governing)
    return [governing] if place.subject == governing.subject else [governing, place]


def _room(chance: Chance) -> float:
    """By how many deviations the number clears its limit."""
    low = chance.histogram.low or 0.0
    return (chance.typical - low) / chance.spread if chance.spread > 0 else inf


def _verdict(chance: Chance) -> Json:
    """The sign and the word, as its finding has them."""
    tight = (1 - chance.wanted) * TIGHT_SHARE
    verdict = Verdict.HOLDS if chance.value >= chance.wanted + tight else Verdict.TIGHT
    sign, word = SIGNS[verdict if chance.value >= chance.wanted else Verdict.FAILS].split(" ", 1)
    return {"sign": sign, "word": word}


def _chances(builds: VirtualBuilds, style: Style) -> Json:
    wanted = max(chance.wanted for chance in builds.chances)
    columns: list[ColumnTold] = [
        ("verdict", "verdict", None), ("what, and what decides it", "text", 4),
        (f"chance ({100 * wanted:.0f} % wanted)", "number", None),
    ]  # fmt: skip
    rows = [
        (_verdict(chance), (demand(chance), _decided(chance, style)), percent(chance.value))
        for chance in _without_lesser(builds.chances)
    ]
    return table(columns, rows)


def _without_lesser(chances: Sequence[Chance]) -> list[Chance]:
    """Without the chance of going in where that of the gaps wanted is as good: it says the same and more."""
    good = {chance.subject for chance in chances if chance.name == WANTED and chance.value >= SURE}
    return [chance for chance in chances if not (chance.name == FITS and chance.subject in good)]


def _decided(chance: Chance, style: Style) -> str:
    decided = ", ".join(f"{share.words} {share.share:.0%}" for share in chance.deciders) or "nothing that strays"
    return f"{style.length(chance.typical)}, give or take {style.length(chance.spread)}; {decided}"


def _deciding(chance: Chance) -> Json:
    """The three errors that decide the most doubtful demand, and where the size of each comes from."""
    columns: list[ColumnTold] = [("what decides the most doubtful", "text", 2), ("share", "number", None),
                                 ("how far it strays: basis", "text", 4)]  # fmt: skip
    notes = spread_notes()
    return table(columns, [(one.words, f"{one.share:.0%}", notes[one.kind].basis) for one in chance.deciders])


def _changes(builds: VirtualBuilds, governing: Chance) -> Json:
    """The changes that raise a chance, and what they leave, under the making as it is; empty where none does."""
    columns: list[ColumnTold] = [
        ("done differently", "text", 4), ("the most doubtful", "number", None), ("all that it must", "number", None),
    ]  # fmt: skip
    rows = [("as it is made now", percent(governing.value), percent(builds.overall))]
    rows += [
        (change.words, percent(change.chances.get(governing.name, 0.0)), percent(change.chances["all"]))
        for change in builds.changes
        if _helps(change, builds, governing)
    ]
    return table(columns, rows if len(rows) > 1 else [])


def _helps(change: Change, builds: VirtualBuilds, governing: Chance) -> bool:
    return max(_gain(change, governing), change.chances["all"] - builds.overall) >= WORTH


def _advice(builds: VirtualBuilds, governing: Chance, style: Style) -> Iterator[str]:
    """What to take from it."""
    useless = [change for change in builds.changes if not _helps(change, builds, governing)]
    if useless:
        told = "; ".join(f"{change.words} ({percent(change.chances.get(governing.name, 0.0))})" for change in useless)
        yield f"Tried, and not worth a hundredth of the most doubtful chance here: {told}."
    if len(useless) == len(builds.changes) and governing.deciders and governing.value < SURE:
        first = governing.deciders[0]
        yield f"What would raise the most doubtful chance: {first.words}, held closer. It decides {first.share:.0%}."
    yield from (_resized(best, style) for best in builds.best if best.chance - best.chance_now >= WORTH)
    yield (
        f"Counted in {builds.builds:,} virtual builds. Errors are drawn by chance, as far as each step usually strays; "
        "the usual spreads are taken, not this shop's own. A blunder, a wrong mark or a part put in the other way "
        "round is not among them."
    )


def _gain(change: Change, chance: Chance) -> float:
    return change.chances.get(chance.name, 0.0) - chance.value


def _resized(best: BestNominal, style: Style) -> str:
    way = "wider" if best.change > 0 else "narrower"
    return (
        f"Made {style.length(abs(best.change))} {way}, the chance that it is neither too tight nor too loose "
        f"{best.subject} goes from {percent(best.chance_now)} to {percent(best.chance)}."
    )
