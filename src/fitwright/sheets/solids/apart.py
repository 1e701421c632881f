"""The STEP file made in a process of its own while the sheets are drawn: nothing on them waits for the solids."""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
from pathlib import Path
from types import TracebackType

from fitwright.piece.model import Piece

LONGEST_S = 600.0
SPARE = 2  # processors: one for the sheets, one for this


class Apart:
    """A STEP file under way in another process; leaving the context ends what is still under way."""

    def __init__(self, process: subprocess.Popen[bytes] | None, file: Path) -> None:
        self._process, self._file = process, file

    def __enter__(self) -> Apart:
        return self

    def __exit__(self, kind: type[BaseException] | None, wrong: BaseException | None, at: TracebackType | None) -> None:
        if self._process is not None and self._process.poll() is None:
            self._process.kill()
            self._process.wait()
        self._file.unlink(missing_ok=True)

    def into(self, target: Path) -> bool:
        """Wait for the file and move it to its place; False where it came to nothing and has to be made here."""
        if self._process is None:
            return False
        try:
            if self._process.wait(LONGEST_S) != 0:
                return False
            os.replace(self._file, target)
        except (subprocess.TimeoutExpired, OSError):
            return False
        return True


def begin(piece: Piece, folder: Path, title: str, *, wanted: bool = True) -> Apart:
    """Begin on the STEP file of a piece, beside the others in a folder, where there is a processor to spare for it."""
    file = folder / f".apart-{os.getpid()}.step"
    if not wanted or not sys.executable or processors() < SPARE:
        return Apart(None, file)
    path = os.pathsep.join(place for place in sys.path if place)
    try:
        process = subprocess.Popen(
            [sys.executable, "-m", __name__, str(file), title], stdin=subprocess.PIPE, stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL, env={**os.environ, "PYTHONPATH": path},
        )  # fmt: skip
        assert process.stdin is not None
        with process.stdin as told:
            told.write(pickle.dumps(piece))
    except OSError:
        return Apart(None, file)
    return Apart(process, file)


def processors() -> int:
    """How many processors this program may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def main() -> None:
    """In the other process: the piece comes from the one that began it."""
    from fitwright.sheets.solids.step import write_step

    write_step(pickle.loads(sys.stdin.buffer.read()), sys.argv[1], title=sys.argv[2])


if __name__ == "__main__":
    main()
