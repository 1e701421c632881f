"""A moved mark: the time to a new answer, beside the least linear algebra that any answer of that size needs.

The reference is one QR factorisation of the equations and one inverse of the information, at the solution, in the same
run. Marks grow from a box clicked at its corners to all its edges clicked along their length. The promise is 50 ms.
One thread: on matrices this small, threads that wait for one another on a busy machine cost ten times what they save.

Run: `python bench/photo.py`
"""

from __future__ import annotations

import os
import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

sys.path.insert(0, str(Path(__file__).parent.parent))

from fitwright.job.marks import Photo
from fitwright.place.photo import Solved, advice, doubts, solve
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, random_camera, random_size

SPOTS_BETWEEN = (0, 3, 8, 20)
ROUNDS = 15


def marked(between: int) -> Photo:
    chance = np.random.default_rng(5)
    size = random_size(chance)
    return box_photo(Clicks(random_camera(chance, size), chance, noise=0.5), size, between)


def moved(photo: Photo, round_: int) -> Photo:
    """One corner dragged by a few pixels, as a finger does between two frames."""
    spot = photo.spots["c4"]
    return replace(photo, spots={**photo.spots, "c4": replace(spot, u=spot.u + 3 * np.cos(round_), v=spot.v + 2)})


def milliseconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return 1e3 * (time.perf_counter() - start)


def reference(solved: Solved) -> None:
    rates = solved.estimate.equations.rates(solved.estimate.state.row)
    np.linalg.qr(rates)
    np.linalg.inv(rates.T @ rates)


def main() -> None:
    heads = ("spots", "unknowns", "first", "moved", "worst", "reference", "ratio", "told")
    print(" ".join(f"{head:>9}" for head in heads))
    for between in SPOTS_BETWEEN:
        photo = marked(between)
        before = solve(photo, SIZE)
        first = milliseconds(partial(solve, photo, SIZE))
        times = [milliseconds(partial(solve, moved(photo, k), SIZE, before=before)) for k in range(ROUNDS)]
        least = statistics.median(milliseconds(partial(reference, before)) for _ in range(ROUNDS))
        said = milliseconds(partial(doubts, before)) + milliseconds(partial(advice, before))
        middle = statistics.median(times)
        print(
            f"{len(photo.spots):>9} {before.estimate.state.row.size:>9} {first:>6.1f} ms {middle:>6.1f} ms "
            f"{max(times):>6.1f} ms {least:>6.2f} ms {middle / least:>9.1f} {said:>6.1f} ms"
        )


if __name__ == "__main__":
    main()
