"""Long work of a server: one for each job, one heavy at a time; cancelled, failed, interrupted."""

import hashlib
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from pourwright.app.working.state import RunState
from pourwright.app.working.works import Works
from pourwright.foundation.errors import ConflictError, NotThereError, UserError
from tests.app.working.conftest import TINY
from tests.app.working.work_chores import KINDS
from tests.contracts.house import ROOT
from tests.runs.watching import ended, gone, ids_in, wait_until

PROMISED = 2.0
"""A cancelled run is gone after so long [s]."""


def ended_run(works: Works, job: Path, run: RunState) -> RunState:
    wait_until(lambda: not works.run(job.parent, run.id).live)
    return works.run(job.parent, run.id)


def sits(works: Works, job: Path, folder: Path, what: str = "slow") -> RunState:
    run = works.begin(job, what, options={"folder": str(folder)})
    wait_until((folder / f"{job.parent.name}.ids").exists)
    return run


def test_a_run_is_told_from_its_asking_to_its_answer(works: Works, job: Path) -> None:
    asked = works.begin(job, "quick")
    assert (asked.state, asked.what, asked.words) == ("running", "quick", "a quick look")
    assert asked.job_sha256 == hashlib.sha256(TINY.encode()).hexdigest()
    done = ended_run(works, job, asked)
    assert (done.state, done.done, done.total) == ("done", 1, 2)
    assert done.answer == {"digest": asked.job_sha256, "title": "Paperweight"}
    assert done.begun is not None
    assert done.ended is not None
    assert done.asked <= done.begun <= done.ended
    assert [one.id for one in works.runs(job.parent)] == [asked.id]


def test_the_work_is_done_for_the_job_as_it_was_when_it_was_asked_for(works: Works, job: Path) -> None:
    run = works.begin(job, "quick")
    job.write_text(TINY.replace("Paperweight", "Doorstop"), "utf8")
    done = ended_run(works, job, run)
    assert done.answer == {"digest": hashlib.sha256(TINY.encode()).hexdigest(), "title": "Paperweight"}


def test_a_second_run_of_a_job_is_refused_and_names_the_first(
    works: Works, job: Path, tmp_path: Path
) -> None:
    first = sits(works, job, tmp_path)
    with pytest.raises(ConflictError) as refused:
        works.begin(job, "mold")
    assert "sitting there for ever goes on already" in refused.value.what
    assert first.id in refused.value.where
    works.cancel(job.parent, first.id)
    assert ended_run(works, job, works.begin(job, "quick")).state == "done"


def test_light_work_goes_on_beside_heavy_work_of_the_same_job(
    works: Works, job: Path, tmp_path: Path
) -> None:
    heavy = sits(works, job, tmp_path)
    assert ended_run(works, job, works.begin(job, "quick")).state == "done"
    assert works.run(job.parent, heavy.id).live
    works.cancel(job.parent, heavy.id)


def test_heavy_work_of_another_job_waits_in_line_and_says_for_what(
    works: Works, job: Path, other: Path, tmp_path: Path
) -> None:
    first = works.begin(job, "gated", options={"folder": str(tmp_path)})
    second = works.begin(other, "gated", options={"folder": str(tmp_path)})
    assert second.state == "waiting"
    assert second.stage == "waiting in line: waiting at the gate of one goes on"
    (tmp_path / "gate").touch()
    assert ended_run(works, job, first).state == "done"
    assert ended_run(works, other, second).state == "done"


def test_light_work_of_another_job_does_not_wait(
    works: Works, job: Path, other: Path, tmp_path: Path
) -> None:
    first = sits(works, job, tmp_path)
    assert ended_run(works, other, works.begin(other, "quick")).state == "done"
    assert works.run(job.parent, first.id).state == "running"


def test_what_waits_can_be_cancelled_and_the_next_moves_up(
    works: Works, job: Path, other: Path, tmp_path: Path
) -> None:
    first = sits(works, job, tmp_path)
    second = works.begin(other, "slow", options={"folder": str(tmp_path)})
    assert works.cancel(other.parent, second.id).state == "cancelled"
    third = works.begin(other, "slow", options={"folder": str(tmp_path)})
    assert third.state == "waiting"
    works.cancel(job.parent, first.id)
    wait_until(lambda: works.run(other.parent, third.id).state == "running")


