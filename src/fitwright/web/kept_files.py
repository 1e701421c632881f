"""Files that a device sends are kept as they came, in a folder of the job, under a name of our own making."""

from __future__ import annotations

import os
import re
import unicodedata
from pathlib import Path

from fitwright.web.errors import NotTaken, NotThere
from fitwright.web.folder import JobFolder, inside
from fitwright.web.guard.forms import Upload

FOLDER = re.compile(r"[a-z]{1,20}")
LONGEST = 60
MOST = 1000
"""Files of one name, counted."""


def keep_file(job: JobFolder, folder: str, upload: Upload) -> str:
    """Keep a file; gives its place under the job, such as photos/hall.jpg. The same file is kept once.

    Raises NotTaken when the folder leads elsewhere or has too many files of that name.
    """
    assert FOLDER.fullmatch(folder), folder
    target = job.root / folder
    target.mkdir(exist_ok=True)
    if target.is_symlink() or not inside(target, job.root):
        raise NotTaken(f"the folder {folder} of this job leads elsewhere: make it a plain folder")
    stem, ending = plain_name(upload.name)
    for count in range(1, MOST):
        name = f"{stem}{ending}" if count == 1 else f"{stem}-{count}{ending}"
        if _put(target / name, upload.content):
            return f"{folder}/{name}"
    raise NotTaken(f"there are {MOST} files called {stem} already: give this one another name")


def kept_file(job: JobFolder, folder: str, name: str) -> Path:
    """A file that was kept. Raises NotThere."""
    path = job.root / folder / name
    if path.name != name or name.startswith(".") or not path.is_file() or not inside(path, job.root):
        raise NotThere(f"there is no {name[:60]!r} in {folder}")
    return path


def plain_name(said: str) -> tuple[str, str]:
    """The name of a file and its ending, of letters, digits and hyphens only, whatever a device calls it.

    >>> plain_name("C:/Users/me/Küche (2).JPEG"), plain_name("..")
    (('kuche-2', '.jpeg'), ('file', ''))
    """
    last = said.replace("\\", "/").rpartition("/")[2]
    letters = unicodedata.normalize("NFKD", last).encode("ascii", "ignore").decode().lower()
    stem, dot, ending = letters.rpartition(".")
    stem, ending = (stem, ending) if dot else (letters, "")
    plain = re.sub(r"[^a-z0-9]+", "-", stem).strip("-")[:LONGEST]
    ending = re.sub(r"[^a-z0-9]", "", ending)[:8]
    return plain or "file", f".{ending}" if ending else ""


def _put(path: Path, content: bytes) -> bool:
    """Write a file that is not there yet, whole or not at all; whether the content now is there under that name."""
    if path.exists() or path.is_symlink():
        return path.is_file() and not path.is_symlink() and path.read_bytes() == content
    draft = path.with_name(f".{path.name}.{os.getpid()}")
    with draft.open("wb") as out:
        out.write(content)
        out.flush()
        os.fsync(out.fileno())
    os.replace(draft, path)
    return True
