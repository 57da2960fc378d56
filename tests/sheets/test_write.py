"""Every sheet of a plan, as content by path."""

import re
from io import BytesIO

from pypdf import PdfReader

from pourwright.sheets import plan_mark, sheet_files
from pourwright.sheets.document import plan_pdf
from pourwright.sheets.pages.tickets import ticket_pages
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


def test_a_ticket_names_the_computer_whose_bench_a_phone_opens_and_nothing_that_opens_it() -> None:
    plan = sample_plan(2)
    (rubber, *pours) = ticket_pages(plan, "bench-laptop.local")
    assert [one["bench"] for one in pours] == [
        f"On a paired phone: bench of bench-laptop.local, pour {number}." for number in (1, 2)
    ]
    assert "bench" not in rubber
    assert all(one["bench"] == "" for one in ticket_pages(plan)[1:])
    pages = PdfReader(BytesIO(plan_pdf(plan, host="bench-laptop.local"))).pages
    text = " ".join(page.extract_text() for page in pages)
    assert text.count("bench of bench-laptop.local") == 2
    assert not re.search(r"https?://|code=|token", text)
    assert len(pages) == len(PdfReader(BytesIO(plan_pdf(plan))).pages)
