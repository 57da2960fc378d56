"""The paper of a job: pages counted and shown as they are printed, files by their names only."""

import io
import struct
from pathlib import Path

import pytest
from pypdf import PdfReader

from pourwright.app.filling.filling import fill_job
from pourwright.app.papering.pages import page_count, page_png
from pourwright.app.papering.paper import papers_of
from pourwright.app.papering.plan_files import file_of_plan, files_of_plan
from pourwright.app.plan_folder import write_plan
from pourwright.foundation.errors import UserError
from pourwright.sheets import plan_pdf
from tests.sheets.sample_plan import sample_plan

A4_INCHES, LETTER_INCHES = (210 / 25.4, 297 / 25.4), (8.5, 11.0)


def png_size(picture: bytes) -> tuple[int, int]:
    assert picture.startswith(b"\x89PNG\r\n\x1a\n")
    return struct.unpack(">II", picture[16:24])


@pytest.fixture(autouse=True)
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "cache"))


@pytest.fixture
def planned(small: Path) -> Path:
    write_plan(sample_plan(), small.parent / "plan")
    return small


def test_pages_are_counted_as_a_reader_of_pdf_counts_them() -> None:
    for plan in (sample_plan(), sample_plan(1)):
        pdf = plan_pdf(plan)
        assert page_count(pdf) == len(PdfReader(io.BytesIO(pdf)).pages)


@pytest.mark.parametrize(("units", "inches"), [("metric", A4_INCHES), ("us", LETTER_INCHES)])
def test_a_picture_has_the_proportions_of_its_paper(units: str, inches: tuple[float, float]) -> None:
    pdf = plan_pdf(sample_plan(1, units=units, paper="letter" if units == "us" else "A4"))
    for size, per_inch in (("small", 48), ("large", 150)):
        wide, high = png_size(page_png(pdf, 2, size))
        assert (wide, high) == pytest.approx([side * per_inch for side in inches], abs=1.0)


def test_pages_differ_and_one_page_is_always_the_same() -> None:
    pdf = plan_pdf(sample_plan(1))
    assert page_png(pdf, 1, "small") != page_png(pdf, 2, "small")
    assert page_png(pdf, 1, "small") == page_png(bytes(pdf), 1, "small")


@pytest.mark.parametrize("page", [0, -1, 99])
def test_a_page_that_is_not_there_is_refused(page: int) -> None:
    with pytest.raises(UserError, match="1 to"):
        page_png(plan_pdf(sample_plan(1)), page)


def test_what_is_no_pdf_is_refused() -> None:
    with pytest.raises(UserError, match="no PDF"):
        page_count(b"/Type/Pages/Count 3")


def test_a_job_without_a_plan_has_fill_and_mold_to_be_made(small: Path) -> None:
    papers = papers_of(small)
    assert [(sheet.name, sheet.can_make) for sheet in papers.sheets()] == [
        ("mold", True),
        ("cut", True),
        ("fill", True),
    ]
    for ask in (lambda: papers.pdf("plan"), papers.calendar):
        with pytest.raises(UserError, match="no plan yet"):
            ask()


def test_the_fill_is_made_when_asked_for_and_kept(small: Path) -> None:
    pdf = papers_of(small).pdf("fill")
    assert len(PdfReader(io.BytesIO(pdf)).pages) >= 1
    (fill,) = [sheet for sheet in papers_of(small).sheets() if sheet.name == "fill"]
    assert (fill.pages, fill.old) == (len(PdfReader(io.BytesIO(pdf)).pages), False)
    text = small.read_text("utf8")
    small.write_text(text.replace('to = "30 mm"', 'to = "20 mm"'), "utf8")
    (fill,) = [sheet for sheet in papers_of(small).sheets() if sheet.name == "fill"]
    assert fill.pages == 0


def test_a_fill_written_by_command_is_shown_and_grows_old(small: Path) -> None:
    fill_job(small, out=small.parent / "fill")
    (fill,) = [sheet for sheet in papers_of(small).sheets() if sheet.name == "fill"]
    assert (fill.pages > 0, fill.old, fill.paper) == (True, False, "A4")
    assert papers_of(small).pdf("fill") == (small.parent / "fill" / "fill.pdf").read_bytes()
    small.write_text(small.read_text("utf8") + "# another day\n", "utf8")
    (fill,) = [sheet for sheet in papers_of(small).sheets() if sheet.name == "fill"]
    assert fill.old


def test_a_plan_of_other_choices_is_old(planned: Path) -> None:
    (plan,) = [sheet for sheet in papers_of(planned).sheets() if sheet.name == "plan"]
    # the invented plan was not made from this job
    assert plan.old
    assert plan.pages == len(PdfReader(planned.parent / "plan" / "plan.pdf").pages)
    assert papers_of(planned).calendar() == (planned.parent / "plan" / "calendar.ics").read_bytes()


def test_all_files_of_a_plan_are_listed_with_their_kinds(planned: Path) -> None:
    folder = planned.parent / "plan"
    names = {file.name: file for file in files_of_plan(folder)}
    on_disk = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    assert set(names) == on_disk
    assert names["tables/pours.csv"].kind.startswith("text/csv")
    assert all(file.size == (folder / file.name).stat().st_size for file in names.values())
    assert all(file.words for file in names.values())


@pytest.mark.parametrize(
    "name", ["../job.toml", "/etc/passwd", "tables/../../job.toml", "", ".", "tables", "PLAN.PDF"]
)
def test_only_listed_names_reach_the_disk(planned: Path, name: str) -> None:
    with pytest.raises(UserError, match="no such file"):
        file_of_plan(planned.parent / "plan", name)


def test_links_and_hidden_files_are_not_listed(planned: Path) -> None:
    folder = planned.parent / "plan"
    (folder / ".secret").write_text("x", "utf8")
    (folder / "link.toml").symlink_to(planned)
    (folder / "outside").symlink_to(planned.parent)
    names = [file.name for file in files_of_plan(folder)]
    assert not [name for name in names if "secret" in name or "link" in name or "outside" in name]


def test_each_variant_has_its_own_paper(small: Path) -> None:
    small.write_text(
        small.read_text("utf8") + '[[variant]]\nname = "amber one"\n[[variant]]\nname = "clear"\n', "utf8"
    )
    write_plan(sample_plan(1), small.parent / "plan" / "amber-one")
    assert [sheet.name for sheet in papers_of(small).sheets()] == ["plan", "mold", "cut", "fill"]
    assert [sheet.name for sheet in papers_of(small, "clear").sheets()] == ["mold", "cut", "fill"]
    with pytest.raises(UserError, match="no variant called 'red'"):
        papers_of(small, "red")


@pytest.mark.parametrize("name", ["box", "../plan", ""])
def test_a_name_that_is_no_sheet_is_refused(small: Path, name: str) -> None:
    with pytest.raises(UserError, match="plan, mold, cut, fill"):
        papers_of(small).pdf(name)


def test_a_job_file_with_an_error_leaves_what_was_made_and_says_why_it_is_old(planned: Path) -> None:
    planned.write_text("format = 1\n[shape\n", "utf8")
    papers = papers_of(planned, "main")
    sheets = papers.sheets()
    assert [(sheet.name, sheet.old, sheet.can_make) for sheet in sheets] == [("plan", True, False)]
    assert "error" in sheets[0].because[0]
    assert papers.pdf("plan").startswith(b"%PDF-")
    with pytest.raises(UserError, match=r"job\.toml"):
        papers.pdf("fill")
