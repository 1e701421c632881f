"""Many points worked out: on all cores of this machine, or on a cluster, with the same results."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, BrokenExecutor, Future, ProcessPoolExecutor, wait
from multiprocessing import get_context

from fitwright.pricing.exploring.trying import Base, Judge, Point, Tried, tried

LOOK_EVERY = 0.2
"""How often it is looked whether to stop [s]."""
DIED = "the process that worked on it died; perhaps there was too little memory: try it alone"

Told = Callable[[int, int, Tried], None]
Stop = Callable[[], bool]

_given: list[tuple[Base, Judge]] = []


def explore(
    points: Sequence[Point],
    base: Base,
    judge: Judge,
    *,
    workers: int | None = None,
    cluster: str | None = None,
    progress: Told | None = None,
    stop: Stop | None = None,
) -> tuple[Tried, ...]:
    """Every point worked out, in order of its number; when stopped, those that were done.

    judge: works a changed job file out. workers: processes on this machine, as many as it has cores
    when None; cluster: the address of a Dask scheduler to work on instead. progress: told how many are done, of how
    many, and the last. stop: asked several times a second; points under way when it says so are still finished.

    Raises ClusterError for a cluster that does not answer or has another version.
    """
    if cluster is not None:
        from fitwright.pricing.exploring.cluster import on_cluster

        found = on_cluster(points, base, judge, cluster, stop or _never)
    elif (workers or cores()) == 1 or len(points) == 1:
        found = _here(points, base, judge, stop or _never)
    else:
        found = _on_cores(points, base, judge, min(workers or cores(), len(points)), stop or _never)
    done: list[Tried] = []
    for one in found:
        done.append(one)
        if progress is not None:
            progress(len(done), len(points), one)
    return tuple(sorted(done, key=lambda one: one.point.number))


def cores() -> int:
    """Cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _never() -> bool:
    return False


def _here(points: Sequence[Point], base: Base, judge: Judge, stop: Stop) -> Iterator[Tried]:
    for point in points:
        if stop():
            return
        yield tried(point, base, judge)


def _on_cores(points: Sequence[Point], base: Base, judge: Judge, workers: int, stop: Stop) -> Iterator[Tried]:
    pool = ProcessPoolExecutor(workers, get_context("spawn"), _begin, (base, judge))
    try:
        waiting: dict[Future[Tried], Point] = {pool.submit(_work, point): point for point in points}
        while waiting:
            if stop():
                for future in list(waiting):
                    if future.cancel():
                        del waiting[future]
            done, _ = wait(waiting, LOOK_EVERY, FIRST_COMPLETED)
            for future in done:
                yield _result(future, waiting.pop(future))
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _result(future: Future[Tried], point: Point) -> Tried:
    try:
        return future.result()
    except BrokenExecutor:
        return Tried(point, None, DIED)


def _begin(base: Base, judge: Judge) -> None:
    """In a worker: keep what all points have in common; Ctrl-C is for the process that asks."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _given[:] = [(base, judge)]


def _work(point: Point) -> Tried:
    base, judge = _given[0]
    return tried(point, base, judge)
