"""Serving a folder of jobs, and telling in the terminal how to get there."""

from __future__ import annotations

import io
import socket
from collections.abc import Callable
from pathlib import Path

from fitwright.errors import FitwrightError
from fitwright.web.application import workbench_app
from fitwright.web.guard import Pairing
from fitwright.web.guard.names import names, network_addresses

PORT = 8733
LOOPBACK = "127.0.0.1"
PARTING = 1
"""How long open pages are waited for when the server ends [s]."""

Say = Callable[[str], None]


class CannotServe(FitwrightError, OSError):
    """The folder or the port cannot be used."""


def serve(
    folder: Path,
    *,
    lan: bool = False,
    port: int = PORT,
    shop_file: Path | None = None,
    forget: bool = False,
    say: Say = print,
) -> None:
    """Serve a folder of jobs until interrupted.

    lan: for devices on the network too, each let in once by a code; else for this machine alone. forget: end the
    sessions of all devices. Raises CannotServe.
    """
    import uvicorn

    if not folder.is_dir():
        raise CannotServe(f"{folder} is not a folder: make it, or name the folder that holds your jobs")
    pairing = Pairing() if lan else None
    addresses = network_addresses() if lan else ()
    listening = _listening("0.0.0.0" if lan else LOOPBACK, port)
    real = int(listening.getsockname()[1])
    app = workbench_app(folder, shop_file=shop_file, known_as=names(real, addresses), pairing=pairing, forget=forget)
    for line in greeting(folder, real, pairing, addresses):
        say(line)
    config = uvicorn.Config(
        app,
        log_level="warning",
        access_log=False,
        server_header=False,
        timeout_graceful_shutdown=PARTING,
        lifespan="on",
    )
    uvicorn.Server(config).run(sockets=[listening])


def greeting(folder: Path, port: int, pairing: Pairing | None, addresses: tuple[str, ...]) -> list[str]:
    """What the terminal says: where to open, and on a network the code to be let in."""
    lines = [f"The jobs in {folder} are at http://{LOOPBACK}:{port} (Ctrl+C ends it)."]
    if pairing is None:
        return lines
    reached = f"http://{addresses[0]}:{port}/pair?code={pairing.code}"
    return [
        *lines,
        f"On a tablet in the same network: http://{addresses[0]}:{port}, code {pairing.shown}; or scan this:",
        qr_code(reached),
        "What is sent in the network is not encrypted: use this in your own network only.",
    ]


def qr_code(text: str) -> str:
    """A QR code (ISO/IEC 18004) of half blocks, for a terminal."""
    import segno

    drawn = io.StringIO()
    segno.make(text, error="m", micro=False).terminal(drawn, compact=True)
    return drawn.getvalue()


def _listening(host: str, port: int) -> socket.socket:
    # the protocol is named: asyncio switches waiting for acknowledgements off only where it is, and that costs 40 ms
    found = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        found.bind((host, port))
        found.listen()  # so that who opens the address as soon as it is told waits instead of being refused
    except OSError as wrong:
        found.close()
        raise CannotServe(f"port {port} cannot be used ({wrong.strerror}): choose another with --port") from None
    return found
