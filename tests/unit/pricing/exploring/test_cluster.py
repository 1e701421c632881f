"""The same results on a Dask cluster of two workers, each a process of its own."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count
from typing import Any

import pytest

from fitwright.pricing.exploring import Base, explore, grid, read_vary
from fitwright.pricing.exploring.cluster import ClusterError, version
from fitwright.units import Style
from tests.stand import SHOP, TEXT, quick_judge

distributed = pytest.importorskip("dask.distributed", reason="dask is not installed: pip install 'fitwright[cluster]'")
BASE = Base(TEXT, SHOP)
POINTS = grid([read_vary("width=400..500:5", TEXT, Style.metric()), read_vary("rails=1|2", TEXT, Style.metric())])


@pytest.fixture(scope="module")
def cluster() -> Iterator[Any]:
    """A scheduler with two workers on this machine."""
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, host="127.0.0.1"
    ) as made:
        yield made


def test_a_cluster_finds_what_one_process_finds(cluster: Any) -> None:
    told: list[int] = []
    found = explore(
        POINTS, BASE, quick_judge, cluster=cluster.scheduler_address, progress=lambda done, *_: told.append(done)
    )  # fmt: skip
    assert found == explore(POINTS, BASE, quick_judge, workers=1)
    assert told == list(range(1, len(POINTS) + 1))


def test_stopped_it_keeps_what_is_done(cluster: Any) -> None:
    looks = count()
    found = explore(
        POINTS, BASE, quick_judge, cluster=cluster.scheduler_address, stop=lambda: next(looks) >= 1
    )  # fmt: skip
    assert len(found) <= len(POINTS)
    assert set(found) <= set(explore(POINTS, BASE, quick_judge, workers=1))


def test_workers_of_another_version_are_refused(cluster: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("fitwright.pricing.exploring.cluster.__version__", "0.0.0")
    with pytest.raises(ClusterError, match=r"this is 0\.0\.0"):
        explore(POINTS, BASE, quick_judge, cluster=cluster.scheduler_address)


def test_where_nobody_answers_it_says_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("fitwright.pricing.exploring.cluster.ANSWERS_WITHIN", "1s")
    with pytest.raises(ClusterError, match="dask scheduler"):
        explore(POINTS, BASE, quick_judge, cluster="tcp://127.0.0.1:1")


def test_its_version() -> None:
    assert version().count(".") >= 1
