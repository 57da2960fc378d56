"""A logger on the page: handed in on a phone, drawn, taken back; axe finds no fault."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, expect

from pourwright.app.booking.entering import Said, enter
from pourwright.app.booking.places import book_place
from tests.app.booking.conftest import write_plan
from tests.app.measuring.conftest import BEGUN, hottest, written
from tests.browser.serving import Served
from tests.browser.test_reachable import AXE, examined, faults, in_each_scheme
from tests.browser.watched import Watched

__all__ = ["examined", "written"]
PHONE = {"width": 360, "height": 780}


@pytest.fixture
def job(new_job: Callable[..., Path]) -> str:
    """A job whose first pour went in."""
    file = new_job()
    text = file.read_text("utf8")
    write_plan(file.parent)
    file.write_text(text, "utf8")
    enter(file.parent, book_place(file.parent), [Said(kind="mixed", at=BEGUN, value=2.688)])
    return file.parent.name


def test_a_logger_is_handed_in_shown_and_taken_back(
    maker: Watched, job: str, written: Callable[..., Path]
) -> None:
    maker.may.add(400)
    page = maker.page(f"/jobs/{job}/measured")
    page.set_viewport_size(PHONE)
    page.get_by_label("Its file (CSV), 80 MB at most").set_input_files(
        written(lambda hour: hottest(hour - 2.0) - 4.0)
    )
    where = page.get_by_label("Where its sensors were")
    where.fill("core=left leg")
    where.press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("'left leg' is no place of a sensor")
    where.fill("core=hottest")
    where.press("Enter")
    expect(page.get_by_role("heading", name="core, hottest")).to_be_visible()
    expect(page.locator("article")).to_contain_text("Peaked 4 °C lower and 2 h later than planned")
    drawing = page.get_by_role("img", name="core over the plan's curve")
    drawing.scroll_into_view_if_needed()
    expect(drawing).to_have_js_property("complete", value=True)
    assert drawing.evaluate("(one) => one.naturalWidth") > 0
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    page.get_by_role("button", name="Take it back: core").click()
    expect(page.locator(".measured")).to_contain_text("Taken back: core")


def test_axe_finds_no_fault_in_it(
    examined: BrowserContext, server: Served, job: str, written: Callable[..., Path]
) -> None:
    page = examined.new_page()
    page.goto(f"{server.address}/jobs/{job}/measured")
    page.get_by_label("Its file (CSV), 80 MB at most").set_input_files(written(hottest))
    page.get_by_role("button", name="Attach").click()
    page.get_by_role("heading", name="core").wait_for()
    page.evaluate(AXE.read_text("utf8"))
    for width in (1280, 360):
        page.set_viewport_size({"width": width, "height": 800})
        for scheme in in_each_scheme(page):
            assert faults(page) == [], (width, scheme)
