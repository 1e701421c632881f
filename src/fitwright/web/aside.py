"""What takes seconds is computed aside, in a process of its own, with progress; a newer change ends it."""

from __future__ import annotations

import asyncio
import multiprocessing
import os
import sys
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from multiprocessing.connection import Connection
from multiprocessing.context import ForkServerContext, SpawnContext
from multiprocessing.process import BaseProcess
from pathlib import Path
from threading import Thread
from typing import Any

from fitwright.assess import Assessment, assess
from fitwright.errors import FitwrightError
from fitwright.job import parse_job
from fitwright.shop import default_shop, load_shop

GIVES_WAY = 10

Tell = Callable[[str, float], bool]
Task = Callable[[Assessment, Tell], Any]


class Superseded(Exception):
    """A newer change has made this computation useless."""


@dataclass(eq=False)
class Aside:
    """One computation under way: the step it is at, the share done (0 to 1), and its result to come."""

    process: BaseProcess | None = None
    stopped: bool = False
    step: str = "starting"
    share: float = 0.0
    result: asyncio.Future[Any] = field(default_factory=lambda: asyncio.get_running_loop().create_future())

    def stop(self) -> None:
        """End it; who waits for its result is told that it is superseded."""
        self.stopped = True
        if self.process is not None and self.process.is_alive():
            self.process.terminate()
        if not self.result.done():
            self.result.set_exception(Superseded())


def begin(task: Task, text: str, shop_file: Path | None) -> Aside:
    """Begin to compute something of a job's text in a shop.

    task: a function of a module, whose result can be pickled; what it raises of ours is raised by the result.
    """
    aside = Aside()
    aside.result.add_done_callback(lambda done: done.cancelled() or done.exception())
    loop = asyncio.get_running_loop()
    note = lambda said: loop.call_soon_threadsafe(_note, aside, said)  # noqa: E731
    Thread(target=_run, args=(aside, (task, text, shop_file), note), daemon=True).start()
    return aside


def _run(aside: Aside, wanted: tuple[Task, str, Path | None], note: Callable[[tuple[str, Any]], object]) -> None:
    """In a thread: starting a process may take a while, and so may what it tells."""
    context = _context()
    ours, theirs = context.Pipe(duplex=False)
    process = context.Process(target=_compute, args=(*wanted, theirs), daemon=True)
    if not aside.stopped:
        process.start()
        aside.process = process
    theirs.close()
    if aside.stopped and aside.process is not None:
        process.terminate()
    _follow(ours, note)


def _context() -> SpawnContext | ForkServerContext:
    """Forked off a server that has everything imported, where the system has such: it begins at once."""
    if sys.platform == "win32":
        return multiprocessing.get_context("spawn")
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(["fitwright.assess", "fitwright.web.aside", "fitwright.web.longer"])
    return context


def _follow(told: Connection, note: Callable[[tuple[str, Any]], object]) -> None:
    with suppress(EOFError, OSError):
        while True:
            note(told.recv())
    with suppress(RuntimeError):  # the server may have ended meanwhile
        note(("ended", None))


def _note(aside: Aside, said: tuple[str, Any]) -> None:
    kind, what = said
    if kind == "at":
        aside.step, aside.share = what
    elif not aside.result.done():
        if kind == "found":
            aside.result.set_result(what)
        else:
            wrong = what if isinstance(what, FitwrightError) else FitwrightError(what or "the computation was ended")
            aside.result.set_exception(wrong)


def _compute(task: Task, text: str, shop_file: Path | None, told: Connection) -> None:
    """In its own process, which gives way to what a maker is waiting for."""
    if hasattr(os, "nice"):
        os.nice(GIVES_WAY)

    def tell(step: str, share: float) -> bool:
        told.send(("at", (step, share)))
        return True

    try:
        job = parse_job(text)
        shop = load_shop(shop_file) if shop_file else default_shop(job.style.unit)
        told.send(("found", task(assess(job, shop), tell)))
    except FitwrightError as wrong:
        told.send(("wrong", str(wrong)))
    finally:
        told.close()
