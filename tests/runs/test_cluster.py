"""The same work over a Dask cluster as in this process; clear words where there is none."""

import functools
import os
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import ModuleType
from typing import Any

import numpy as np
import pytest

from pourwright.foundation.errors import Cancelled, UserError
from pourwright.pour.store import in_turn
from pourwright.runs import Cache, Cluster, run_study
from tests.contracts.house import ROOT
from tests.runs import chores, heat_chores
from tests.runs.test_crew import Notes

pytestmark = pytest.mark.xdist_group("cluster")
TEN = list(range(10))


_CLUSTER = """
import sys
sys.path.insert(0, sys.argv[1])
from distributed import LocalCluster
local = LocalCluster(
    n_workers=1, threads_per_worker=2, processes=False,
    protocol="tcp://", host="127.0.0.1", dashboard_address=":0",
)
print(local.scheduler_address, flush=True)
sys.stdin.read()
"""


@contextmanager
def started_cluster() -> Iterator[tuple[subprocess.Popen[str], str]]:
    """Scheduler and a worker of two threads in one process, and their address."""
    process = subprocess.Popen(
        [sys.executable, "-c", _CLUSTER, str(ROOT)],
        env=os.environ | {"NUMBA_NUM_THREADS": "1"},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    try:
        yield process, process.stdout.readline().strip()
    finally:
        process.kill()
        process.communicate()


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    with started_cluster() as (_, where):
        yield where


@pytest.fixture(scope="module")
def cluster(address: str) -> Iterator[Cluster]:
    with Cluster(address) as connected:
        yield connected


def test_results_are_in_order_and_the_same(cluster: Cluster) -> None:
    notes = Notes()
    assert cluster.map(chores.square, TEN, progress=notes, stage="squares") == [one * one for one in TEN]
    assert notes.told[0] == ("squares", 0, 10)
    assert notes.told[-1] == ("squares", 10, 10)


def test_a_heat_run_is_the_same_bit_for_bit(cluster: Cluster) -> None:
    peak = functools.partial(heat_chores.peak, cluster.share(heat_chores.site()))
    assert cluster.map(peak, [0.0, 5.0, -3.0]) == in_turn(peak, [0.0, 5.0, -3.0])


def test_what_is_shared_comes_back_as_itself(cluster: Cluster) -> None:
    ballast = cluster.share(chores.Ballast(np.arange(50_000.0)))
    results = cluster.map(chores.weigh, [chores.Load(ballast, float(factor)) for factor in range(4)])
    assert [weight for weight, *_ in results] == [factor * ballast.numbers.sum() for factor in range(4)]
    assert all(one is ballast for _, one, _ in results)


def test_the_first_item_that_fails_is_told(cluster: Cluster) -> None:
    with pytest.raises(UserError, match="5 is odd") as refused:
        cluster.map(chores.refuse_odd, [0, 2, 4, 5, 6, 7, 9])
    assert refused.value.__notes__[0].startswith("at item 4 of 7")


def test_it_can_be_cancelled(cluster: Cluster) -> None:
    with pytest.raises(Cancelled):
        cluster.map(chores.square, TEN, progress=Notes(enough=lambda done: done >= 3))
    assert cluster.map(chores.square, TEN[:2]) == [0, 1]


def test_a_study_goes_on_there(cluster: Cluster, tmp_path: Path) -> None:
    work, cache = functools.partial(chores.marked_square, tmp_path), Cache(tmp_path / "results")
    assert run_study(work, TEN[:4], cluster, cache) == [0, 1, 4, 9]
    assert run_study(work, TEN, cluster, cache) == [one * one for one in TEN]
    assert len(list(tmp_path.glob("*-*"))) == len(TEN)


@pytest.mark.parametrize(
    "address", ["", "nowhere", "odd://here:1", "tcp://here", "tcp://here:port", "a b:8786"]
)
def test_what_is_no_address_is_told(address: str) -> None:
    with pytest.raises(UserError, match="no address of a cluster") as refused, Cluster(address):
        pass
    assert "tcp://192.168.1.20:8786" in refused.value.allowed


@pytest.mark.parametrize(
    "address",
    ["tcp://127.0.0.1:1", "127.0.0.1:1", "[::1]:1", "tcp://127.0.0.1:99999", "no.such.host.invalid:8786"],
)
def test_an_address_where_nobody_answers_is_told(address: str) -> None:
    with pytest.raises(UserError, match="no cluster answers") as refused, Cluster(address):
        pass
    assert refused.value.where == address
    assert refused.value.todo


def test_somebody_else_at_that_address_is_told() -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        address = f"127.0.0.1:{other.getsockname()[1]}"
        with pytest.raises(UserError, match="no cluster answers"), Cluster(address, within=0.5):
            pass


def test_a_missing_extra_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    with pytest.raises(UserError, match=r"pip install 'pourwright\[cluster\]'"), Cluster("tcp://127.0.0.1:1"):
        pass


class Elsewhere:
    """A client whose workers answer as told."""

    status = "running"

    def __init__(self, answer: Any) -> None:
        self._answer = answer

    def run(self, _function: Any) -> Any:
        if isinstance(self._answer, Exception):
            raise self._answer
        return self._answer

    def close(self, timeout: float) -> None:
        self.status = f"closed within {timeout}"


@pytest.mark.parametrize(
    ("answer", "words"),
    [
        ({}, "no worker is there"),
        ({"tcp://a": "0" * 64}, "tcp://a have another pourwright"),
        (ModuleNotFoundError("No module named 'pourwright'"), "cannot load pourwright"),
    ],
)
def test_workers_that_cannot_do_it_are_told(monkeypatch: pytest.MonkeyPatch, answer: Any, words: str) -> None:
    import distributed

    client = Elsewhere(answer)
    monkeypatch.setattr(distributed, "Client", lambda *_, **__: client)
    with socket.create_server(("127.0.0.1", 0)) as other:
        address = f"127.0.0.1:{other.getsockname()[1]}"
        with pytest.raises(UserError, match=words) as refused, Cluster(address):
            pass
    assert refused.value.todo
    assert client.status.startswith("closed")


def test_a_cluster_that_is_lost_in_the_middle_is_told(tmp_path: Path) -> None:
    with started_cluster() as (process, address), Cluster(address) as cluster:
        done = cluster.map_as_done(functools.partial(chores.gated_square, tmp_path), TEN)
        # numbers from 5 on wait for a gate that never comes
        assert sorted(next(done) for _ in range(5)) == [(one, one * one) for one in range(5)]
        process.kill()
        with pytest.raises(UserError, match="lost") as refused:
            list(done)
    assert refused.value.todo


def test_the_room_does_not_load_it_before_it_is_asked_for() -> None:
    code = "import sys, pourwright.runs; sys.exit('distributed' in sys.modules or 'numba' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
    assert isinstance(sys.modules["pourwright.runs"], ModuleType)
