"""Marks taken back, one change after the other, as long as nothing else has changed the job since."""

from __future__ import annotations

from collections import OrderedDict
from threading import Lock

from fitwright.web.errors import NotTaken
from fitwright.web.folder import JobFolder
from fitwright.web.keeping import Kept, replace_text, version_text, versions

KEPT_JOBS, KEPT_CHANGES = 50, 200
_LOCK = Lock()
_CHANGES: OrderedDict[str, list[tuple[str, str]]] = OrderedDict()
"""By job: the version that each change of a mark replaced, and the revision that it made."""


def kept_change(job: JobFolder, revision: str, text: str) -> Kept:
    """Give the job file another text, and remember how to go back. Raises Stale, JobFileError."""
    kept = replace_text(job, revision, text)
    if kept.state.revision != revision:
        version = versions(job)[0].name
        with _LOCK:
            changes = _CHANGES.setdefault(str(job.root), [])
            changes.append((version, kept.state.revision))
            del changes[:-KEPT_CHANGES]
            _CHANGES.move_to_end(str(job.root))
            while len(_CHANGES) > KEPT_JOBS:
                _CHANGES.popitem(last=False)
    return kept


def can_undo(job: JobFolder, revision: str) -> bool:
    """Whether the last change of this state of the job was one of its marks."""
    changes = _CHANGES.get(str(job.root), [])
    return bool(changes) and changes[-1][1] == revision


def undone(job: JobFolder, revision: str) -> Kept:
    """The last change of a mark taken back. Raises NotTaken when something else has changed since."""
    if not can_undo(job, revision):
        raise NotTaken("there is nothing to take back here: earlier states of the job are under Versions")
    version, _ = _CHANGES[str(job.root)].pop()
    return replace_text(job, revision, version_text(job, version))
