"""Cost and price in the browser: a line opens by keyboard down to the price list; axe finds no fault."""

import pytest
from playwright.sync_api import BrowserContext, expect

from tests.app.pricing.costed import JOB, PRICES, planned
from tests.browser.pieces import put
from tests.browser.serving import Served
from tests.browser.test_cut import DESK, PHONE, fits
from tests.browser.test_reachable import AXE, faults, looked_at as looked_at  # noqa: PLC0414 - a fixture


@pytest.fixture(scope="module")
def job(server: Served) -> str:
    """Two variants of a block, one planned; the price of its glass is missing, the rubber's is old."""
    folder = put(server.shop, "costed-block").parent
    listed = PRICES.replace('of = "glass"', 'of = "glass"\ncolour = "violet"').replace(
        'price = "20 EUR/kg"', 'price = "20 EUR/kg"\ndate = "2020-05-01"'
    )
    variants = '[[variant]]\nname = "green"\n[[variant]]\nname = "clear"\n'
    planned(folder, f"{listed}[sell]\nmargin = 0.5\ngallery = 0.4\n[run]\nper_month = 3\n", JOB + variants)
    (folder / "plan").rename(folder / "green")
    (folder / "plan").mkdir()
    (folder / "green").rename(folder / "plan" / "green")
    return folder.name


def test_a_line_opens_to_its_source_and_axe_finds_no_fault(
    looked_at: BrowserContext, server: Served, job: str
) -> None:
    page = looked_at.new_page()
    page.goto(f"{server.address}/jobs/{job}/cost")
    page.locator("#cost[data-ready=yes]").wait_for()
    # 2 kg and 3 kg at 10 EUR
    reckoned = page.get_by_text("5 kg × 10.00 EUR/kg = 50.00 EUR")
    expect(reckoned).to_be_hidden()
    page.locator(".cost-line > summary").first.press("Enter")
    expect(reckoned).to_be_visible()
    page.get_by_role("link", name="prices.toml, line 7").press("Enter")
    expect(page.locator("#row-7")).to_be_in_viewport()
    page.get_by_role("button", name="Open all").press("Enter")
    for words in ("Variants side by side", "What a month may bring in"):
        expect(page.get_by_role("heading", name=words)).to_be_visible()
    page.evaluate(AXE.read_text("utf8"))
    for size in (DESK, PHONE):
        page.set_viewport_size(size)
        assert faults(page) == []
        assert fits(page)
