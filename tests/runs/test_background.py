"""One long thing behind the page: what comes back of it, and that nothing lives on, however it ends."""

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from pourwright.foundation.errors import Cancelled, UserError
from pourwright.runs import Background
from tests.contracts.house import ROOT
from tests.runs import chores, long_chores
from tests.runs.watching import ended, gone, ids_in, wait_until

PROMISED = 2.0
"""A cancelled run is gone after so long [s]."""


class Notes:
    def __init__(self) -> None:
        self.told: list[tuple[str, float, float]] = []

    def step(self, stage: str, done: float, total: float) -> None:
        self.told.append((stage, done, total))


def test_the_answer_comes_back_with_the_steps_before_it() -> None:
    notes, outcomes = Notes(), []
    run = Background(long_chores.told_twice, 7, progress=notes, ended=outcomes.append)
    assert run.wait(60).answer == 49
    assert run.wait().error is None
    assert notes.told == [("first", 0, 2), ("second", 1, 2)]
    assert [outcome.answer for outcome in outcomes] == [49]


def test_it_runs_in_a_group_of_its_own_behind_everything_else() -> None:
    process, group, niceness, threads = Background(long_chores.self_known, 1).wait(60).answer
    assert process == group
    assert process != os.getpid()
    assert (niceness, threads) == (10, "1")


def test_workers_belong_to_the_group_of_their_run() -> None:
    run = Background(long_chores.crew_known, 1)
    known = run.wait(60).answer
    assert {group for _, group, _, _ in known} == {run.process_id}
    assert run.process_id not in {process for process, *_ in known}
    assert {(threads, niceness) for _, _, threads, niceness in known} == {("1", 10)}


def test_what_it_raises_comes_back_as_itself() -> None:
    outcome = Background(chores.refuse_odd, 3).wait(60)
    assert isinstance(outcome.error, UserError)
    assert str(outcome.error) == "item: 3 is odd; allowed: even numbers; do: double it"
    assert "refuse_odd" in outcome.error.__notes__[0]


@pytest.mark.parametrize(("chore", "words"), [(chores.leave, "status 7"), (chores.die, "memory")])
def test_one_that_dies_says_so_and_what_to_do(chore: Callable[[int], int], words: str) -> None:
    error = Background(chore, 2).wait(60).error
    assert isinstance(error, UserError)
    assert words in error.what
    assert "begin again" in error.todo


def test_a_worker_that_dies_is_told_and_the_others_end(tmp_path: Path) -> None:
    error = Background(long_chores.crew_dies, tmp_path).wait(60).error
    assert isinstance(error, UserError)
    assert "memory" in error.what


def test_a_function_that_no_other_process_could_import_is_refused() -> None:
    with pytest.raises(TypeError, match="top of a module"):
        Background(lambda: 1)


@pytest.mark.parametrize(
    ("chore", "processes"),
    [(long_chores.busy, 1), (long_chores.deaf, 1), (long_chores.crew_stuck, 5), (long_chores.apart_stuck, 4)],
)
def test_cancelling_ends_all_of_it_within_two_seconds(
    chore: Callable[[Path], None], processes: int, tmp_path: Path
) -> None:
    run = Background(chore, tmp_path)
    wait_until(lambda: len(ids_in(tmp_path)) == processes)
    those = ids_in(tmp_path)
    assert not gone(those)
    begun = time.monotonic()
    assert isinstance(run.cancel().error, Cancelled)
    assert gone(those)
    assert time.monotonic() - begun < PROMISED


def test_cancelling_at_once_and_twice() -> None:
    run = Background(time.sleep, 600)
    assert isinstance(run.cancel().error, Cancelled)
    assert isinstance(run.cancel().error, Cancelled)
    assert run.process_id is None or gone([run.process_id])


def test_cancelling_what_is_done_keeps_the_answer() -> None:
    run = Background(chores.square, 3)
    run.wait(60)
    assert run.cancel().answer == 9


def test_it_outlives_the_thread_that_asked_for_it() -> None:
    made: list[Background] = []
    asking = threading.Thread(target=lambda: made.append(Background(time.sleep, 600)))
    asking.start()
    asking.join()
    wait_until(lambda: made[0].process_id is not None)
    with pytest.raises(TimeoutError):
        made[0].wait(0.3)
    made[0].cancel()


_PARENT = """
import sys, time
from pathlib import Path
sys.path.insert(0, sys.argv[2])
from pourwright.runs import Background
from tests.runs import long_chores
run = Background(getattr(long_chores, sys.argv[3]), Path(sys.argv[1]))
time.sleep(600)
"""


@pytest.mark.parametrize(
    ("chore", "processes"), [("deaf", 1), ("crew_stuck", 3), ("apart_stuck", 4), ("busy", 1)]
)
def test_it_ends_by_itself_where_the_process_behind_it_is_killed(
    chore: str, processes: int, tmp_path: Path
) -> None:
    parent = subprocess.Popen(
        [sys.executable, "-c", _PARENT, str(tmp_path), str(ROOT), chore],
        env=os.environ | {"NUMBA_NUM_THREADS": "1"},
    )
    with ended(parent):
        wait_until(lambda: len(ids_in(tmp_path)) >= processes)
        parent.send_signal(signal.SIGKILL)
        parent.wait(60)
    wait_until(lambda: gone(ids_in(tmp_path)))
