"""Paper as a maker handles it: every page previewed, enlarged by keys, files that open."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from icalendar import Calendar
from playwright.sync_api import Browser, Page, expect
from pypdf import PdfReader

from tests.browser.pieces import put
from tests.browser.planned import with_plan
from tests.browser.serving import Served
from tests.browser.watched import Watched, watched


@pytest.fixture(scope="module")
def job(server: Served) -> Path:
    file = put(server.shop, "papered")
    with_plan(file)
    return file


@pytest.fixture(scope="module")
def page(browser: Browser, server: Served, job: Path) -> Iterator[Page]:
    with watched(browser, server.address) as watch:
        yield watch.page(f"/jobs/{job.parent.name}#paper")


def test_the_plan_is_handed_out_and_opens(page: Page, job: Path) -> None:
    page.get_by_text("files of the plan").click()
    with page.expect_download() as coming:
        page.get_by_role("link", name="plan.pdf", exact=True).click()
    pages = PdfReader(coming.value.path()).pages
    assert len(pages) == len(PdfReader(job.parent / "plan" / "plan.pdf").pages)
    assert "Hourglass stool" in pages[0].extract_text()
    assert page.locator("[data-sheet=plan] .thumb").count() == len(pages)
    with page.expect_download() as coming:
        page.get_by_role("link", name="Calendar file").click()
    assert Calendar.from_ical(coming.value.path().read_bytes()).walk("VEVENT")
    # the button beside the pages leads to the same sheet
    address = page.get_by_role("link", name="Open the PDF: Pour plan").get_attribute("href")
    assert (
        page.evaluate("async (url) => (await (await fetch(url)).blob()).size", address)
        == (job.parent / "plan" / "plan.pdf").stat().st_size
    )


def test_a_page_is_enlarged_turned_and_put_away_by_keys(page: Page) -> None:
    thumb = page.get_by_role("button", name="Pour plan, page 1: enlarge")
    thumb.scroll_into_view_if_needed()
    thumb.focus()
    page.keyboard.press("Enter")
    leaf = page.get_by_role("dialog")
    expect(leaf).to_contain_text("page 1 of")
    page.keyboard.press("ArrowRight")
    expect(leaf).to_contain_text("page 2 of")
    picture = leaf.locator("img")
    page.wait_for_function("() => document.querySelector('.leaf img').complete")
    assert picture.evaluate("(image) => image.naturalWidth") > 1000
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("ArrowLeft")
    expect(leaf).to_contain_text("page 1 of")
    page.keyboard.press("Escape")
    expect(leaf).to_be_hidden()
    expect(thumb).to_be_focused()


def test_the_fill_is_made_for_a_job_without_a_plan(maker: Watched, new_job: Callable[..., Path]) -> None:
    page = maker.page(f"/jobs/{new_job().parent.name}")
    expect(page.locator(".papers")).to_contain_text("No plan yet")
    fill = page.locator("[data-sheet=fill]")
    assert fill.locator(".thumb").count() == 0
    page.get_by_role("button", name="Make it now: Fill sheet").click()
    expect(fill.locator(".thumb").first).to_be_visible(timeout=30_000)
    expect(fill).not_to_have_class("old")


def test_a_plan_of_other_choices_is_marked_old(page: Page) -> None:
    expect(page.locator("[data-sheet=plan] .old-word")).to_contain_text("the job has changed")
