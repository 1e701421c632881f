"""What a maker waits for: loading and assessing a job, the check from cold, the packet.

Times are for the machine at hand; the ratio is to a reference that runs in the same process: solving 400 linear
equations with numpy, twenty times.

Run: `python bench/spine.py`
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

import numpy as np

from fitwright.assess import Assessment, assess
from fitwright.job import load_job
from fitwright.report import report
from fitwright.sheets.drawing import arrangement
from fitwright.sheets.packet import write_packet
from fitwright.shop import default_shop

EXAMPLES = Path(__file__).parent.parent / "examples"
RUNS = 7


def timed(act: Callable[[], object], runs: int = RUNS) -> float:
    """Median seconds of several runs after one that is not counted."""
    act()
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        act()
        times.append(time.perf_counter() - start)
    return median(times)


def reference() -> None:
    """The yardstick."""
    matrix = np.eye(400) + np.arange(160_000).reshape(400, 400) / 1e6
    for _ in range(20):
        np.linalg.solve(matrix, matrix)


def loaded(name: str) -> Assessment:
    """A demo, nothing computed yet."""
    job = load_job(EXAMPLES / name / "job.yaml")
    return assess(job, default_shop(job.style.unit))


def everything(name: str) -> None:
    """Piece, fit, bends, cutting plans, buying, quick findings, bodies, and the arrangement drawing."""
    assessment = loaded(name)
    _ = assessment.findings, assessment.buying, assessment.bend_sheets
    arrangement(assessment.meshes, assessment.job.style)


def thorough(name: str) -> None:
    """The report: the same with the search for the weld order, virtual builds, bench plans and finish."""
    report(loaded(name))


def packet(name: str) -> None:
    """The packet without the solids."""
    with tempfile.TemporaryDirectory() as folder:
        write_packet(loaded(name), Path(folder), paper=None, solids=False, progress=None)


def cold_check(name: str) -> None:
    """A new process."""
    subprocess.run([sys.executable, "-m", "fitwright", "check", str(EXAMPLES / name)], capture_output=True, check=False)


def main() -> None:
    """Print the table."""
    yardstick = timed(reference)
    print(f"yardstick {yardstick * 1000:.0f} ms")
    print(f"{'job':<14}{'everything':>14}{'ratio':>8}{'cold check':>14}{'report':>14}{'packet':>14}")
    for name in ("drying-rack", "coat-rail", "workbench"):
        whole = timed(lambda name=name: everything(name))  # type: ignore[misc]
        cold = timed(lambda name=name: cold_check(name), 3)  # type: ignore[misc]
        told = timed(lambda name=name: thorough(name), 3)  # type: ignore[misc]
        paper = timed(lambda name=name: packet(name), 3)  # type: ignore[misc]
        print(
            f"{name:<14}{whole * 1000:>11.0f} ms{whole / yardstick:>8.2f}"
            f"{cold * 1000:>11.0f} ms{told * 1000:>11.0f} ms{paper * 1000:>11.0f} ms"
        )


if __name__ == "__main__":
    main()
