"""How likely it comes out right: it fits, it stands flat, its shelves drop in, when a shop makes it with its errors."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from fitwright.findings import Finding, at_least, needs_input
from fitwright.mechanics.variation import BestNominal, Chance, Change, VirtualBuilds
from fitwright.units import Style

AREA = "fit"
BASIS = (
    "virtual builds with the shop's spreads (influence coefficients of compliant assembly: Liu and Hu 1997); "
    "the chance asked for: common practice"
)
WORDS = {
    "fits": "chance that it goes in",
    "fits as wanted": "chance of the gaps wanted",
    "stands flat": "chance that it stands without rocking",
    "shelves drop in": "chance that every shelf drops in",
    "welds fill": "chance that no joint gapes more than its weld fills",
}
WORTH = 0.01
NAMED = 3
TIGHT_SHARE = 0.5


def fit_chance_findings(builds: VirtualBuilds, style: Style) -> list[Finding]:
    """One finding for each demand, where several directions have one for the direction with the least chance.

    Tight where less than half of what the rule leaves to bad luck is left over: at 95 % asked for, below 97.5 %.
    """
    found = [_finding(builds, chance, style) for chance in _worst(builds)]
    if not any(chance.name == "fits" for chance in builds.chances):
        found.insert(0, needs_input(AREA, "piece", WORDS["fits"], "space: opening: width, depth, height", basis=BASIS))
    return found


def _worst(builds: VirtualBuilds) -> list[Chance]:
    worst: dict[str, Chance] = {}
    for chance in builds.chances:
        if chance.name not in worst or chance.value < worst[chance.name].value:
            worst[chance.name] = chance
    return [worst[name] for name in WORDS if name in worst]


def _finding(builds: VirtualBuilds, chance: Chance, style: Style) -> Finding:
    return at_least(
        AREA,
        chance.subject,
        WORDS[chance.name],
        100 * chance.value,
        100 * chance.wanted,
        "%",
        tight=100 * (1 - chance.wanted) * TIGHT_SHARE,
        basis=BASIS,
        advice="; ".join(_advice(builds, chance, style)),
        formula=_formula(builds, chance, style),
    )


def _formula(builds: VirtualBuilds, chance: Chance, style: Style) -> str:
    picture, fine = chance.histogram, _fine(style)
    limit = picture.low if picture.low is not None else picture.high
    rule = "at least" if picture.low is not None else "at most"
    decided = ", ".join(f"{share.words} {share.share:.0%}" for share in chance.deciders)
    return (
        f"{builds.builds:,} builds: {fine.length(chance.typical)} give or take {fine.length(chance.spread)}, "
        f"{rule} {fine.length(limit or 0.0)} asked for; decided by {decided or 'nothing that strays'}"
    )


def _fine(style: Style) -> Style:
    """The finest step of the job's unit: spreads are small."""
    return replace(style, step=Fraction(1, 64) if style.unit == "inch" else Fraction(1, 10))


def _advice(builds: VirtualBuilds, chance: Chance, style: Style) -> Iterator[str]:
    """What raises this chance by a hundredth at least, the best first, each with the chance that it leaves."""
    better = sorted(
        (change for change in builds.changes if _gain(change, chance) >= WORTH),
        key=lambda change: -change.chances[chance.name],
    )
    singles = [change for change in better if change.key != "all"][:NAMED]
    yield from (f"{change.words}: {change.chances[chance.name]:.0%}" for change in singles)
    together = [change for change in better if change.key == "all"]
    reached = max((change.chances[chance.name] for change in singles), default=0.0)
    if together and reached < min(chance.wanted, together[0].chances[chance.name]):
        yield f"{together[0].words}: {together[0].chances[chance.name]:.0%}"
    if chance.name == "fits as wanted":
        yield from (_resized(best, style) for best in builds.best if best.subject == chance.subject and best.change)
    if not better and chance.deciders:
        yield f"hold {chance.deciders[0].words} closer; it decides {chance.deciders[0].share:.0%} of it"


def _gain(change: Change, chance: Chance) -> float:
    return change.chances.get(chance.name, 0.0) - chance.value


def _resized(best: BestNominal, style: Style) -> str:
    way = "wider" if best.change > 0 else "narrower"
    return f"or make it {style.length(abs(best.change))} {way}: {best.chance:.0%}"
