"""A leak reckoned on a phone, and what the shop has learnt: the words come, axe finds no fault."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from pourwright.jobs import input_hashes, load_job
from tests.browser.serving import Served
from tests.browser.test_reachable import AXE, examined as examined, faults, in_each_scheme  # noqa: PLC0414 - a fixture
from tests.browser.watched import Watched
from tests.sheets.sample_plan import sample_document

PHONE = {"width": 360, "height": 780}


@pytest.fixture
def job(new_job: Callable[..., Path]) -> str:
    """A job with an invented plan whose pour went in long ago."""
    file = new_job()
    document = sample_document(1) | {"inputs": input_hashes(load_job(file))}
    text = json.dumps(document).replace("2026-12-0", "2025-12-0")
    (file.parent / "plan").mkdir()
    (file.parent / "plan" / "plan.json").write_text(text, "utf8")
    return file.parent.name


def fill_in(page: Page) -> None:
    page.get_by_label("Poured in, each batch").fill("5 kg, 4 kg")
    page.get_by_label("Dip, from the rim down").fill("60 mm")
    page.get_by_label("Read at").first.fill("2025-12-01 17:00")
    page.get_by_label("Found beside the mold").fill("1 kg")
    page.get_by_label("Which pour").fill("1")
    page.get_by_role("button", name="Reckon").press("Enter")


def test_a_leak_is_reckoned_by_keyboard_on_a_phone(maker: Watched, job: str) -> None:
    page = maker.page(f"/jobs/{job}/leak")
    page.set_viewport_size(PHONE)
    fill_in(page)
    expect(page.locator("#answer")).to_contain_text("In the mold:")
    expect(page.locator("#answer")).to_contain_text("Run out:")
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]


def test_axe_finds_no_fault_in_either_page(examined: BrowserContext, server: Served, job: str) -> None:
    page = examined.new_page()
    page.set_viewport_size(PHONE)
    for path in (f"/jobs/{job}/leak", "/learnt"):
        page.goto(server.address + path)
        if path != "/learnt":
            fill_in(page)
            page.locator("#answer").wait_for()
        page.evaluate(AXE.read_text("utf8"))
        for scheme in in_each_scheme(page):
            assert faults(page) == [], (path, scheme)
