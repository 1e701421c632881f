"""What is being computed for the jobs in view: shape first, findings after it, the newest change before older ones."""

from __future__ import annotations

import asyncio
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
from fitwright.job.beside import Beside
from fitwright.piece import Piece
from fitwright.units import Unit
from fitwright.web.aside import FOLLOWS, Aside, Given, Superseded, Task, Tell, Worker, name_of
from fitwright.web.equipment import Equipment, Equipped
from fitwright.web.folder import JobFolder
from fitwright.web.keeping import Kept, State, state_of
from fitwright.web.packed import packed_scene
from fitwright.web.still import still_picture

KEPT = 24
QUICK = 2
"""Level of compression: the shape is waited for."""
MANY = 60
"""Members from which the findings take longer than beginning a process for them."""
WORKERS = 3
"""Processes that are kept when they have nothing to do; what they have worked out is at hand."""
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
    given: Given | None
    _results: dict[str, asyncio.Future[Any]] = field(default_factory=dict)
    asides: dict[str, Aside] = field(default_factory=dict)
    workers: list[Worker] = field(default_factory=list)

    @property
    def right(self) -> Assessment:
        """The assessment. Raises what is wrong with the job file."""
        if self.assessment is None:
            assert self.wrong is not None
            raise self.wrong
        return self.assessment

    def found(self, task: Task) -> Any:
        """What a task has found, or None while it has not."""
        known = self.asides.get(name_of(task))
        done = known is not None and known.result.done() and known.result.exception() is None
        return known.result.result() if known is not None and done else None


class Desk:
    """Assessments by job, each kept for as long as its file and its shop stay as they are."""

    def __init__(self, shop_file: Path | None = None) -> None:
        self._shop_file = shop_file
        self._equipment = Equipment()
        self._works: OrderedDict[tuple[str, str], Work] = OrderedDict()
        self._newest: dict[str, str] = {}
        self._threads = ThreadPoolExecutor(3, thread_name_prefix="assess")
        self._lock = threading.Lock()

    @property
    def shop_file(self) -> Path | None:
        """The shop file that was given for all jobs."""
        return self._shop_file

    def shop(self, unit: Unit) -> Equipped:
        """The shop of all jobs with what its records say; where none was given the shipped one for a unit."""
        return self._equipment.of(self._shop_file, unit)

    def work(self, job: JobFolder) -> Work:
        """The work on the job as its file now is; reads the file, computes nothing of the piece."""
        return self._on(job, state_of(job), None)

    def accept(self, job: JobFolder, kept: Kept) -> Work:
        """The work on what has just been kept, which need not be read again."""
        return self._on(job, kept.state, kept.job)

    def _on(self, job: JobFolder, state: State, loaded: Job | None) -> Work:
        shop_file = self._shop_file or job.shop_file
        revision = self._revision(state, shop_file)
        name = (str(job.root), revision)
        with self._lock:
            if self._newest.get(name[0]) not in (None, revision):
                self._stop_older(name[0], revision)
            self._newest[name[0]] = revision
            if name not in self._works:
                self._works[name] = self._begun(job, state, revision, shop_file, loaded)
            self._works.move_to_end(name)
            while len(self._works) > KEPT:
                _stop(self._works.popitem(last=False)[1])
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

    async def piece(self, work: Work) -> Piece:
        """The piece, once it is known that it can be built; after the shape, and once for all who ask."""
        await self.scene(work)
        return await self.result(work, "piece", lambda found: found.piece)

    async def still(self, work: Work) -> str:
        """The piece as a line picture (SVG)."""
        return await self.result(work, "still", lambda found: still_picture(found.meshes))

    async def findings(self, work: Work) -> tuple[Finding, ...]:
        """Every quick finding, after the shape; of many parts aside, where a newer change ends it at once."""
        await self.scene(work)
        await asyncio.sleep(LEAD)
        if len(work.right.sketch.piece.members) > MANY:
            found: tuple[Finding, ...] = await asyncio.shield(self.aside(work, quick_findings).result)
            return found
        await self.piece(work)
        return await self.result(work, "findings", lambda found: _findings(work, found))

    def aside(self, work: Work, task: Task) -> Aside:
        """Something that takes seconds, begun once for a revision in a process of its own. Raises what is wrong."""
        _ = work.right
        name = name_of(task)
        under_way = work.asides.get(name)
        if under_way is None or (under_way.result.done() and isinstance(under_way.result.exception(), Superseded)):
            work.asides[name] = self._worker(work, task).do(task)
        return work.asides[name]

    def _worker(self, work: Work, task: Task) -> Worker:
        """A process that has nothing to do, or that this task follows in; else a new one."""
        alive = work.workers = [worker for worker in work.workers if not worker.stopped]
        free = [worker for worker in alive if not worker.busy] or (alive[:1] if getattr(task, FOLLOWS, False) else [])
        if not free:
            assert work.given is not None, "what is wrong was raised before"
            self._end_idle()
            free = [Worker(work.given)]
            alive.append(free[0])
        return free[0]

    def _end_idle(self) -> None:
        """Processes hold what they worked out in memory: only the last few are kept."""
        idle = [worker for work in self._works.values() for worker in work.workers if not worker.busy]
        for worker in idle[: max(len(idle) - WORKERS, 0)]:
            worker.stop()

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
        given = None
        try:
            loaded = loaded or parse_job(state.text, job.file.name)
            equipped = self._equipment.of(shop_file, loaded.style.unit)
            given = Given(state.text, equipped, job.root)
            assessment = assess(loaded, equipped.shop, equipped.learnt, Beside(job.root), equipped.unreached)
        except FitwrightError as error:
            wrong = error
        root = str(job.root)
        return Work(job.key, state, revision, assessment, wrong, lambda: self._newest.get(root) == revision, given)

    def _revision(self, state: State, shop_file: Path | None) -> str:
        """The job's revision, and with a shop or records of its own their state too."""
        stamp = self._equipment.stamp(shop_file)
        return f"{state.revision}-{stamp}" if stamp else state.revision


def _computed(work: Work, assessment: Assessment, compute: Callable[[Assessment], T]) -> T:
    if not work.newest():
        raise Superseded
    return compute(assessment)


def _findings(work: Work, assessment: Assessment) -> tuple[Finding, ...]:
    """In parts, so that an older computation stops at the next part once it is superseded."""
    for part in ("fit", "bend_sheets", "cutting_plans"):
        if not work.newest():
            raise Superseded
        getattr(assessment, part)
    return assessment.findings


def _stop(work: Work) -> None:
    for worker in work.workers:
        worker.stop_from_anywhere()
    work.workers = []


def quick_findings(assessment: Assessment, _: Tell) -> tuple[Finding, ...]:
    """The findings that are computed for every change."""
    return assessment.findings


def _looked_at(future: asyncio.Future[Any]) -> None:
    """Nobody may be waiting any more for what went wrong."""
    if not future.cancelled():
        future.exception()
