"""What the program sets before anything is computed."""

from __future__ import annotations

import subprocess
import sys

SAYS = "import gc, fitwright.cli.program; print(gc.get_threshold()[0])"


def test_garbage_is_looked_for_seldom() -> None:
    said = subprocess.run([sys.executable, "-c", SAYS], capture_output=True, text=True, check=True)
    assert int(said.stdout) >= 10_000
