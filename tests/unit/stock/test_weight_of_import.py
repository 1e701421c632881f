"""Stock is imported by every verb of the program, so it brings in numpy and nothing heavier."""

from __future__ import annotations

import subprocess
import sys

HEAVY = ("scipy", "pandas", "pydantic", "ruamel", "ezdxf", "openpyxl", "build123d", "OCP", "typst", "ortools", "rich")


def test_no_heavy_library_comes_with_it() -> None:
    code = f"import fitwright.stock, sys; print(*(name for name in {HEAVY!r} if name in sys.modules))"
    path = [entry for entry in sys.path if entry]
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env={"PYTHONPATH": ":".join(path)}
    )
    assert done.stdout.split() == []
