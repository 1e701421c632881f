"""The search for an order of welds, against factoring the frame anew at every weld.

Ladders of two rails with a number of rungs: two welds a rung, two runs a weld. One order is walked by superposition
with growing stiffness; the reference factors and solves the frame once for each run of the same order. Then the whole
search.
Run: python bench/weld_order.py [rungs ...]
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable

from fitwright.job import parse_job
from fitwright.making.welding import weld_list
from fitwright.mechanics import factorise, forces, solve
from fitwright.mechanics.framing import framed
from fitwright.mechanics.shrinkage import pull_of, runs_of
from fitwright.mechanics.shrinkage.clamps import clamped
from fitwright.mechanics.shrinkage.measures import translations, without_rigid
from fitwright.mechanics.shrinkage.ordering import Search
from fitwright.mechanics.shrinkage.pulled import _bench, _ways
from fitwright.mechanics.shrinkage.welded import set_ups
from fitwright.piece import build
from fitwright.shop import load_shop

RUNGS = (5, 10, 20)


def ladder(rungs: int) -> str:
    pitch = 200
    high = pitch * rungs + 100
    return f"""job: {{name: ladder, unit: mm}}
stock: {{t: round tube 30 x 2 mm}}
parts:
  rail: {{stock: t, path: [[0, 0, 0], [0, 0, {high}]], repeat: {{x: [0, 400]}}, ends: free}}
  rung: {{stock: t, path: [[0, 0, 150], [400, 0, 150]], repeat: {{z: {{every: {pitch}, count: {rungs}}}}}}}
"""


def best_of(work: Callable[[], object], times: int = 3) -> float:
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return min(taken)


def study(rungs: int) -> None:
    job = parse_job(ladder(rungs))
    piece = build(job)
    frame = framed(piece, job)
    beads = [weld.bead for weld in weld_list(piece, load_shop(None))]
    runs = runs_of(beads, piece.members)
    bench = _bench(set_ups(frame, beads)[0], beads, runs)
    group = bench.group
    search = Search(bench.stages, without_rigid(bench.points) @ bench.free.read(translations(group, bench.points)))
    listed = [run for ways in _ways(bench, runs) for run in ways[0]]
    held = clamped(group)

    def anew() -> None:
        for _ in listed:
            factor = factorise(group.model, held)
            solve(factor, forces(group.model, bench.held.forces[:, :1]))

    walked, reference = best_of(lambda: search.movement(listed)), best_of(anew, 1)
    start = time.perf_counter()
    pull = pull_of(frame, beads)
    whole = time.perf_counter() - start
    found = pull.groups[0]
    print(
        f"{len(beads):4d} welds {len(listed):4d} runs {group.model.element_count:5d} elements: one order "
        f"{1000 * walked:7.1f} ms, factored anew {1000 * reference:8.1f} ms, ratio {reference / walked:5.1f}; "
        f"search {whole:5.2f} s, {found.tried} orders, {found.listed.size:.2f} -> {found.proposed.size:.2f} mm"
    )


if __name__ == "__main__":
    for size in [int(word) for word in sys.argv[1:]] or RUNGS:
        study(size)
