"""What to saw in the browser: worked out, ticked, loaded again, put on stock; axe finds no fault."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from pourwright.app.booking.counting import add_lot
from tests.browser.pieces import put
from tests.browser.serving import Served
from tests.browser.test_reachable import AXE, faults, looked_at as looked_at  # noqa: PLC0414 - a fixture
from tests.browser.watched import Watched
from tests.web.test_cut import TEXT, worked_out

PHONE, DESK = {"width": 360, "height": 780}, {"width": 1280, "height": 900}
READY = "#cut[data-ready=yes]"


@pytest.fixture(scope="module")
def job(server: Served, caches: Path) -> str:
    """A small block whose list was made, in a shop that has a book."""
    file = put(server.shop, "sawn-block", TEXT)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("POURWRIGHT_CACHE", str(caches))
        worked_out(file, TEXT)
    add_lot(server.shop, "board", "mdf", "600 mm x 400 mm", name="a sheet of MDF from the yard, by the door")
    return file.parent.name


def fits(page: Page) -> bool:
    return bool(page.evaluate("document.documentElement.scrollWidth <= innerWidth"))


def test_ticks_stay_and_what_is_left_goes_on_stock_on_a_phone(maker: Watched, job: str) -> None:
    page = maker.page(f"/jobs/{job}/cut")
    page.set_viewport_size(PHONE)
    page.locator(READY).wait_for()
    page.get_by_label("front side").press("Space")
    expect(page.locator("#cut-count")).to_have_text("1 of 9 parts are sawn.")
    page.reload()
    expect(page.get_by_label("front side")).to_be_checked()
    other = maker.page(f"/jobs/{job}/cut")
    other.locator(READY).wait_for()
    other.get_by_label("All of sheet 1 is sawn").check()
    # as when this device is looked at again, without waiting for its turn
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    expect(page.locator("#cut-count")).to_have_text("7 of 9 parts are sawn.")
    assert fits(page)
    page.get_by_role("button", name="Put it on stock").first.press("Enter")
    expect(page.locator("[data-left=sheet-1]")).to_contain_text("It is on stock as lot")
    assert page.locator(".cut-drawing img").first.evaluate(
        "(one) => one.decode().then(() => one.naturalWidth)"
    )
    assert fits(page)


def test_the_work_is_begun_followed_and_cancelled(maker: Watched, new_job: Callable[..., Path]) -> None:
    page = maker.page(f"/jobs/{new_job(TEXT.replace('21 degC', '20 degC')).parent.name}/cut")
    page.locator(READY).wait_for()
    page.get_by_role("button", name="Work out what to saw").press("Enter")
    expect(page.get_by_role("progressbar")).to_be_visible()
    page.get_by_role("button", name="Cancel").press("Enter")
    expect(page.locator("#run-now")).to_contain_text("Cancelled: working out what to saw.")
    expect(page.get_by_role("button", name="Work out what to saw")).to_be_enabled()


def test_axe_finds_no_fault_in_it(looked_at: BrowserContext, server: Served, job: str) -> None:
    page = looked_at.new_page()
    page.goto(f"{server.address}/jobs/{job}/cut")
    page.locator(READY).wait_for()
    page.get_by_label("master 1").check()
    page.get_by_role("button", name="Which parts fit").click()
    page.locator("#fits > *").first.wait_for()
    page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
    page.evaluate(AXE.read_text("utf8"))
    for size in (DESK, PHONE):
        page.set_viewport_size(size)
        assert faults(page) == []
        assert fits(page)
