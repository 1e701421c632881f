"""The folder of jobs that the workbench was opened on; nothing outside of it is reached, by name or by link."""

from __future__ import annotations

import os
import re
import shutil
import unicodedata
from dataclasses import dataclass
from pathlib import Path

from fitwright.job import new_job
from fitwright.job.starting import JOB_FILE
from fitwright.web.errors import NotTaken, NotThere

ARCHIVED = "archived"
OWN = ".fitwright"
LONGEST_NAME = 80
NAME = re.compile(r"[^\W_][\w .,()+&'’-]*", re.UNICODE)
COPIED = ("shop.yaml", "photos")


@dataclass(frozen=True)
class JobFolder:
    """One job's own folder; `key` is its name, as it stands in addresses."""

    root: Path
    key: str

    @property
    def file(self) -> Path:
        """Its job file."""
        return self.root / JOB_FILE

    @property
    def shop_file(self) -> Path | None:
        """The shop's profile beside the job, if there is one."""
        beside = self.root / "shop.yaml"
        return beside if beside.is_file() and inside(beside, self.root) else None


@dataclass(frozen=True)
class JobsFolder:
    """The folder that `fitwright serve` was given; each folder in it with a job.yaml is a job."""

    root: Path

    def __post_init__(self) -> None:
        object.__setattr__(self, "root", self.root.resolve())

    @property
    def own(self) -> Path:
        """Where the workbench keeps what is its own: the key of its cookies."""
        return self.root / OWN

    def jobs(self) -> list[JobFolder]:
        """The jobs under way, by name."""
        return _jobs_in(self.root)

    def archived(self) -> list[JobFolder]:
        """The jobs put away, by name."""
        return _jobs_in(self.root / ARCHIVED)

    def job(self, key: str) -> JobFolder:
        """The job of that name. Raises NotThere."""
        return _job_in(self.root, key)

    def begin(self, starter: str, name: str, own: bool = False) -> JobFolder:
        """A new job from a starter; own: without what belongs to its example. Raises NotTaken for an unusable name."""
        key = self._free(name)
        new_job(self.root / key, starter, name.strip(), own)
        return self.job(key)

    def duplicate(self, job: JobFolder, name: str) -> JobFolder:
        """A copy of a job under another name, with its shop and photos but without its past."""
        key = self._free(name)
        new_job(self.root / key, job.file, name.strip())
        for part in COPIED:
            source = job.root / part
            if source.is_file() and inside(source, job.root):
                shutil.copy2(source, self.root / key / part)
            elif source.is_dir() and not source.is_symlink():
                shutil.copytree(source, self.root / key / part, symlinks=True, dirs_exist_ok=True)
        return self.job(key)

    def archive(self, job: JobFolder) -> None:
        """Put a job away, whole."""
        self._move(job, self.root / ARCHIVED)

    def bring_back(self, key: str) -> JobFolder:
        """Take an archived job up again."""
        self._move(_job_in(self.root / ARCHIVED, key), self.root)
        return self.job(key)

    def _move(self, job: JobFolder, to: Path) -> None:
        to.mkdir(exist_ok=True)
        target = to / job.key
        if target.exists():
            raise NotTaken(f"there is a job called {job.key} in {to.name} already: rename one of the two folders")
        os.rename(job.root, target)

    def _free(self, name: str) -> str:
        """A folder's name for a job's name. Raises NotTaken when it cannot be one, or is taken."""
        key = unicodedata.normalize("NFC", " ".join(name.split())).rstrip(".")
        if not usable(key):
            raise NotTaken(
                f"{key[:LONGEST_NAME]!r} cannot be the name of a folder: begin with a letter or digit, "
                f"use letters, digits, spaces and . , ( ) + & ' -, at most {LONGEST_NAME}"
            )
        taken = {path.name.casefold() for path in self.root.iterdir()} | {ARCHIVED}
        if key.casefold() in taken:
            raise NotTaken(f"there is something called {key} in this folder already: choose another name")
        return key


def usable(key: str) -> bool:
    """Whether a text can be the name of a job's folder."""
    return 0 < len(key) <= LONGEST_NAME and NAME.fullmatch(key) is not None and key.casefold() != ARCHIVED


def inside(path: Path, root: Path) -> bool:
    """Whether a path, links followed, lies in a folder."""
    return path.resolve().is_relative_to(root.resolve())


def _job_in(root: Path, key: str) -> JobFolder:
    folder = root / key
    if not usable(key) or not _is_job(folder, root):
        raise NotThere(f"there is no job called {key[:LONGEST_NAME]!r} here")
    return JobFolder(folder, key)


def _jobs_in(root: Path) -> list[JobFolder]:
    if not root.is_dir() or root.is_symlink():
        return []
    found = [path for path in root.iterdir() if usable(path.name) and _is_job(path, root)]
    return [JobFolder(path, path.name) for path in sorted(found, key=lambda path: path.name.casefold())]


def _is_job(folder: Path, root: Path) -> bool:
    """Whether a job lies in a folder that is itself in root; a link that leads out of it does not count."""
    file = folder / JOB_FILE
    try:
        return folder.resolve() == root.resolve() / folder.name and file.is_file() and inside(file, folder)
    except (OSError, RuntimeError):
        return False
