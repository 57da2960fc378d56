"""Every sheet of a plan, as content by path."""

from pourwright.sheets import plan_mark, sheet_files
from tests.sheets.sample_plan import sample_plan


def test_all_files_are_made() -> None:
    made = sheet_files(sample_plan())
    assert {"plan.pdf", "calendar.ics", "tables/pours.csv", "drawings/section.svg"} <= set(made)
    assert all(made.values())


def test_the_mark_says_what_is_planned_and_not_when_it_was_made() -> None:
    plan = sample_plan()
    later = plan.model_copy(update={"computed_for": "2026-11-21T09:00:00+01:00"})
    assert plan_mark(later) == plan_mark(plan)
    assert plan_mark(sample_plan(3)) != plan_mark(plan)


def test_same_plan_same_files() -> None:
    assert sheet_files(sample_plan()) == sheet_files(sample_plan())
