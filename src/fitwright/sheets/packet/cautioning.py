"""Which of the usual cautions a job needs, and what its packet has not checked."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from fitwright.assess import Assessment
from fitwright.checks.asked import WORDS
from fitwright.findings import Verdict
from fitwright.job.model import Job
from fitwright.making.handing import GALVANISED, HEAVY_KG

OWN = "For this job"
OILS = ("oil",)
PAINTS = ("paint", "enamel", "lacquer", "primer", "prime", "varnish", "stain", "powder", "oil")

DEFER = (
    "For furniture at rest or pushed by hand; not for lifting people, not for buildings, not for vehicles on the road. "
    "Where strength, stability, lifting, fume, fire, food or electricity is in question, local codes and a licensed "
    "practitioner decide, not this packet."
)


@dataclass(frozen=True)
class Caution:
    """One caution: its heading, what to do, and where that is published."""

    heading: str
    text: str
    source: str


def cautions_of(assessment: Assessment) -> tuple[Caution, ...]:
    """The cautions that apply to this job: its own first, then the usual ones for its materials and work."""
    true = conditions(assessment)
    own = (Caution(OWN, text, "the job file") for text in assessment.job.brief.cautions if not _asks_for_a_check(text))
    usual = (Caution(row["heading"], row["text"], row["source"]) for row in _data()["caution"] if row["when"] in true)
    return (*own, *usual)


def _asks_for_a_check(text: str) -> bool:
    """Whether a caution of the brief is a word that asks for findings, and so is answered there."""
    words = text.lower().replace(":", " ").split()
    return " ".join(words) in WORDS


def unchecked(assessment: Assessment) -> tuple[str, ...]:
    """What was not checked: no finding of its area has an answer."""
    true = conditions(assessment)
    answered = {found.area for found in assessment.all_findings if found.verdict is not Verdict.NEEDS_INPUT}
    return tuple(
        row["text"]
        for row in _data()["unchecked"]
        if ("when" not in row or row["when"] in true) and not answered & set(row["areas"])
    )


def conditions(assessment: Assessment) -> frozenset[str]:
    """The words of the data file's `when` that are true of this job."""
    said = {**_of_materials(assessment), **_of_finish(assessment.job), **_of_parts(assessment)}
    return frozenset(word for word, true in said.items() if true)


def _of_materials(assessment: Assessment) -> dict[str, bool]:
    members = assessment.piece.members
    boards = [board.stock.material for panel in assessment.piece.panels for board in panel.boards]
    materials = [*(member.stock.material for member in members), *boards]
    return {
        "stainless": any(one.kind == "stainless" for one in materials),
        "metal": any(one.is_metal for one in materials),
        "welding": any(member.stock.material.is_metal for member in members if member.fastened == "welded"),
        "timber": any(one.is_timber for one in materials),
    }


def _of_finish(job: Job) -> dict[str, bool]:
    said = " ".join([*job.finish.keys(), *job.finish.values(), job.notes]).lower()
    signs = (("oil", OILS), ("paint", PAINTS), ("galvanised", GALVANISED))
    return {word: any(sign in said for sign in wanted) for word, wanted in signs}


def _of_parts(assessment: Assessment) -> dict[str, bool]:
    piece = assessment.piece
    return {
        "bending": any(member.path.bent for member in piece.members),
        "heavy": piece.mass > HEAVY_KG,
        "casters": any(item.kind == "caster" for item in piece.hardware),
        "removable": any(panel.removable is not None for panel in piece.panels),
        "hardware": bool(piece.hardware),
        "walls": bool(assessment.job.space.walls),
    }


@cache
def _data() -> dict[str, list[dict[str, Any]]]:
    return tomllib.loads(files(__package__).joinpath("data", "cautions.toml").read_text(encoding="utf-8"))
