"""The book's pages: entering, correcting, counting, finishing by keyboard on a phone; axe finds no fault."""

import itertools
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from pourwright.app.booking.counting import add_lot, reserve_job
from pourwright.app.booking.finishing import finish_piece
from pourwright.app.booking.logging import log_job
from tests.browser.serving import Served
from tests.browser.test_reachable import AXE, examined as examined, faults, in_each_scheme  # noqa: PLC0414 - a fixture
from tests.browser.watched import Watched
from tests.sheets.laid import lay_plan
from tests.sheets.sample_plan import sample_plan

PHONE, DESK = {"width": 360, "height": 780}, {"width": 1280, "height": 900}
_numbers = itertools.count()


@pytest.fixture
def job(new_job: Callable[..., Path]) -> Path:
    """Folder of a job with an invented plan of its own."""
    folder = new_job().parent
    lay_plan(sample_plan(2, title=f"Stool {next(_numbers)}, {folder.name}"), folder / "plan")
    return folder


def sent(page: Page, button: str) -> None:
    """Press a button by keyboard and wait for the page that follows."""
    with page.expect_navigation():
        page.get_by_role("button", name=button, exact=True).first.press("Enter")


def fits(page: Page) -> bool:
    return bool(page.evaluate("document.documentElement.scrollWidth <= innerWidth"))


def test_a_piece_from_its_first_entry_to_its_card_by_keyboard_on_a_phone(maker: Watched, job: Path) -> None:
    page = maker.page(f"/book/log/{job.name}")
    page.set_viewport_size(PHONE)
    page.get_by_label("What", exact=True).select_option("poured")
    page.get_by_label("How much, or words").fill("24 kg")
    sent(page, "Enter")
    page.locator("summary").first.press("Enter")
    page.get_by_label("What it really was").first.fill("2.4 kg")
    sent(page, "Correct")
    expect(page.locator("tr.corrected s")).to_contain_text("24.00 kg")
    expect(page.locator(".book-now")).to_have_text("now: 2.40 kg")
    assert fits(page)
    maker.may = {400}
    page.get_by_label("What", exact=True).select_option("level")
    page.get_by_label("How much, or words").fill("60 cm")
    page.get_by_role("button", name="Enter", exact=True).press("Enter")
    expect(page.locator("[role=alert]:not(:empty)")).to_contain_text("lies above the mold")
    page.get_by_label("What", exact=True).select_option("demolded")
    page.get_by_label("How much, or words").fill("")
    sent(page, "Enter")
    page.locator("#finish").get_by_label("Mass, as weighed").fill("31.4 kg")
    sent(page, "Give it its number")
    expect(page.locator("h1")).to_contain_text("No. ")
    expect(page.locator("dl.numbers").first).to_contain_text("31.40 kg")
    assert fits(page)


def test_a_lot_is_put_on_stock_and_counted_on_a_phone(maker: Watched, job: Path) -> None:
    page = maker.page("/book/stock")
    page.set_viewport_size(PHONE)
    page.get_by_label("Kind").select_option("glass")
    page.get_by_label("Colour, of glass").fill(job.name)
    page.get_by_label("How much").fill("12")
    maker.may = {400}
    page.get_by_role("button", name="Put it on stock").press("Enter")
    expect(page.get_by_label("How much")).to_have_attribute("aria-invalid", "true")
    page.get_by_label("How much").fill("12 kg")
    sent(page, "Put it on stock")
    page.get_by_label("What is really left").fill("10 kg")
    sent(page, "Put it right")
    expect(page.locator("table")).to_contain_text("−2.00 kg")
    assert fits(page)


@pytest.fixture
def filled(server: Served, job: Path) -> tuple[str, ...]:
    """Addresses of the book's pages with something on each."""
    lot = add_lot(
        server.shop, "glass", "bottles", "2 kg", colour="green", grade="coarse", expires="2026-01-01"
    )["lot"]
    add_lot(server.shop, "consumable", "gloves", "40")
    reserve_job(job)
    wrong = log_job(job, ("poured", "24 kg")).to_json()["entered"][0]
    log_job(job, ("correct", wrong, "2.4 kg"))
    log_job(job, ("level", "85 mm"))
    log_job(job, ("demolded",))
    number = finish_piece(job, mass="31.4 kg")["number"]
    log = f"/book/log/{job.name}"
    return ("/book", log, "/book/stock", f"/book/stock/{lot}", "/book/pieces", f"/book/pieces/{number}")


def test_axe_finds_no_fault(examined: BrowserContext, server: Served, filled: tuple[str, ...]) -> None:
    page = examined.new_page()
    for path in filled:
        page.goto(server.address + path)
        # what is folded up is looked at too
        page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
        page.evaluate(AXE.read_text("utf8"))
        for scheme in in_each_scheme(page):
            page.set_viewport_size(PHONE if scheme == "dark" else DESK)
            assert faults(page) == [], (path, scheme)
            assert fits(page), (path, scheme)
