"""How long hostile job files take to be refused, one process for all, longest first.

Run: `python bench/hostile.py`
"""

from __future__ import annotations

import contextlib
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

from fitwright.job import JobFileError, load_job
from tests.unit.job.test_hostile import HOSTILE

WANTED_SECONDS = 2.0


def seconds(text: str | bytes, folder: Path) -> float:
    """CPU seconds until one file is refused."""
    file = folder / "job.yaml"
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    start = time.process_time()
    with contextlib.suppress(JobFileError):
        load_job(file)
    return time.process_time() - start


def main() -> None:
    """Print the five slowest."""
    with tempfile.TemporaryDirectory() as folder:
        times = {name: seconds(make(), Path(folder)) for name, (make, _) in HOSTILE.items()}
    for name, taken in sorted(times.items(), key=lambda pair: -pair[1])[:5]:
        print(f"{name:<40}{taken:>7.2f} s of {WANTED_SECONDS} s")


if __name__ == "__main__":
    main()
