"""Files that lie beside a job file, such as its photo: read when they are asked for, and only from its own folder."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from fitwright.errors import FitwrightError

MOST_BYTES = 80_000_000


class BesideError(FitwrightError, ValueError):
    """A file that a job names and that is not read: out of its folder, or too large."""


@dataclass(frozen=True)
class Beside:
    """The folder of a job file."""

    folder: Path

    def has(self, name: str) -> bool:
        """Whether a file of that name lies there."""
        return bool(name) and (self.folder / name).is_file()

    def read(self, name: str) -> bytes | None:
        """The content of a file; None where it is not there. Raises BesideError."""
        if not self.has(name):
            return None
        file = self.folder / name
        if not file.resolve().is_relative_to(self.folder.resolve()):
            raise BesideError(f"{name} is not in the job's own folder: copy it there")
        size = file.stat().st_size
        if size > MOST_BYTES:
            raise BesideError(
                f"{name} has {size / 1e6:.0f} MB; at most {MOST_BYTES / 1e6:.0f} MB is read: save it smaller"
            )
        return file.read_bytes()
