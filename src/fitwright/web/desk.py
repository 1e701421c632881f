"""What is being computed for the jobs in view: shape first, findings after it, the newest change before older ones."""

from __future__ import annotations

import asyncio
import hashlib
import threading
from collections import OrderedDict
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from gzip import compress
from pathlib import Path
from typing import Any, TypeVar

from fitwright.assess import Assessment, assess
from fitwright.errors import FitwrightError
from fitwright.findings import Finding
from fitwright.job import Job, parse_job
from fitwright.shop import Shop, default_shop, load_shop
from fitwright.units import Unit
from fitwright.web.aside import Aside, Superseded, Task, Tell, begin
from fitwright.web.folder import JobFolder
from fitwright.web.keeping import Kept, State, state_of
from fitwright.web.packed import packed_scene
from fitwright.web.still import still_picture

KEPT = 24
QUICK = 2
"""Level of compression: the shape is waited for."""
MANY = 60
"""Members from which the findings take longer than beginning a process for them."""
LEAD = 0.02
"""How long the shape has to get on its way before findings take the processor [s]."""

T = TypeVar("T")


@dataclass(eq=False)
class Work:
    """One revision of a job in its shop, and what has been computed of it.

    wrong: why there is no assessment (mistakes in the job file or the shop's), or None.
    """

    key: str
    state: State
    revision: str
    assessment: Assessment | None
    wrong: FitwrightError | None
    newest: Callable[[], bool]
    shop_file: Path | None
    _results: dict[str, asyncio.Future[Any]] = field(default_factory=dict)
    asides: dict[str, Aside] = field(default_factory=dict)

    @property
    def right(self) -> Assessment:
        """The assessment. Raises what is wrong with the job file."""
        if self.assessment is None:
            assert self.wrong is not None
            raise self.wrong
        return self.assessment


class Desk:
    """Assessments by job, each kept for as long as its file and its shop stay as they are."""

    def __init__(self, shop_file: Path | None = None) -> None:
        self._shop_file = shop_file
        self._works: OrderedDict[tuple[str, str], Work] = OrderedDict()
        self._newest: dict[str, str] = {}
        self._threads = ThreadPoolExecutor(3, thread_name_prefix="assess")
        self._lock = threading.Lock()

    def work(self, job: JobFolder) -> Work:
        """The work on the job as its file now is; reads the file, computes nothing of the piece."""
        return self._on(job, state_of(job), None)

    def accept(self, job: JobFolder, kept: Kept) -> Work:
        """The work on what has just been kept, which need not be read again."""
        return self._on(job, kept.state, kept.job)

    def _on(self, job: JobFolder, state: State, loaded: Job | None) -> Work:
        shop_file = self._shop_file or job.shop_file
        revision = _with_shop(state.revision, shop_file)
        name = (str(job.root), revision)
        with self._lock:
            if self._newest.get(name[0]) not in (None, revision):
                self._stop_older(name[0], revision)
            self._newest[name[0]] = revision
            if name not in self._works:
                self._works[name] = self._begun(job, state, revision, shop_file, loaded)
            self._works.move_to_end(name)
            while len(self._works) > KEPT:
                self._works.popitem(last=False)
            return self._works[name]

    async def result(self, work: Work, name: str, compute: Callable[[Assessment], T]) -> T:
        """Something computed in a thread, once for a revision; it goes on when who asked gives up waiting."""
        assessment = work.right
        future = work._results.get(name)
        if future is None or (future.done() and isinstance(future.exception(), Superseded)):
            loop = asyncio.get_running_loop()
            future = loop.run_in_executor(self._threads, _computed, work, assessment, compute)
            future.add_done_callback(_looked_at)
            work._results[name] = future
        found: T = await asyncio.shield(future)
        return found

    async def scene(self, work: Work) -> bytes:
        """The piece in its space, packed for the view in 3-D and compressed (gzip)."""
        return await self.result(work, "scene", lambda found: compress(packed_scene(found, work.revision), QUICK))

    async def still(self, work: Work) -> str:
        """The piece as a line picture (SVG)."""
        return await self.result(work, "still", lambda found: still_picture(found.meshes))

    async def findings(self, work: Work) -> tuple[Finding, ...]:
        """Every quick finding, after the shape; of many parts aside, where a newer change ends it at once."""
        await self.scene(work)
        await asyncio.sleep(LEAD)
        if len(work.right.piece.members) > MANY:
            found: tuple[Finding, ...] = await asyncio.shield(self.aside(work, quick_findings).result)
            return found
        return await self.result(work, "findings", lambda found: _findings(work, found))

    def aside(self, work: Work, task: Task) -> Aside:
        """Something that takes seconds, begun once for a revision in a process of its own. Raises what is wrong."""
        _ = work.right
        name = task.__name__
        under_way = work.asides.get(name)
        if under_way is None or (under_way.result.done() and isinstance(under_way.result.exception(), Superseded)):
            work.asides[name] = begin(task, work.state.text, work.shop_file)
        return work.asides[name]

    def close(self) -> None:
        """Let go of threads and processes."""
        for work in self._works.values():
            _stop(work)
        self._threads.shutdown(wait=False, cancel_futures=True)

    def _stop_older(self, root: str, revision: str) -> None:
        """What is under way for older revisions of a job is of no more use."""
        for (place, other), work in self._works.items():
            if place == root and other != revision:
                _stop(work)

    def _begun(self, job: JobFolder, state: State, revision: str, shop_file: Path | None, loaded: Job | None) -> Work:
        assessment, wrong = None, None
        try:
            loaded = loaded or parse_job(state.text, job.file.name)
            assessment = assess(loaded, _shop(shop_file, loaded.style.unit))
        except FitwrightError as error:
            wrong = error
        root = str(job.root)
        return Work(job.key, state, revision, assessment, wrong, lambda: self._newest.get(root) == revision, shop_file)


def _computed(work: Work, assessment: Assessment, compute: Callable[[Assessment], T]) -> T:
    if not work.newest():
        raise Superseded
    _ = assessment.piece
    return compute(assessment)


def _findings(work: Work, assessment: Assessment) -> tuple[Finding, ...]:
    """In parts, so that an older computation stops at the next part once it is superseded."""
    for part in ("fit", "bend_sheets", "cutting_plans"):
        if not work.newest():
            raise Superseded
        getattr(assessment, part)
    return assessment.findings


def _stop(work: Work) -> None:
    for aside in work.asides.values():
        if not aside.result.done():
            _on_its_loop(aside)


def _on_its_loop(aside: Aside) -> None:
    """Changes of dims are worked on in threads; results belong to the loop."""
    loop = aside.result.get_loop()
    if loop.is_running():
        loop.call_soon_threadsafe(aside.stop)
    elif aside.process is not None and aside.process.is_alive():
        aside.process.terminate()


def quick_findings(assessment: Assessment, _: Tell) -> tuple[Finding, ...]:
    """The findings that are computed for every change."""
    return assessment.findings


def _looked_at(future: asyncio.Future[Any]) -> None:
    """Nobody may be waiting any more for what went wrong."""
    if not future.cancelled():
        future.exception()


def _shop(shop_file: Path | None, unit: Unit) -> Shop:
    return load_shop(shop_file) if shop_file is not None else default_shop(unit)


def _with_shop(revision: str, shop_file: Path | None) -> str:
    """The job's revision, and with a shop of its own that file's too."""
    if shop_file is None or not shop_file.exists():
        return revision
    return f"{revision}-{hashlib.sha256(shop_file.read_bytes()).hexdigest()[:6]}"
