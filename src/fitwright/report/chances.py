"""The chances that the piece comes out right."""

from __future__ import annotations

from fitwright.assess import Assessment
from fitwright.mechanics.variation import Chance, VirtualBuilds
from fitwright.report.figures import Json, number


def chances(assessment: Assessment) -> list[Json]:
    """Every demand with its chance, the most doubtful first; empty for a piece that is no frame."""
    return [] if assessment.builds is None else chances_as_json(assessment.builds)


def chances_as_json(builds: VirtualBuilds) -> list[Json]:
    """The same of any number of builds."""
    return [_chance(builds, chance) for chance in builds.chances]


def _chance(builds: VirtualBuilds, chance: Chance) -> Json:
    return {
        "name": chance.name,
        "subject": chance.subject,
        "chance": number(chance.value),
        "wanted": number(chance.wanted),
        "unsure": number(chance.unsure),
        "builds": builds.builds,
        "typical_mm": number(chance.typical),
        "spread_mm": number(chance.spread),
        "low_mm": number(chance.histogram.low),
        "high_mm": number(chance.histogram.high),
        "deciders": [{"source": share.words, "share": number(share.share)} for share in chance.deciders],
        "changes": [
            {"what": change.words, "chance": number(change.chances[chance.name])}
            for change in builds.changes
            if chance.name in change.chances
        ],
    }
