"""A true server in a process of its own, and Debian's Chromium to look at it."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from queue import Empty, Queue
from threading import Thread
from typing import IO

CHROMIUM = next((path for name in ("chromium", "chromium-browser") if (path := shutil.which(name))), None)
FLAGS = (
    "--no-sandbox",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
)
DEADLINE = 600.0
WAITS_MS = 300_000
ADDRESS = re.compile(r"at (http://127\.0\.0\.1:(\d+))")
WITHOUT_NETWORK = {"PYTHONUNBUFFERED": "1", "PYTHONPATH": str(Path(__file__).parents[2] / "src")}


@dataclass
class Server:
    """`fitwright serve` on a folder; it can be killed and started again on the same port."""

    folder: Path
    options: Sequence[str] = ()
    port: int = 0
    said: list[str] = field(default_factory=list)
    _process: subprocess.Popen[str] | None = None
    _lines: Queue[str] = field(default_factory=Queue)

    @property
    def address(self) -> str:
        """Where it is."""
        return f"http://127.0.0.1:{self.port}"

    @property
    def pid(self) -> int:
        """Its process."""
        assert self._process is not None, "it was not started"
        return self._process.pid

    def start(self) -> Server:
        """Start it and wait until it says where it is; what it printed is told when it does not."""
        command = [
            sys.executable,
            "-m",
            "fitwright",
            "serve",
            str(self.folder),
            "--port",
            str(self.port),
            *self.options,
        ]
        environment = {**os.environ, **WITHOUT_NETWORK}
        self._process = subprocess.Popen(
            command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env=environment
        )  # fmt: skip
        self._lines = lines = Queue[str]()
        assert self._process.stdout is not None
        Thread(target=_read, args=(self._process.stdout, lines), daemon=True).start()
        ends = time.monotonic() + DEADLINE
        while time.monotonic() < ends:
            try:
                line = lines.get(timeout=0.2)
            except Empty:
                assert self._process.poll() is None, f"the server ended: {''.join(self.said)}"
                continue
            self.said.append(line)
            found = ADDRESS.search(line)
            if found:
                self.port = int(found[2])
                return self
        raise AssertionError(f"the server did not start in {DEADLINE} s: {''.join(self.said)}")

    def code(self) -> str:
        """The pairing code that the terminal shows."""
        ends = time.monotonic() + DEADLINE
        while time.monotonic() < ends:
            found = re.search(r"code ([A-Z0-9]{4} [A-Z0-9]{4})", "".join([*self.said, *self._drained()]))
            if found:
                return found[1]
            time.sleep(0.1)
        raise AssertionError(f"no code was shown: {''.join(self.said)}")

    def _drained(self) -> list[str]:
        while not self._lines.empty():
            self.said.append(self._lines.get())
        return self.said

    def kill(self) -> None:
        """End it as a power cut would."""
        if self._process is not None:
            self._process.kill()
            self._process.wait(10)


def _read(stream: IO[str], lines: Queue[str]) -> None:
    for line in stream:
        lines.put(line)
