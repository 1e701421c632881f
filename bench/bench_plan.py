"""How long benches are planned for: the shipped jobs, and a job of ten and more frames that are all different.

Run: python bench/bench_plan.py [frames]
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

from fitwright.job import load_job, parse_job
from fitwright.job.model import Job
from fitwright.making.bench import bench_plans
from fitwright.piece import build
from fitwright.shop import default_shop

EXAMPLES = Path(__file__).parent.parent / "examples"

FRAME = """  frame {k}:
    stock: tube
    outside: [[0, 0, {z}], [{w}, 0, {z}], [{w}, {d}, {z}], [0, {d}, {z}]]
    closed: true
  bar {k}:
    stock: tube
    path: [[{x}, 0, {z}], [{x}, {d}, {z}]]
"""


def stack(count: int) -> Job:
    """Frames over one another on posts, no two alike."""
    parts = [FRAME.format(k=k, z=20 + 150 * k, w=900 + 13 * k, d=500 + 7 * k, x=300 + 11 * k) for k in range(count)]
    return parse_job("job: {name: Stack, unit: mm}\nstock: {tube: square tube 30 x 30 x 2}\nparts:\n" + "".join(parts))


def timed(job: Job) -> str:
    piece, shop = build(job), default_shop(job.style.unit)
    start = time.perf_counter()
    plans = bench_plans(piece, job, shop)
    spent = time.perf_counter() - start
    made, proven = sum(plan.made for plan in plans), sum(plan.proven for plan in plans)
    return f"{job.name:14} {len(plans):3} set-ups {spent:6.2f} s, {made} blocks made, {proven} proven"


def main() -> None:
    for folder in sorted(EXAMPLES.iterdir()):
        print(timed(load_job(folder / "job.yaml")))
    print(timed(stack(int(sys.argv[1]) if len(sys.argv) > 1 else 10)))


if __name__ == "__main__":
    main()
