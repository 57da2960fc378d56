"""A study that was interrupted goes on where it stopped."""

import functools
import os
import signal
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest

from pourwright.foundation.errors import Cancelled, UserError
from pourwright.pour.store import NoStore
from pourwright.runs import Cache, Crew, run_study
from pourwright.runs.study import key_of
from tests.contracts.house import ROOT
from tests.runs import chores
from tests.runs.test_crew import Notes
from tests.runs.watching import ended, wait_until

ITEMS = list(range(12))
SQUARES = [number * number for number in ITEMS]


@pytest.fixture
def cache(tmp_path: Path) -> Cache:
    return Cache(tmp_path / "results")


@pytest.fixture
def marks(tmp_path: Path) -> Path:
    """Where each computation leaves its mark."""
    folder = tmp_path / "marks"
    folder.mkdir()
    return folder


def computed(folder: Path) -> list[int]:
    """Numbers that were computed, as often as they were."""
    return sorted(int(path.name.split("-")[0]) for path in folder.iterdir())


def kept(cache: Cache, work: functools.partial[int]) -> list[int]:
    return [number for number in ITEMS if cache.get(key_of(work, number)) is not None]


@pytest.mark.parametrize("processes", [0, 2])
def test_what_is_there_is_not_done_again(cache: Cache, marks: Path, processes: int) -> None:
    work = functools.partial(chores.marked_square, marks)
    with Crew(processes) as crew:
        assert run_study(work, ITEMS[:5], crew, cache) == SQUARES[:5]
        notes = Notes()
        assert run_study(work, ITEMS, crew, cache, progress=notes) == SQUARES
    assert computed(marks) == ITEMS
    assert notes.told[0][1:] == (5, 12)
    assert notes.told[-1][1:] == (12, 12)


def test_an_item_that_stands_there_twice_is_done_once(cache: Cache, marks: Path) -> None:
    work = functools.partial(chores.marked_square, marks)
    assert run_study(work, [3, 1, 3, 3], Crew(0), cache) == [9, 1, 9, 9]
    assert computed(marks) == [1, 3]


def test_an_answer_of_none_is_an_answer(cache: Cache, tmp_path: Path) -> None:
    work = functools.partial(chores.mark, tmp_path)
    for _ in range(2):
        assert run_study(work, [7], Crew(0), cache) == [None]
    assert len(list(tmp_path.glob("7-*"))) == 1


def test_without_a_store_all_is_done(marks: Path) -> None:
    work = functools.partial(chores.marked_square, marks)
    for _ in range(2):
        assert run_study(work, [2], Crew(0), NoStore()) == [4]
    assert computed(marks) == [2, 2]


@pytest.mark.parametrize("processes", [0, 2])
def test_cancelled_half_way_it_resumes(cache: Cache, marks: Path, processes: int) -> None:
    work = functools.partial(chores.marked_square, marks)
    with Crew(processes) as crew:
        with pytest.raises(Cancelled):
            run_study(work, ITEMS, crew, cache, progress=Notes(enough=lambda done: done >= 5))
        before = kept(cache, work)
        assert 4 <= len(before) < len(ITEMS)
        for path in marks.iterdir():
            path.unlink()
        assert run_study(work, ITEMS, crew, cache) == SQUARES
    assert computed(marks) == [number for number in ITEMS if number not in before]


def test_what_fails_leaves_what_was_done(cache: Cache) -> None:
    with pytest.raises(UserError):
        run_study(chores.refuse_odd, [0, 2, 4, 5, 6], Crew(0), cache)
    assert [cache.get(key_of(chores.refuse_odd, number)) for number in (0, 2, 4, 6)] == [
        (0,),
        (2,),
        (4,),
        None,
    ]


_STUDY = """
import functools, importlib, sys
from pathlib import Path
folder, root = Path(sys.argv[1]), sys.argv[2]
sys.path.insert(0, root)
from pourwright.runs import Cache, Crew, run_study
importlib.import_module("pourwright.runs.fingerprint").code_digest = lambda: "as it was"
from tests.runs import chores
with Crew(2) as crew:
    work = functools.partial(chores.gated_square, folder / "marks")
    run_study(work, range(12), crew, Cache(folder / "results"))
"""


def test_killed_half_way_it_resumes(
    tmp_path: Path, cache: Cache, marks: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # an edit of the sources between the two would rightly make everything new
    monkeypatch.setattr(import_module("pourwright.runs.fingerprint"), "code_digest", lambda: "as it was")
    work = functools.partial(chores.gated_square, marks)
    study = subprocess.Popen(
        [sys.executable, "-c", _STUDY, str(tmp_path), str(ROOT)], env=os.environ | {"NUMBA_NUM_THREADS": "1"}
    )
    with ended(study):
        # numbers from 5 on wait for a gate, so the first five are kept and two are under way
        wait_until(lambda: kept(cache, work) == ITEMS[:5] and len(computed(marks)) == 7)
        study.send_signal(signal.SIGKILL)
        assert study.wait(60) == -signal.SIGKILL
    for path in marks.iterdir():
        path.unlink()
    (marks / "999-gate").touch()
    with Crew(2) as crew:
        assert run_study(work, ITEMS, crew, cache) == SQUARES
    assert computed(marks) == [*ITEMS[5:], 999]


def test_another_function_or_bound_value_is_another_result() -> None:
    bound = [functools.partial(chores.bound, each) for each in (1, 2)]
    keys = {key_of(each, 3) for each in [chores.square, chores.chatter, abs, *bound]}
    assert len(keys) == 5
    assert key_of(functools.partial(chores.bound, 1), 3) == key_of(bound[0], 3)
