"""What takes seconds is computed aside, in a process of its own, with progress; a newer change ends it."""

from __future__ import annotations

import asyncio
import multiprocessing
import os
import sys
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from functools import partial
from multiprocessing.connection import Connection
from multiprocessing.context import ForkServerContext, SpawnContext
from multiprocessing.process import BaseProcess
from pathlib import Path
from threading import Thread
from typing import Any, TypeVar

from fitwright.assess import Assessment, assess
from fitwright.errors import FitwrightError
from fitwright.job import parse_job
from fitwright.job.beside import Beside
from fitwright.web.equipment import Equipped

GIVES_WAY = 10
FOLLOWS = "follows_longer"

Tell = Callable[[str, float], bool]
Task = Callable[[Assessment, Tell], Any]
AnyTask = TypeVar("AnyTask", bound=Task)


class Superseded(Exception):
    """A newer change has made this computation useless."""


def follows_longer(task: AnyTask) -> AnyTask:
    """Say of a task that it begins with what the longer findings compute: it then waits for them where they are under
    way, and finds it done, instead of computing it beside them a second time."""
    setattr(task, FOLLOWS, True)
    return task


def name_of(task: Task) -> str:
    """The name of a task, with what it was given beforehand."""
    if isinstance(task, partial):
        return f"{name_of(task.func)} {task.args} {task.keywords}"
    return f"{task.__module__}.{task.__qualname__}"


@dataclass(frozen=True)
class Given:
    """What a computation begins with: the text of the job, its shop, its folder."""

    text: str
    equipped: Equipped
    folder: Path | None = None


@dataclass(eq=False)
class Aside:
    """One computation under way: the step it is at, the share done (0 to 1), and its result to come."""

    step: str = "starting"
    share: float = 0.0
    result: asyncio.Future[Any] = field(default_factory=lambda: asyncio.get_running_loop().create_future())

    def stop(self) -> None:
        """Who waits for its result is told that it is superseded."""
        if not self.result.done():
            self.result.set_exception(Superseded())


class Worker:
    """A process of its own for one state of a job: it does one task after another, and what one found the next has."""

    def __init__(self, given: Given) -> None:
        self.process: BaseProcess | None = None
        self.stopped = False
        self._asides: list[Aside] = []
        self._loop = asyncio.get_running_loop()
        context = _context()
        self._ours, theirs = context.Pipe()
        Thread(target=self._run, args=(context, given, theirs), daemon=True).start()

    @property
    def busy(self) -> bool:
        """Whether something is under way or waits."""
        return any(not aside.result.done() for aside in self._asides)

    def do(self, task: Task) -> Aside:
        """Begin a task, or put it behind those under way.

        task: a function of a module, whose result can be pickled; what it raises of ours is raised by the result.
        """
        aside = Aside()
        aside.result.add_done_callback(lambda done: done.cancelled() or done.exception())
        self._asides.append(aside)
        if busy := len([one for one in self._asides if not one.result.done()]) - 1:
            aside.step = "waiting for what is under way" if busy == 1 else f"waiting for {busy} others"
        try:
            self._ours.send((len(self._asides) - 1, task))
        except OSError:  # nobody at the other end, whether or not the thread has come to say so
            self.stopped = True
            aside.result.set_exception(FitwrightError("the computation was ended: ask again"))
        return aside

    def stop(self) -> None:
        """End it, and everything that waits for it."""
        self.stopped = True
        if self.process is not None and self.process.is_alive():
            self.process.terminate()
        for aside in self._asides:
            aside.stop()

    def stop_from_anywhere(self) -> None:
        """The same out of another thread: results belong to their loop."""
        if self._loop.is_running():
            self._loop.call_soon_threadsafe(self.stop)
        elif self.process is not None and self.process.is_alive():
            self.process.terminate()

    def _run(self, context: SpawnContext | ForkServerContext, given: Given, theirs: Connection) -> None:
        """In a thread: starting a process may take a while, and so may what it tells."""
        process = context.Process(target=_work, args=(given, theirs), daemon=True)
        # where none can be started, as on a machine short of memory, what follows finds nobody at the other end
        with suppress(EOFError, OSError):
            if not self.stopped:
                process.start()
                self.process = process
        theirs.close()
        if self.stopped and self.process is not None:
            process.terminate()
        with suppress(EOFError, OSError):
            while True:
                number, kind, what = self._ours.recv()
                self._loop.call_soon_threadsafe(_note, self._asides[number], kind, what)
        with suppress(RuntimeError):  # the server may have ended meanwhile
            self._loop.call_soon_threadsafe(self._ended)

    def _ended(self) -> None:
        for aside in self._asides:
            _note(aside, "ended", None)
        self.stopped = True


def _context() -> SpawnContext | ForkServerContext:
    """Forked off a server that has everything imported, where the system has such: it begins at once."""
    if sys.platform == "win32":
        return multiprocessing.get_context("spawn")
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(["fitwright.assess", "fitwright.web.aside", "fitwright.web.longer"])
    return context


def _note(aside: Aside, kind: str, what: Any) -> None:
    if kind == "at":
        aside.step, aside.share = what
    elif not aside.result.done():
        if kind == "found":
            aside.result.set_result(what)
        else:
            wrong = what if isinstance(what, FitwrightError) else FitwrightError(what or "the computation was ended")
            aside.result.set_exception(wrong)


def _work(given: Given, told: Connection) -> None:
    """In its own process, which gives way to what a maker is waiting for; it ends with the one that began it."""
    if hasattr(os, "nice"):
        os.nice(GIVES_WAY)
    assessment: Assessment | None = None
    with suppress(EOFError, OSError):
        while True:
            number, task = told.recv()
            try:
                assessment = assessment or _assessed(given)
                told.send((number, "found", task(assessment, partial(_tell, told, number))))
            except FitwrightError as wrong:
                told.send((number, "wrong", str(wrong)))


def _tell(told: Connection, number: int, step: str, share: float) -> bool:
    told.send((number, "at", (step, share)))
    return True


def _assessed(given: Given) -> Assessment:
    beside = Beside(given.folder) if given.folder is not None else None
    return assess(parse_job(given.text), given.equipped.shop, given.equipped.learnt, beside, given.equipped.unreached)
