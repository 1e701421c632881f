"""Every accepted change goes into job.yaml at once; what it replaced is kept beside it and can be taken up again."""

from __future__ import annotations

import hashlib
import os
import re
import threading
from collections import defaultdict
from collections.abc import Callable
from copy import copy
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import lru_cache
from pathlib import Path

from fitwright.job import Job, JobFile, parse_job
from fitwright.job.reading import read_text
from fitwright.web.errors import Clash, NotThere, Stale
from fitwright.web.folder import JobFolder, inside

VERSIONS = ".versions"
KEPT = 2000
VERSION = re.compile(r"\d{8}T\d{6}\.\d{6}Z-[0-9a-f]{12}")
STAMP = "%Y%m%dT%H%M%S.%fZ"


@dataclass(frozen=True)
class State:
    """A job file as it was at one moment: its text, and the revision that is a digest of it."""

    text: str
    revision: str


@dataclass(frozen=True)
class Version:
    """A text that the job file once had: its name, and when it was replaced."""

    name: str
    replaced: datetime

    @property
    def revision(self) -> str:
        """The revision that it was."""
        return self.name.rpartition("-")[2]


@dataclass(frozen=True)
class Kept:
    """What was kept, and the job that it is."""

    state: State
    job: Job


_LOCKS: defaultdict[Path, threading.Lock] = defaultdict(threading.Lock)


def revision_of(text: str) -> str:
    """A digest of a job file's text: the same text is the same revision, whoever wrote it."""
    return hashlib.sha256(text.encode()).hexdigest()[:12]


def state_of(job: JobFolder) -> State:
    """The job file as it now is. Raises JobFileError when it cannot be read as text."""
    text = read_text(job.file)
    return State(text, revision_of(text))


def change(job: JobFolder, revision: str, edit: Callable[[JobFile], Clash | None]) -> Kept:
    """Change a job file that is still at a revision.

    edit: changes the file and gives None, or says what the file has and what was wanted instead of changing it.
    Raises Stale when the file has moved on, JobFileError when it would no longer be a job.
    """
    with _LOCKS[job.file]:
        before = state_of(job)
        file = copy(_read(before.text))
        clash = edit(file)
        if clash is not None or before.revision != revision:
            raise Stale(clash or Clash("the job", "another revision", "this change"), before.revision)
        return _keep(job, before, file)


def replace_text(job: JobFolder, revision: str, text: str) -> Kept:
    """Give a job file another text. Raises Stale, or JobFileError when the text is not that of a job."""
    with _LOCKS[job.file]:
        before = state_of(job)
        if before.revision != revision:
            raise Stale(Clash("the job file", before.text, text), before.revision)
        return _keep(job, before, JobFile(text, job.file.name))


def versions(job: JobFolder) -> list[Version]:
    """The texts that the job file had before, newest first."""
    folder = job.root / VERSIONS
    if not folder.is_dir() or not inside(folder, job.root):
        return []
    names = [path.stem for path in folder.glob("*.yaml") if VERSION.fullmatch(path.stem)]
    return [Version(name, _moment(name)) for name in sorted(names, reverse=True)]


def version_text(job: JobFolder, name: str) -> str:
    """The text of one version. Raises NotThere."""
    path = job.root / VERSIONS / f"{name}.yaml"
    if not VERSION.fullmatch(name) or not path.is_file() or not inside(path, job.root):
        raise NotThere(f"there is no version {name[:40]!r} of this job")
    return read_text(path)


@lru_cache(maxsize=16)
def _read(text: str) -> JobFile:
    """A job file's text, read; to be copied before it is changed."""
    return JobFile(text)


def _keep(job: JobFolder, before: State, file: JobFile) -> Kept:
    text = file.text()
    state = State(text, revision_of(text))
    loaded = parse_job(text, job.file.name)
    if text != before.text:
        _put_away(job, before)
        file.save(job.file)
    return Kept(state, loaded)


def _put_away(job: JobFolder, state: State) -> None:
    folder = job.root / VERSIONS
    folder.mkdir(exist_ok=True)
    name = f"{datetime.now(UTC).strftime(STAMP)}-{state.revision}.yaml"
    draft = folder / f".{name}"
    with draft.open("wb") as out:
        out.write(state.text.encode())
        out.flush()
        os.fsync(out.fileno())
    os.replace(draft, folder / name)
    for old in sorted(folder.glob("*.yaml"))[:-KEPT]:
        old.unlink(missing_ok=True)


def _moment(name: str) -> datetime:
    return datetime.strptime(name.rpartition("-")[0], STAMP).replace(tzinfo=UTC)