def test_cancel_leaves_no_process_after_two_seconds(works: Works, job: Path, tmp_path: Path) -> None:
    run = sits(works, job, tmp_path)
    assert not gone(ids_in(tmp_path))
    begun = time.monotonic()
    cancelled = works.cancel(job.parent, run.id)
    assert time.monotonic() - begun < PROMISED
    assert gone(ids_in(tmp_path))
    assert (cancelled.state, cancelled.error) == ("cancelled", None)
    assert works.cancel(job.parent, run.id).state == "cancelled"


def test_a_plan_is_whole_again_after_a_cancel_in_the_midst_of_writing(
    works: Works, job: Path, tmp_path: Path
) -> None:
    (job.parent / "plan").mkdir()
    (job.parent / "plan" / "plan.json").write_text("old")
    run = sits(works, job, tmp_path, "half")
    assert not (job.parent / "plan").exists()
    works.cancel(job.parent, run.id)
    assert (job.parent / "plan" / "plan.json").read_text() == "old"
    left = [one.name for one in job.parent.iterdir() if one.name.startswith(".plan.")]
    assert left == []


def test_a_failure_is_told_in_the_one_shape_with_its_reasons(works: Works, job: Path) -> None:
    failed = ended_run(works, job, works.begin(job, "refuse"))
    assert failed.state == "failed"
    assert failed.error is not None
    assert failed.error.model_dump() == {
        "what": "it runs hotter than allowed",
        "where": "limits.peak",
        "allowed": "60 degC",
        "todo": "pour less",
    }
    assert failed.reasons == ["limits.peak: it runs hotter than allowed; allowed: 60 degC; do: pour less"]


@pytest.mark.parametrize(
    ("line", "words"), [("nonsense", "cannot be read"), ("nonsense = 1", "unknown key 'nonsense'")]
)
def test_a_change_to_look_at_that_a_job_cannot_have_is_refused_at_once(
    job: Path, line: str, words: str
) -> None:
    with pytest.raises(UserError) as refused:
        Works().begin(job, "plan", options={"what_if": ['shop.temperature = "20 degC"', line]})
    assert refused.value.where == "what if, line 2"
    assert words in refused.value.what


def test_nothing_is_begun_that_cannot_be(works: Works, job: Path) -> None:
    with pytest.raises(UserError, match="no long work is called 'dance'; allowed: quick, mold"):
        works.begin(job, "dance")
    with pytest.raises(UserError, match="no variant called 'none'"):
        works.begin(job, "quick", "none")
    with pytest.raises(UserError, match="options"):
        works.begin(job, "quick", options={"haste": True})
    job.write_text(TINY.replace("22 degC", "22"), "utf8")
    with pytest.raises(UserError, match="temperature"):
        works.begin(job, "quick")
    assert works.runs(job.parent) == []
    with pytest.raises(NotThereError):
        works.cancel(job.parent, "0")


_SERVER = """
import sys, time
from pathlib import Path
sys.path.insert(0, sys.argv[3])
from pourwright.app.working.works import Works
from tests.app.working.work_chores import KINDS
run = Works(KINDS).begin(Path(sys.argv[1]), "half", options={"folder": sys.argv[2]})
print(run.id, flush=True)
time.sleep(600)
"""


def test_after_a_crash_what_went_on_is_told_as_interrupted_and_the_old_plan_is_back(
    job: Path, tmp_path: Path
) -> None:
    (job.parent / "plan").mkdir()
    (job.parent / "plan" / "plan.json").write_text("old")
    server = subprocess.Popen(
        [sys.executable, "-c", _SERVER, str(job), str(tmp_path), str(ROOT)],
        stdout=subprocess.PIPE,
        text=True,
        env=os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)},
    )
    with ended(server):
        wait_until((tmp_path / "one.ids").exists)
        server.send_signal(signal.SIGKILL)
        assert server.stdout is not None
        name = server.stdout.readline().strip()
    wait_until(lambda: gone(ids_in(tmp_path)))
    works = Works(KINDS)
    run = works.run(job.parent, name)
    assert run.state == "interrupted"
    assert run.error is not None
    assert "begin again" in run.error.todo
    assert (job.parent / "plan" / "plan.json").read_text() == "old"
    assert ended_run(works, job, works.begin(job, "quick")).state == "done"


def test_a_server_that_is_stopped_ends_its_work_and_the_next_tells_so(job: Path, tmp_path: Path) -> None:
    first = Works(KINDS)
    run = sits(first, job, tmp_path)
    first.close()
    assert gone(ids_in(tmp_path))
    assert Works(KINDS).run(job.parent, run.id).state == "interrupted"
