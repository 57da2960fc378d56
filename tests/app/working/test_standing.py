"""What is there of plan and mold, and whether it is of today's choices."""

import shutil
from pathlib import Path

import pytest

from pourwright.app.booking.places import book_place
from pourwright.app.job_texts import keep_text
from pourwright.app.learnt.used import used_by, with_learnt
from pourwright.app.working import tasks
from pourwright.app.working.kinds import KINDS
from pourwright.app.working.orders import PlanOptions, order_of
from pourwright.app.working.standing import plan_of, sheet_of
from pourwright.app.working.works import Works
from pourwright.foundation.progress import SILENT
from pourwright.jobs import load_job, load_plan
from pourwright.records import open_book, undo_learned
from tests.app.learning.keeping import keep
from tests.app.working.conftest import TINY
from tests.app.working.test_works import ended_run
from tests.app.working.work_chores import MADE

pytestmark = pytest.mark.xdist_group("a small job planned by a run")
NOTHING = {"document": None, "old": False, "word": "", "because": [], "made": None}


def rewritten(job: Path, old: str, new: str) -> None:
    text = job.read_text("utf8")
    assert old in text
    job.write_text(text.replace(old, new), "utf8")


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A job with its plan as a run makes it."""
    folder = tmp_path_factory.mktemp("planned")
    (folder / "one").mkdir()
    job = folder / "one" / "job.toml"
    job.write_text(TINY, "utf8")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("POURWRIGHT_CACHE", str(folder / "caches"))
        order = order_of(job, None, PlanOptions(quick=True))
        keep_text(order.text, order.digest)
        # in this process, where other tests have compiled what it needs
        assert tasks.plan(order, SILENT) == {"variants": ["main"]}
    return job


@pytest.fixture
def job_with_plan(planned: Path, tmp_path: Path, own_caches: Path) -> Path:
    shutil.copytree(planned.parent, tmp_path / "one")
    shutil.copytree(planned.parents[1] / "caches", own_caches, dirs_exist_ok=True)
    return tmp_path / "one" / "job.toml"


def test_where_nothing_is_there_is_nothing(job: Path, works: Works) -> None:
    assert plan_of(job) == NOTHING
    assert sheet_of(works, job, "mold") == NOTHING


def test_a_plan_is_of_today_until_a_choice_differs_and_again_after_it_is_undone(job_with_plan: Path) -> None:
    standing = plan_of(job_with_plan)
    assert standing["document"]["job"]["title"] == "Paperweight"
    assert (standing["old"], standing["because"]) == (False, [])
    assert standing["made"] == standing["document"]["computed_for"]
    rewritten(job_with_plan, "22 degC", "19 degC")
    standing = plan_of(job_with_plan)
    assert standing["old"] is True
    assert standing["because"] == ["shop.temperature was 22 degC, is now 19 degC"]
    rewritten(job_with_plan, "19 degC", "22 degC")
    assert plan_of(job_with_plan)["old"] is False
    rewritten(job_with_plan, "[shop]", "# where it is poured\n[shop]")
    assert plan_of(job_with_plan)["old"] is False


def test_a_job_file_with_an_error_keeps_its_plan_and_says_so(job_with_plan: Path) -> None:
    rewritten(job_with_plan, "22 degC", "22")
    standing = plan_of(job_with_plan)
    assert standing["document"] is not None
    assert standing["old"] is True
    assert standing["because"][0].startswith("the job file has an error now: job.toml:11 shop")


def test_newer_records_of_the_shop_make_a_plan_old(job_with_plan: Path) -> None:
    materials = job_with_plan.parents[1] / "materials"
    materials.mkdir()
    (materials / "glass.toml").write_text("", "utf8")
    assert plan_of(job_with_plan)["because"] == ["the shop's glass.toml was changed after it"]


def test_what_is_learnt_anew_makes_a_plan_old_and_is_named(job_with_plan: Path) -> None:
    number = keep(job_with_plan, "bucket_loss", "pail", 0.05, 6)
    standing = plan_of(job_with_plan)
    assert (standing["old"], standing["word"]) == (True, "your shop has learnt anew")
    assert standing["because"] == [
        "your pail was learnt since: pail keeps 5 % of what is mixed, from 6 pours"
    ]
    # what this job is not made with changes nothing
    with open_book(book_place(job_with_plan.parent)) as book:
        undo_learned(book, number)
    keep(job_with_plan, "void_fraction", "nowhere", 0.4, 6)
    assert plan_of(job_with_plan)["old"] is False


def test_a_plan_made_with_what_was_learnt_is_of_today_until_that_changes(job_with_plan: Path) -> None:
    plan, first = (
        job_with_plan.parent / "plan" / "plan.json",
        keep(job_with_plan, "bucket_loss", "pail", 0.05, 6),
    )
    made = with_learnt(load_plan(plan), load_job(job_with_plan), used_by(load_job(job_with_plan)))
    (told,) = made.learnt
    assert told.words.startswith("Your pail keeps 5 % of what is mixed")
    assert "from 6 pours" in told.words
    assert {"learnt.bucket_loss.pail"} <= {reason.key for reason in made.reasons}
    (line,) = [one for one in made.sources if one.id == "shop-records"]
    assert line.used_for.endswith("pail keeps 5 % of what is mixed, 6 pours")
    plan.write_text(made.model_dump_json(by_alias=True), "utf8")
    assert plan_of(job_with_plan)["old"] is False
    # one more record of the same value is no reason to plan again, another value is
    keep(job_with_plan, "bucket_loss", "pail", 0.05, 7)
    assert plan_of(job_with_plan)["old"] is False
    again = keep(job_with_plan, "bucket_loss", "pail", 0.06, 8)
    (because,) = plan_of(job_with_plan)["because"]
    assert because.startswith("your pail was learnt anew: pail keeps 6 %")
    assert because.endswith("it was made with 5 %")
    with open_book(book_place(job_with_plan.parent)) as book:
        for number in (again, again - 1, first):
            undo_learned(book, number)
    assert plan_of(job_with_plan)["because"] == ["what was learnt of your pail was taken back"]


def test_a_sheet_is_old_when_what_it_was_made_with_was_learnt_anew(job: Path, works: Works) -> None:
    assert ended_run(works, job, works.begin(job, "mold")).state == "done"
    assert sheet_of(works, job, "mold")["old"] is False
    keep(job, "bucket_loss", "pail", 0.05, 6)
    standing = sheet_of(works, job, "mold")
    assert (standing["old"], standing["word"]) == (True, "your shop has learnt anew")


def test_hours_make_a_plan_old_and_no_mold(job_with_plan: Path, works: Works) -> None:
    assert ended_run(works, job_with_plan, works.begin(job_with_plan, "mold")).state == "done"
    keep(job_with_plan, "hours", "getting ready", 1.4, prior=1.0)
    assert sheet_of(works, job_with_plan, "mold")["old"] is False
    (because,) = plan_of(job_with_plan)["because"]
    assert because == (
        "your time for getting ready was learnt since: getting ready takes 140 % of the usual time, "
        "from 6 pours"
    )


def test_a_plan_whose_job_file_nobody_kept_is_old_without_details(
    job_with_plan: Path, own_caches: Path
) -> None:
    shutil.rmtree(own_caches)
    rewritten(job_with_plan, "22 degC", "19 degC")
    assert plan_of(job_with_plan)["because"] == ["the job file was changed after it"]


def test_an_older_sheet_stays_until_there_is_another_and_comes_back_with_an_undo(
    job: Path, works: Works
) -> None:
    assert ended_run(works, job, works.begin(job, "mold")).state == "done"
    assert sheet_of(works, job, "mold")["old"] is False
    rewritten(job, "40 mm", "50 mm")
    standing = sheet_of(works, job, "mold")
    assert (standing["old"], standing["made"]) == (True, MADE)
    assert standing["because"] == ["shape.box was 60 mm, 60 mm, 40 mm, is now 60 mm, 60 mm, 50 mm"]
    # also for the next server
    assert sheet_of(Works(), job, "mold") == standing
    rewritten(job, "50 mm", "40 mm")
    assert sheet_of(works, job, "mold")["old"] is False
    assert sheet_of(works, job, "fill") == NOTHING


def test_the_kinds_of_work_are_those_the_page_offers() -> None:
    assert {"plan", "mold", "fill"} <= set(KINDS)
    assert all(kind.what == name for name, kind in KINDS.items())
