"""A whole job by one who never types a command: file, choices, plan, heat through time, paper."""

import re
from pathlib import Path

import trimesh
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from tests.browser.serving import Served
from tests.browser.watched import Watched, ready

PLANNED = 240_000
"""A first plan may have to compile [ms]."""


def test_from_a_shape_file_to_the_sheet_of_its_plan(maker: Watched, server: Served, tmp_path: Path) -> None:
    page = _begun(maker, tmp_path)
    folder = server.shop / page.url.rpartition("/")[2]
    _planned(page)
    assert (folder / "plan" / "plan.json").is_file()
    _scrubbed(page)
    text = "\n".join(one.extract_text() for one in PdfReader(_printed(page)).pages)
    assert "Garden light" in text
    page.get_by_role("link", name="Shelf").click()
    card = page.locator(f"[data-job='{folder.name}']")
    expect(card).to_contain_text("Garden light")
    expect(card.locator(".state")).to_have_text("planned")


def _begun(maker: Watched, folder: Path) -> Page:
    path = folder / "garden-light.stl"
    trimesh.creation.box((60, 60, 40)).export(path)
    page = maker.page("/new")
    page.locator("#new[data-ready=yes]").wait_for()
    page.get_by_label("Drag a file here, or choose one").set_input_files(path)
    page.get_by_role("radio", name=re.compile("^mm: it is .*40 mm")).check()
    page.get_by_label("Name of the piece").fill("Garden light")
    page.get_by_role("button", name="Begin").click()
    page.wait_for_url("**/jobs/*")
    ready(page)
    return page


def _planned(page: Page) -> None:
    page.get_by_label("How the plan is made").select_option("quick")
    page.get_by_role("button", name="Plan the pours").click()
    expect(page.locator("#runs-state")).to_contain_text("Done", timeout=PLANNED)


def _scrubbed(page: Page) -> None:
    page.locator("[data-mount=view]").scroll_into_view_if_needed()
    page.get_by_label("Show on the cut").select_option("temperature")
    when = page.get_by_label("When", exact=True)
    when.focus()
    page.keyboard.press("Home")
    first = when.get_attribute("aria-valuetext")
    page.keyboard.press("ArrowRight")
    expect(when).not_to_have_attribute("aria-valuetext", first or "")


def _printed(page: Page) -> Path:
    page.get_by_text("files of the plan").click()
    with page.expect_download() as coming:
        page.get_by_role("link", name="plan.pdf", exact=True).click()
    return Path(coming.value.path())
