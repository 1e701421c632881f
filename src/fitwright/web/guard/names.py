"""The names under which this server may be addressed: what the Host and the Origin of a request must be."""

from __future__ import annotations

import socket
from dataclasses import dataclass
from urllib.parse import urlsplit

LOOPBACK = ("127.0.0.1", "localhost", "[::1]")


@dataclass(frozen=True)
class Names:
    """Host names without ports. A name that an attacker made point here is in none of them."""

    hosts: frozenset[str]
    port: int

    def knows(self, host: str) -> bool:
        """Whether a Host header is one of ours."""
        return _without_port(host) in self.hosts and _port(host) in (self.port, None)

    def same_origin(self, origin: str, host: str) -> bool:
        """Whether an Origin header is the very address that the request was sent to."""
        parts = urlsplit(origin)
        return parts.scheme == "http" and parts.netloc.lower() == host.lower()


def names(port: int, addresses: tuple[str, ...] = ()) -> Names:
    """The loopback names, and this machine's addresses and name where it serves the network."""
    return Names(frozenset({*LOOPBACK, *(address.lower() for address in addresses)}), port)


def network_addresses() -> tuple[str, ...]:
    """This machine's address on the network, as the routing table has it, and its name; nothing is sent."""
    found = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # an address for documentation (RFC 5737); UDP sends nothing on connect
            found.append(str(probe.getsockname()[0]))
        except OSError:
            pass
    name = socket.gethostname().lower()
    return (*found, name, f"{name}.local")


def _without_port(host: str) -> str:
    host = host.lower()
    if host.startswith("["):
        return host.partition("]")[0] + "]"
    return host.partition(":")[0]


def _port(host: str) -> int | None:
    tail = host.rpartition("]")[2] if host.startswith("[") else host
    _, colon, port = tail.partition(":")
    if not colon:
        return None
    return int(port) if port.isascii() and port.isdigit() else -1
