"""Packets made on request, each in a process of its own: the solid modeller would hold up everything else."""

from __future__ import annotations

import multiprocessing
import os
import shutil
import threading
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from pathlib import Path
from typing import Any

from fitwright.errors import FitwrightError
from fitwright.web.errors import NotThere
from fitwright.web.folder import JobFolder, inside

PACKET = "packet"
MADE_FROM = "made-from.txt"


@dataclass(frozen=True)
class Making:
    """A packet under way or done. share: of the work, 0 to 1; wrong: why it was not made; notes: what was left out."""

    revision: str
    step: str = "starting"
    share: float = 0.0
    done: bool = False
    wrong: str = ""
    notes: tuple[str, ...] = ()


class Makings:
    """The newest packet of each job; beginning another one ends the one under way."""

    def __init__(self, shop_file: Path | None = None) -> None:
        self._shop_file = shop_file
        self._made: dict[str, Making] = {}
        self._processes: dict[str, BaseProcess] = {}
        self._lock = threading.Lock()

    def begin(self, job: JobFolder, revision: str, solids: bool) -> None:
        """Begin to make the packet of a job's file as it now is."""
        key = str(job.root)
        with self._lock:
            self._stop(key)
            context = multiprocessing.get_context("spawn")
            ours, theirs = context.Pipe(duplex=False)
            shop = self._shop_file or job.shop_file
            process = context.Process(target=_make, args=(job.file, shop, revision, solids, theirs), daemon=True)
            self._made[key] = Making(revision)
            self._processes[key] = process
            process.start()
            theirs.close()
        threading.Thread(target=self._follow, args=(key, ours, process), daemon=True).start()

    def of(self, job: JobFolder) -> Making | None:
        """How far the packet of a job is; one made before the server was started is done."""
        made = self._made.get(str(job.root))
        if made is None and (job.root / PACKET / MADE_FROM).is_file():
            return Making((job.root / PACKET / MADE_FROM).read_text(encoding="utf-8"), "done", 1.0, done=True)
        return made

    def close(self) -> None:
        """End what is under way."""
        with self._lock:
            for key in list(self._processes):
                self._stop(key)

    def _stop(self, key: str) -> None:
        process = self._processes.pop(key, None)
        if process is not None and process.is_alive():
            process.terminate()

    def _follow(self, key: str, told: Connection, process: BaseProcess) -> None:
        """Note what the process tells until it ends, unless another has taken its place."""
        try:
            while True:
                change: dict[str, Any] = told.recv()
                self._note(key, process, partial(_changed, change))
        except (EOFError, OSError):
            pass
        self._note(
            key, process, lambda making: making if making.done else replace(making, wrong=making.wrong or STOPPED)
        )

    def _note(self, key: str, process: BaseProcess, changed: Callable[[Making], Making]) -> None:
        with self._lock:
            if self._processes.get(key) is process:
                self._made[key] = changed(self._made[key])


def _changed(change: dict[str, Any], making: Making) -> Making:
    return replace(making, **change)


STOPPED = "the packet was not finished: make it again"


def packet_files(job: JobFolder) -> list[Path]:
    """The files of the last packet that was finished, the PDF first."""
    folder = job.root / PACKET
    if not folder.is_dir() or not inside(folder, job.root):
        return []
    files = [path for path in folder.iterdir() if path.is_file() and not path.is_symlink() and path.name != MADE_FROM]
    order = (".pdf", ".dxf", ".step", ".xlsx", ".csv", ".svg", ".json")
    known = [path for path in files if path.suffix in order]
    return sorted(known, key=lambda path: (order.index(path.suffix), path.name))


def packet_file(job: JobFolder, name: str) -> Path:
    """One file of the packet, by its name. Raises NotThere."""
    for path in packet_files(job):
        if path.name == name:
            return path
    raise NotThere(f"there is no {name[:60]!r} in this packet")


def _make(file: Path, shop: Path | None, revision: str, solids: bool, tell: Connection) -> None:
    """In its own process: the packet into a folder beside, which takes the place of the last one when it is whole."""
    from fitwright.assess import assess
    from fitwright.job import load_job
    from fitwright.job.beside import Beside
    from fitwright.sheets.packet import write_packet
    from fitwright.web.equipment import Equipment

    draft, target = file.parent / f".{PACKET}-{os.getpid()}", file.parent / PACKET
    try:
        job = load_job(file)
        equipped = Equipment().of(shop, job.style.unit)
        assessment = assess(job, equipped.shop, equipped.learnt, Beside(file.parent), equipped.unreached)
        progress = lambda step, share: tell.send({"step": step, "share": min(share, 0.99)})  # noqa: E731
        written = write_packet(assessment, draft, solids=solids, progress=progress)
        (draft / MADE_FROM).write_text(revision, encoding="utf-8")
        shutil.rmtree(target, ignore_errors=True)
        os.replace(draft, target)
        tell.send({"step": "done", "share": 1.0, "done": True, "notes": written.notes})
    except (FitwrightError, OSError) as wrong:
        tell.send({"wrong": str(wrong)})
    finally:
        shutil.rmtree(draft, ignore_errors=True)
        tell.close()
