"""From a job file to a job: read, held against the models, worked out; all mistakes in one error."""

from __future__ import annotations

from pathlib import Path

from fitwright.job.mistakes import JobFileError, first_of
from fitwright.job.model import Job
from fitwright.job.reading import read_text, read_tree
from fitwright.job.resolve import resolve
from fitwright.job.shape.checking import check_shape


def load_job(path: Path | str) -> Job:
    """The job of a file; raises JobFileError with every mistake in it."""
    path = Path(path)
    return parse_job(read_text(path), str(path))


def parse_job(text: str, name: str = "job.yaml") -> Job:
    """The job of a file's text; name: what messages call the file. Raises JobFileError with every mistake in it."""
    root = read_tree(text, name).root
    shape, mistakes = check_shape(root)
    job, more = resolve(shape, root) if shape is not None else (None, [])
    if job is None or mistakes or more:
        raise JobFileError(name, first_of(sorted([*mistakes, *more], key=lambda one: (one.line, one.column))))
    return job
