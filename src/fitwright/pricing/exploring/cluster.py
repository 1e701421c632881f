"""Many points worked out on a Dask cluster."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from fitwright import __version__
from fitwright.errors import FitwrightError
from fitwright.pricing.exploring.trying import Base, Judge, Point, Tried, tried

ANSWERS_WITHIN = "15s"
PENDING = "pending"
LOOK_EVERY = 0.2
"""How often it is looked whether to stop [s]."""


class ClusterError(FitwrightError, OSError):
    """A cluster that cannot be worked on; the message says why and what to do."""


def on_cluster(
    points: Sequence[Point], base: Base, judge: Judge, address: str, stop: Callable[[], bool]
) -> Iterator[Tried]:
    """Each point as it is done, in whatever order. Raises ClusterError."""
    client = _client(address)
    try:
        _check_versions(client, address)
        held = client.scatter(base, broadcast=True, hash=False)
        waiting = {client.submit(tried, point, held, judge, pure=False): point for point in points}
        while waiting:
            if stop():
                late = [future for future in waiting if future.status == PENDING]
                client.cancel(late)
                for future in late:
                    del waiting[future]
            yield from _done(waiting)
    finally:
        client.close()


def _done(waiting: dict[Any, Point]) -> Iterator[Tried]:
    """What has been done since the last look; waits a moment where there is nothing."""
    done = [future for future in waiting if future.status != PENDING]
    if waiting and not done:
        time.sleep(LOOK_EVERY)
    for future in done:
        point = waiting.pop(future)
        if future.status == "finished":
            yield future.result()
        else:
            why = future.exception() if future.status == "error" else future.status
            yield Tried(point, None, f"the cluster lost it: {why}")


def _client(address: str) -> Any:
    try:
        from dask.distributed import Client
    except ImportError as wrong:
        raise ClusterError("dask is not installed here: pip install 'fitwright[cluster]'") from wrong
    try:
        reach: Callable[..., Any] = Client  # dask says nothing of its types
        return reach(address, timeout=ANSWERS_WITHIN, set_as_default=False)
    except (OSError, ValueError, TimeoutError) as wrong:
        raise ClusterError(
            f"no cluster answers at {address}: begin one with dask scheduler and dask worker, and give the address "
            f"that the scheduler prints, such as tcp://192.168.1.20:8786"
        ) from wrong


def _check_versions(client: Any, address: str) -> None:
    """All workers have this very program, or results would differ."""
    try:
        found = client.run(version)
    except Exception as wrong:
        raise ClusterError(f"the workers at {address} do not have fitwright: install it on each ({wrong})") from wrong
    if not found:
        raise ClusterError(f"the cluster at {address} has no workers: begin some with dask worker {address}")
    other = {theirs for theirs in found.values() if theirs != __version__}
    if other:
        raise ClusterError(f"workers at {address} have fitwright {', '.join(sorted(other))}, this is {__version__}")


def version() -> str:
    """The version of this program where it is asked."""
    return __version__
