"""Orders in the browser: worked out with one press, a tick stays; axe finds no fault."""

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import BrowserContext, expect

from tests.app.ordering import listed
from tests.browser.serving import Served
from tests.browser.test_cut import DESK, PHONE, fits
from tests.browser.test_reachable import AXE, faults, looked_at as looked_at  # noqa: PLC0414 - a fixture

READY = "#orders[data-ready=yes]"


@pytest.fixture
def ordered(server: Served) -> Iterator[str]:
    """Orders of a small job whose second is too late; invented. The shop is left as it was."""
    late = '[[order]]\nname = "gallery"\nproduct = "plinth"\ncount = 1\nby = 2037-01-20\n'
    path = listed.shop(server.shop, listed.ORDERS.replace("2027-", "2037-") + late + listed.OFFER)
    yield f"{server.address}/orders"
    path.unlink()
    path.with_name("bought.json").unlink(missing_ok=True)
    shutil.rmtree(server.shop / "plinth")


def test_a_tick_stays_and_axe_finds_no_fault(looked_at: BrowserContext, ordered: str) -> None:
    page = looked_at.new_page()
    page.goto(ordered)
    page.locator(READY).wait_for()
    if page.locator("#work").count():
        page.locator("#work").press("Enter")
    expect(page.get_by_role("heading", name="Shopping list")).to_be_visible()
    page.locator(READY).wait_for()
    # no book keeps gloves, so nothing is on stock for the other tests of this shop
    page.get_by_label("gloves, cups, brushes").press("Space")
    expect(page.locator("#orders")).to_contain_text("not booked")
    expect(page.get_by_label("gloves, cups, brushes")).to_be_checked()
    page.locator(READY).wait_for()
    page.evaluate(AXE.read_text("utf8"))
    for size in (DESK, PHONE):
        page.set_viewport_size(size)
        assert faults(page) == []
        assert fits(page)
