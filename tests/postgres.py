"""A true PostgreSQL server of Debian's package, in a folder of its own, for the tests of the shop's records."""

from __future__ import annotations

import getpass
import os
import shutil
import subprocess
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

WITHOUT = "Debian's PostgreSQL is not installed: apt-get install postgresql (.ci/run does it)"
DEADLINE = 30.0
USER = "fitwright"


def programs() -> Path | None:
    """The folder with initdb and postgres, of the newest version that is installed."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: int(path.parts[-3]))
    if found:
        return found[-1].parent
    other = shutil.which("initdb")
    return Path(other).resolve().parent if other else None


@dataclass
class Postgres:
    """A server that listens on a socket in its own folder only."""

    folder: Path
    process: subprocess.Popen[bytes]

    @property
    def url(self) -> str:
        """Where its database is."""
        return f"postgresql://{USER}@/postgres?host={self.folder}"

    def emptied(self) -> str:
        """The URL, with nothing left in the database."""
        import psycopg

        with psycopg.connect(self.url, autocommit=True) as connection:
            connection.execute("DROP SCHEMA public CASCADE")
            connection.execute("CREATE SCHEMA public")
        return self.url

    def stop(self) -> None:
        """End it and remove its folder."""
        self.process.terminate()
        try:
            self.process.wait(10)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait(10)
        shutil.rmtree(self.folder, ignore_errors=True)


def start() -> Postgres:
    """Start a server and wait until it answers; as the package's own user where root, who may not run one."""
    home = programs()
    assert home is not None, WITHOUT
    user = "postgres" if os.geteuid() == 0 else getpass.getuser()
    folder = Path(tempfile.mkdtemp(prefix="fitwright-pg-", dir="/tmp"))  # a socket's path has to be short
    if os.geteuid() == 0:
        shutil.chown(folder, user, user)
    data = folder / "data"
    other = {"user": user, "cwd": "/"} if os.geteuid() == 0 else {}
    words = ["-D", str(data), "-U", USER, "-A", "trust", "--no-sync", "-E", "UTF8", "--locale=C"]
    made = subprocess.run([str(home / "initdb"), *words], check=False, capture_output=True, text=True, **other)  # type: ignore[call-overload]
    assert made.returncode == 0, made.stderr
    settings = {
        "listen_addresses": "", "unix_socket_directories": str(folder), "fsync": "off", "shared_buffers": "16MB",
    }  # fmt: skip
    options = [part for name, value in settings.items() for part in ("-c", f"{name}={value}")]
    log = (folder / "log").open("wb")
    command = [str(home / "postgres"), "-D", str(data), *options]
    process = subprocess.Popen(command, stdout=log, stderr=subprocess.STDOUT, **other)  # type: ignore[call-overload]
    server = Postgres(folder, process)
    _wait(server)
    return server


def _wait(server: Postgres) -> None:
    import psycopg

    ends = time.monotonic() + DEADLINE
    while time.monotonic() < ends:
        try:
            psycopg.connect(server.url, connect_timeout=2).close()
            return
        except psycopg.OperationalError:
            assert server.process.poll() is None, (server.folder / "log").read_text()
            time.sleep(0.05)
    raise AssertionError(f"PostgreSQL did not answer in {DEADLINE} s: {(server.folder / 'log').read_text()}")
