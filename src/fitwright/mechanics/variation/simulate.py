"""Very many builds: errors drawn in blocks, one matrix product a block, the demands counted as they come."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.mechanics.model import Floats, Ints
from fitwright.mechanics.variation.model import Sensitivity
from fitwright.mechanics.variation.questions import Question, met
from fitwright.mechanics.variation.rock import Numbers

BLOCK = 8192
WORKERS = 2
BINS = 2000
REACH = 8.0
Floats32 = NDArray[np.float32]


@dataclass(frozen=True, eq=False)
class Scale:
    """Where a question's histogram begins [mm] and how wide each of its bins is."""

    start: float
    width: float

    @property
    def edges(self) -> Floats:
        """(BINS + 1,) [mm]."""
        edges: Floats = self.start + self.width * np.arange(BINS + 1, dtype=np.float64)
        return edges


@dataclass(frozen=True, eq=False)
class Tally:
    """What was counted: builds, those that met each rule of each question, those that met all, histograms."""

    builds: int
    passed: tuple[tuple[int, ...], ...]
    all_passed: int
    counts: tuple[Ints, ...]

    def plus(self, other: Tally) -> Tally:
        """Both together."""
        return Tally(
            self.builds + other.builds,
            tuple(
                tuple(a + b for a, b in zip(x, y, strict=True)) for x, y in zip(self.passed, other.passed, strict=True)
            ),
            self.all_passed + other.all_passed,
            tuple(a + b for a, b in zip(self.counts, other.counts, strict=True)),
        )


def sample(sensitivity: Sensitivity, n: int, seed: int | None) -> Floats32:
    """(n, o) outcomes of n builds, drawn from their joint normal distribution.

    As many normal numbers as there are outcomes instead of errors, by the root of the covariance: the same
    distribution.
    Holds for normal errors, as all of `Spreads` are.
    Source: A. Genz, F. Bretz, Computation of Multivariate Normal and t Probabilities (2009), section 1.1.1 (from
    memory).
    """
    values, ways = np.linalg.eigh(sensitivity.covariance)
    kept = values > 1e-12 * max(float(values.max(initial=0.0)), 1e-300)
    root = (ways[:, kept] * np.sqrt(values[kept])).T.astype(np.float32)
    drawn = np.random.Generator(np.random.SFC64(seed)).standard_normal((n, len(root)), dtype=np.float32)
    return np.asarray((root.T @ drawn.T + sensitivity.nominal.astype(np.float32)[:, None]).T)


def draw(sensitivity: Sensitivity, n: int, seed: int | None) -> tuple[Floats, Floats]:
    """(n, s) errors and (n, o) outcomes of n builds, for when the errors themselves are wanted."""
    errors = (
        np.random.Generator(np.random.SFC64(seed)).standard_normal((n, len(sensitivity.sources))) * sensitivity.spreads
    )
    return errors, errors @ sensitivity.matrix.T + sensitivity.nominal


def scales(questions: Sequence[Question], builds: Numbers) -> tuple[Scale, ...]:
    """Histograms eight deviations wide to both sides, from a few builds (b, o)."""
    found = []
    for question in questions:
        value = question.value(builds)
        half = REACH * max(float(value.std()), 1e-6)
        found.append(Scale(float(value.mean()) - half, 2 * half / BINS))
    return tuple(found)


def count(questions: Sequence[Question], bins: Sequence[Scale], builds: Numbers) -> Tally:
    """What builds (b, o) come to."""
    passed, counts = [], []
    fine = np.ones(len(builds), dtype=np.bool_)
    for question, scale in zip(questions, bins, strict=True):
        value = question.value(builds)
        results = [met(rule, value) for rule in question.rules]
        for rule, good in zip(question.rules, results, strict=True):
            if rule.must:
                fine &= good
        passed.append(tuple(int(np.count_nonzero(good)) for good in results))
        place = np.clip((value - scale.start) * (1 / scale.width), 0, BINS - 1).astype(np.intp)
        counts.append(np.bincount(place, minlength=BINS))
    return Tally(len(builds), tuple(passed), int(np.count_nonzero(fine)), tuple(counts))


def simulate(
    sensitivity: Sensitivity,
    questions: Sequence[Question],
    bins: Sequence[Scale],
    n: int,
    seed: int | None,
    progress: Callable[[float], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Tally:
    """n builds, every error of each drawn, in blocks on two threads.

    Each block has its own stream from the seed, so the result does not depend on threads. progress: told the share
    done; stop: asked between blocks, and what is done by then is returned (one block at least).
    Numbers of single precision: outcomes to a hundred thousandth of their spread (`tests/rate/test_variation.py`).
    """
    matrix = np.ascontiguousarray((sensitivity.matrix * sensitivity.spreads).T, dtype=np.float32)
    nominal = sensitivity.nominal.astype(np.float32)
    sizes = [min(BLOCK, n - start) for start in range(0, n, BLOCK)]
    seeds = np.random.SeedSequence(seed).spawn(len(sizes))

    def one(number: int) -> Tally | None:
        if number and stop is not None and stop():
            return None
        stream = np.random.Generator(np.random.SFC64(seeds[number]))
        errors = stream.standard_normal((sizes[number], len(matrix)), dtype=np.float32)
        builds = errors @ matrix
        builds += nominal
        return count(questions, bins, np.asfortranarray(builds))

    total = None
    with ThreadPoolExecutor(WORKERS) as pool:
        for number, tally in enumerate(pool.map(one, range(len(sizes)))):
            if tally is not None:
                total = tally if total is None else total.plus(tally)
            if progress is not None:
                progress((number + 1) / len(sizes))
    assert total is not None
    return total
