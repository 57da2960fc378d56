"""Two plans of the same job at the same time."""

import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from pourwright.foundation.errors import ConflictError, UserError
from pourwright.runs import lock_file, only_one
from tests.runs.watching import ended

_HOLDER = """
import sys, time
from pathlib import Path
from pourwright.runs import only_one
with only_one(Path(sys.argv[1])):
    print("holds", flush=True)
    time.sleep(600)
"""


@pytest.fixture(autouse=True)
def own_caches(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))
    return tmp_path / "caches"


@pytest.fixture
def job(tmp_path: Path) -> Path:
    (tmp_path / "job").mkdir()
    return tmp_path / "job"


def holder(job: Path) -> subprocess.Popen[str]:
    process = subprocess.Popen([sys.executable, "-c", _HOLDER, str(job)], stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    assert process.stdout.readline() == "holds\n"
    return process


def test_the_second_is_told_who_and_since_when(job: Path) -> None:
    first = holder(job)
    with ended(first), pytest.raises(UserError) as refused, only_one(job):
        pass
    who, since = refused.value.what.rsplit(", since ", 1)
    assert who == f"planning goes on already in this folder (process {first.pid}"
    assert re.fullmatch(r"\d{4}-\d\d-\d\d \d\d:\d\d\)", since)
    assert refused.value.where == str(job)
    assert refused.value.todo


@pytest.mark.parametrize("stop", [signal.SIGKILL, signal.SIGTERM])
def test_the_lock_of_a_dead_process_is_no_obstacle(job: Path, stop: signal.Signals) -> None:
    first = holder(job)
    with ended(first):
        first.send_signal(stop)
        first.wait(60)
    with only_one(job):
        pass


def test_it_lets_go_at_the_end_of_the_block_and_when_that_fails(job: Path) -> None:
    with pytest.raises(ZeroDivisionError), only_one(job):
        raise ZeroDivisionError
    with only_one(job):
        pass


def test_it_is_the_folder_that_counts_not_how_it_is_written(
    job: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "link").symlink_to(job)
    monkeypatch.chdir(job)
    with only_one(job, "planning"):
        for other in (Path(), Path("../job"), tmp_path / "link"):
            with pytest.raises(UserError, match=f"process {os.getpid()}"), only_one(other):
                pass


def test_another_folder_is_free_and_nothing_lies_in_the_makers(job: Path, tmp_path: Path) -> None:
    with only_one(job), only_one(tmp_path):
        assert list(job.iterdir()) == []


def test_a_lock_that_tells_nothing_still_holds(job: Path) -> None:
    with only_one(job):
        lock_file(job).write_text("{")
        with pytest.raises(UserError, match="another process"), only_one(job):
            pass


def test_without_a_place_for_locks_one_works_without(job: Path, own_caches: Path) -> None:
    own_caches.write_text("in the way")
    with only_one(job):
        pass
    assert own_caches.read_text() == "in the way"


def test_the_second_is_told_where_the_first_is_found(job: Path) -> None:
    with only_one(job, "serving", "http://127.0.0.1:8420"):
        with pytest.raises(ConflictError) as refused, only_one(job, "serving", "http://127.0.0.1:1"):
            pass
        who = f"(process {os.getpid()}, since "
        assert refused.value.what.startswith(f"already open at http://127.0.0.1:8420 {who}")
        assert "http://127.0.0.1:8420" in refused.value.todo
