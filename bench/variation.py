"""A million virtual builds beside drawing the same random numbers and one matrix product of the same size, in one run.

The reference is what cannot be saved: as many normal numbers of single precision, drawn in the same blocks on the same
two threads, and one product of each block with a matrix of the same shape; nothing is looked at. The ratio counts, not
the seconds. Memory is the most that the whole process held while building. Also: the quick estimate, and working out
the sensitivities.

Run: `python bench/variation.py [JOB.yaml] [BUILDS]`
"""

from __future__ import annotations

import statistics
import sys
import threading
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
import psutil

from fitwright.job import load_job
from fitwright.mechanics.framing import framed
from fitwright.mechanics.variation import estimate, usual_making, variation, virtual_builds
from fitwright.mechanics.variation.simulate import BLOCK, WORKERS
from fitwright.piece import build

EXAMPLE = Path(__file__).parent.parent / "examples" / "drying-rack" / "job.yaml"
ROUNDS = 3
STOP_REACH = 1500.0


def reference(errors: int, outcomes: int, builds: int) -> None:
    """The same numbers drawn, and one matrix product of the same size."""
    matrix = np.random.default_rng(0).standard_normal((errors, outcomes), dtype=np.float32)
    sizes = [min(BLOCK, builds - start) for start in range(0, builds, BLOCK)]
    seeds = np.random.SeedSequence(0).spawn(len(sizes))

    def one(number: int) -> float:
        stream = np.random.Generator(np.random.SFC64(seeds[number]))
        return float((stream.standard_normal((sizes[number], errors), dtype=np.float32) @ matrix)[0, 0])

    with ThreadPoolExecutor(WORKERS) as pool:
        list(pool.map(one, range(len(sizes))))


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def peak_while(work: Callable[[], object]) -> float:
    """Most memory held while working [MB]."""
    process, seen, done = psutil.Process(), [0], threading.Event()

    def watch() -> None:
        while not done.wait(0.005):
            seen[0] = max(seen[0], process.memory_info().rss)

    watcher = threading.Thread(target=watch)
    watcher.start()
    work()
    done.set()
    watcher.join()
    return seen[0] / 1e6


def main() -> None:
    path = Path(sys.argv[1]) if len(sys.argv) > 1 else EXAMPLE
    builds = int(float(sys.argv[2])) if len(sys.argv) > 2 else 1_000_000
    job = load_job(path)
    frame = framed(build(job), job)
    making = usual_making(frame, STOP_REACH)
    setting = variation(frame, job, making=making)
    felt = setting.decisive[1]
    errors, outcomes = len(felt.sources), len(felt.outcomes)
    print(f"{job.name}: {errors} errors, {outcomes} deciding outcomes, {builds:,} builds on {WORKERS} threads")
    virtual_builds(setting, 10_000)
    pairs = [
        (seconds(lambda: reference(errors, outcomes, builds)), seconds(lambda: virtual_builds(setting, builds)))
        for _ in range(ROUNDS)
    ]
    bare, whole = (statistics.median(column) for column in zip(*pairs, strict=True))
    print(f"  draw and multiply {bare:.2f} s, virtual builds {whole:.2f} s, with every change tried")
    print(f"  ratio {statistics.median(w / b for b, w in pairs):.2f} (at most 2)")
    print(f"  peak memory of the process {peak_while(lambda: virtual_builds(setting, builds)):.0f} MB (under 1000)")
    print(f"  quick estimate {min(seconds(lambda: estimate(setting)) for _ in range(9)) * 1e3:.0f} ms")
    anew = min(seconds(lambda: variation(frame, job, making=making)) for _ in range(5))
    print(f"  sensitivities {anew * 1e3:.0f} ms")


if __name__ == "__main__":
    main()
