"""What a check hangs on, found by trying: each input of the job file is moved a little, and the checks made again."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from fitwright.assess import Assessment, assess
from fitwright.errors import FitwrightError
from fitwright.findings import Finding
from fitwright.job import JobFile, parse_job
from fitwright.job.reading import read_tree
from fitwright.job.written import Listed, Mapped, Node, Written
from fitwright.web.aside import Task, Tell

SECTIONS = ("dims", "space", "brief", "parts")
"""Those whose numbers decide checks; the others name things."""
NO_NUMBERS = ("rolls_over", "care", "use", "route")  # the way in decides no check that is made again here
MOST = 120
MORE = 1.1
NUMBER = re.compile(r"\d+(?:\.\d+)?")
DIGITS = re.compile(r"\d")
CHANGED = 1e-6
STEPS = {"inch": "1/16 in", "mm": "1 mm", "cm": "1 mm"}

Path = tuple[str | int, ...]
Moves = dict[tuple[str, str, str], list["Move"]]


@dataclass(frozen=True)
class Input:
    """A number of the job file: where it is, what is written there, and its line."""

    path: Path
    text: str
    line: int


@dataclass(frozen=True)
class Move:
    """An input moved: what was written instead, and what that made of a check's value and margin."""

    source: Input
    instead: str
    value: float | None
    margin: float | None
    more_margin: float


def moves_of(text: str) -> Task:
    """The task that finds for every quick check what moves it; text: the job file's."""
    return partial(_all_moves, text)


def _all_moves(text: str, assessment: Assessment, tell: Tell) -> Moves:
    tell("the checks as they are", 0.0)
    before = {key_of(finding): finding for finding in assessment.findings}
    found: Moves = defaultdict(list)
    inputs = list(inputs_of(text))[:MOST]
    for k, source in enumerate(inputs):
        tell(f"moving {'.'.join(map(str, source.path))}", (k + 1) / (len(inputs) + 1))
        for key, move in _moved(text, assessment, source, before):
            found[key].append(move)
    return {key: sorted(moves, key=lambda move: -abs(move.more_margin)) for key, moves in found.items()}


def key_of(finding: Finding) -> tuple[str, str, str]:
    """What tells a finding from every other."""
    return finding.area, finding.subject, finding.check


def inputs_of(text: str) -> Iterator[Input]:
    """The numbers of a job file that may decide a check, section by section."""
    root = read_tree(text, "job.yaml").root
    for section in SECTIONS:
        if section in root:
            yield from _numbers(root[section], (section,))


def _numbers(node: Node, path: Path) -> Iterator[Input]:
    if isinstance(node, Written):
        if DIGITS.search(node.text) and not node.quoted:
            yield Input(path, node.text, node.place.line)
    elif path[-1] not in NO_NUMBERS:
        inner: Sequence[tuple[str | int, Node]] = (
            list(node.items()) if isinstance(node, Mapped) else list(enumerate(node))
        )
        for step, one in inner:
            assert isinstance(one, Written | Listed | Mapped)
            yield from _numbers(one, (*path, step))


def _moved(
    text: str, assessment: Assessment, source: Input, before: dict[tuple[str, str, str], Finding]
) -> Iterator[tuple[tuple[str, str, str], Move]]:
    """The checks that an input moves; none where nothing else can be written there and still be built."""
    for instead in _instead(source, STEPS[assessment.job.style.unit]):
        try:
            file = JobFile(text)
            file.set(source.path, instead)
            job = parse_job(file.text())
            after = assess(job, assessment.shop, assessment.learnt, assessment.beside).findings
        except FitwrightError:
            continue
        for finding in after:
            was = before.get(key_of(finding))
            if was is not None and (more := _difference(was, finding)) is not None:
                yield key_of(finding), Move(source, instead, finding.value, finding.margin, more)
        return


def _instead(source: Input, step: str) -> Iterator[str]:
    """A little more: by a step of length, by one of a count, by a tenth."""
    if source.text.strip().isdigit() and source.path[0] == "dims" and int(source.text) < 20:
        yield str(int(source.text) + 1)
    yield f"{source.text} + {step}"
    number = NUMBER.search(source.text)
    if number:
        more = float(Fraction(number[0])) * MORE
        yield f"{source.text[: number.start()]}{more:g}{source.text[number.end() :]}"


def _difference(was: Finding, now: Finding) -> float | None:
    """By how much the margin, else the value, has grown; None for not at all."""
    for before, after in ((was.margin, now.margin), (was.value, now.value)):
        if before is not None and after is not None:
            return after - before if abs(after - before) > CHANGED * max(1.0, abs(before)) else None
    return None
