"""Starters: whole job files that a new job begins from."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from fitwright.job.beside import Beside, BesideError
from fitwright.job.mistakes import JobFileError, Mistake, excerpt, nearest
from fitwright.job.owning import of_ones_own
from fitwright.job.reading import read_text, read_tree
from fitwright.job.rewriting import JobFile
from fitwright.job.written import Written

SHIPPED = Path(__file__).parent / "starters"
PLAIN = "plain"
"""The folder of starters that are nobody's example."""
JOB_FILE = "job.yaml"


class Starter(NamedTuple):
    """name: what it is asked for by; title: the name of the piece in it; path: its file."""

    name: str
    title: str
    path: Path


def starters() -> list[Starter]:
    """The starters that ship with the package: whole examples by name, then plain ones to make anything of."""
    return [Starter(path.stem, _title(path), path) for path in _shipped()]


def _shipped() -> list[Path]:
    return [*sorted(SHIPPED.glob("*.yaml")), *sorted((SHIPPED / PLAIN).glob("*.yaml"))]


def new_job(folder: Path | str, starter: str | Path, name: str, own: bool = False) -> Path:
    """A new job in `folder`, made if missing, from a starter or any job file; name: what the piece is called.

    own: without the client, date, place and photo of the one it begins from; else a photo beside it comes along.
    Gives the path of the new job.yaml. Raises JobFileError when there is one already, or no such starter.
    """
    target = Path(folder) / JOB_FILE
    source = _source(starter)
    file = JobFile(of_ones_own(read_text(source))) if own else JobFile.read(source)
    file.set(("job", "name"), name)
    if target.exists():
        raise _refused(target, "there is a job in this folder already: choose another folder")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        file.save(target)
        if not own:
            _picture_too(source, target.parent)
    except OSError as error:
        raise _refused(target, f"it cannot be written: {(error.strerror or str(error)).lower()}") from None
    return target


def _picture_too(source: Path, folder: Path) -> None:
    """The photo that lies beside a job file goes along with it."""
    photo = read_tree(read_text(source), str(source)).root.get("photo")
    name = photo.get("picture") if isinstance(photo, dict) else None
    if not isinstance(name, Written) or Beside(folder).has(name.text):
        return
    with suppress(BesideError):
        data = Beside(source.parent).read(name.text)
        if data is None:
            return
        copy = folder / name.text
        copy.parent.mkdir(parents=True, exist_ok=True)
        copy.write_bytes(data)


def _source(starter: str | Path) -> Path:
    """The file of a starter by its name, or the job file at a path or in a folder."""
    shipped = {path.stem: path for path in _shipped()}
    if str(starter) in shipped:
        return shipped[str(starter)]
    path = Path(starter)
    if path.is_dir() and (path / JOB_FILE).exists():
        return path / JOB_FILE
    if path.is_file():
        return path
    what = f"{excerpt(str(starter))} is neither a starter nor a job file"
    raise JobFileError(str(starter), [Mistake(0, 0, "", what, tuple(sorted(shipped)), nearest(str(starter), shipped))])


def _refused(path: Path, what: str) -> JobFileError:
    return JobFileError(str(path), [Mistake(0, 0, "", what)])


def _title(path: Path) -> str:
    head = read_tree(read_text(path), str(path)).root.get("job")
    title = head.get("name") if isinstance(head, dict) else None
    return title.text if isinstance(title, Written) else path.stem
