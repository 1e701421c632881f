"""What the workbench refuses, in words for the maker."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.errors import FitwrightError


class NotThere(FitwrightError, LookupError):
    """A job, a version, a sheet or a file that is not in the folder."""


class NotTaken(FitwrightError, ValueError):
    """A request whose contents cannot be used; the message says what would do."""


class Refused(FitwrightError, PermissionError):
    """A request from a device or a page that may not make it."""


class TooMuch(FitwrightError, ValueError):
    """A request that is larger than anything the workbench takes."""


@dataclass(frozen=True)
class Clash:
    """A value that two devices changed: what it is, what the file now says, and what was sent."""

    what: str
    theirs: str
    mine: str


class Stale(FitwrightError, RuntimeError):
    """A change made on a state of the job that is no longer the newest."""

    def __init__(self, clash: Clash, revision: str) -> None:
        super().__init__(f"{clash.what} was changed meanwhile: it now is {clash.theirs}; {clash.mine} is not saved")
        self.clash = clash
        self.revision = revision
