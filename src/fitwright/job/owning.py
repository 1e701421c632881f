"""A starter made one's own: without what belongs to its example."""

from __future__ import annotations

import re
from contextlib import suppress

from fitwright.job.loading import parse_job
from fitwright.job.mistakes import JobFileError
from fitwright.job.removing import NoSuchKey, NotAlone, without
from fitwright.job.rewriting import JobFile

EXAMPLES_OWN = (
    ("job", "client"),
    ("job", "due"),
    ("brief", "use"),
    ("brief", "budget"),
    ("space",),
    ("photo",),
    ("readings",),
    ("progress",),
    ("price",),
)
TOLD_FIRST = re.compile(r"\A(?:#.*\n)+")
"""What the example says of itself before the job begins."""
GAPS = re.compile(r"\n{3,}")


def of_ones_own(text: str, client: str = "", due: str = "") -> str:
    """The text of a starter without what belongs to its example: whom it is for, by when, its place and its photo.

    What the rest of the file cannot do without stays. Raises JobFileError for a client or a date that cannot be.
    """
    for steps in EXAMPLES_OWN:
        with suppress(NoSuchKey, NotAlone, JobFileError):
            less = without(text, steps)
            parse_job(less)
            text = less
    file = JobFile(GAPS.sub("\n\n", TOLD_FIRST.sub("", text)))
    for key, said in (("client", client), ("due", due)):
        if said:
            file.set(("job", key), said)
    parse_job(file.text())
    return file.text()
