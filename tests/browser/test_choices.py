"""Choices by hand and by keyboard: written, refused beside their field, taken back, two hands on one."""

import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page, expect

from tests.browser.watched import Watched

SCRIPT, NOTHING = "text/javascript", "export function mount() {}"
WALL = "Rubber beside the piece"


def read(file: Path) -> dict[str, Any]:
    return tomllib.loads(file.read_text("utf8"))


def page_of(maker: Watched, file: Path) -> Page:
    # the numbers beside the choices have tests of their own, and would only take time here
    maker.context.route("**/js/answers.js", lambda route: route.fulfill(content_type=SCRIPT, body=NOTHING))
    return maker.page(f"/jobs/{file.parent.name}")


def field(page: Page, label: str) -> Locator:
    return page.get_by_label(label, exact=True)


def test_a_field_shows_the_other_units_and_is_written_by_enter(
    maker: Watched, new_job: Callable[..., Path]
) -> None:
    file = new_job()
    page = page_of(maker, file)
    wall = field(page, WALL)
    wall.fill("3/4 in")
    expect(page.locator("#f-mold-wall-other")).to_have_text("= 19.05 mm")
    wall.press("Enter")
    expect(page.locator("#said")).to_contain_text("20 mm → 3/4 in")
    assert read(file)["mold"]["wall"] == "3/4 in"
    page.get_by_role("button", name=f"use the default: 20 mm ({WALL})").click()
    expect(page.locator("#said")).to_contain_text("3/4 in → default")
    expect(wall).to_have_value("")
    assert "wall" not in read(file)["mold"]


def test_a_refusal_stands_beside_its_field_and_what_was_typed_stays(
    maker: Watched, new_job: Callable[..., Path]
) -> None:
    maker.may.add(400)
    file = new_job()
    page = page_of(maker, file)
    wall = field(page, WALL)
    wall.fill("21")
    wall.press("Enter")
    expect(page.locator("#f-mold-wall-error")).to_contain_text("the unit is missing")
    expect(wall).to_have_attribute("aria-invalid", "true")
    assert "f-mold-wall-error" in (wall.get_attribute("aria-describedby") or "")
    expect(wall).to_have_value("21")
    assert read(file)["mold"]["wall"] == "20 mm"
    wall.press("Escape")
    expect(wall).to_have_value("20 mm")
    expect(page.locator("#f-mold-wall-error")).to_be_hidden()


def test_undo_and_redo_by_keyboard(maker: Watched, new_job: Callable[..., Path]) -> None:
    file = new_job()
    page = page_of(maker, file)
    board = field(page, "Board of the box")
    board.select_option("plywood")
    expect(page.locator("#said")).to_contain_text("plywood")
    # not in a field of text, which undoes what is typed in it
    page.keyboard.press("Control+z")
    expect(board).to_have_value("")
    expect(page.locator("#said")).to_contain_text("taken back")
    page.keyboard.press("Control+Shift+z")
    expect(board).to_have_value("plywood")
    assert read(file)["mold"]["board"] == "plywood"


def test_two_tabs_on_one_field(maker: Watched, new_job: Callable[..., Path]) -> None:
    maker.may.add(409)
    file = new_job()
    one, two = page_of(maker, file), page_of(maker, file)
    field(two, WALL).fill("25 mm")
    field(one, WALL).fill("15 mm")
    field(one, WALL).press("Enter")
    expect(one.locator("#said")).to_contain_text("15 mm")
    # the other tab has learnt of it, and what is being typed there stays
    field(two, WALL).press("Enter")
    both = two.get_by_role("dialog", name=f"{WALL} was changed elsewhere")
    expect(both).to_contain_text("15 mm")
    expect(both).to_contain_text("25 mm")
    assert read(file)["mold"]["wall"] == "15 mm"
    both.get_by_role("button", name="Keep mine").click()
    expect(two.locator("#said")).to_contain_text("15 mm → 25 mm")
    assert read(file)["mold"]["wall"] == "25 mm"


def test_a_hand_edit_shows_up_and_a_broken_one_is_told(maker: Watched, new_job: Callable[..., Path]) -> None:
    # numbers and pictures of a file that cannot be read are refused
    maker.may.add(400)
    file = new_job()
    page = page_of(maker, file)
    good = file.read_text("utf8").replace('wall = "20 mm"', 'wall = "18 mm"')
    file.write_text(good, "utf8")
    expect(field(page, WALL)).to_have_value("18 mm")
    file.write_text(good.replace('wall = "18 mm"', "wall = 18 mm"), "utf8")
    told = page.get_by_role("alert").filter(has_text="cannot be read now")
    expect(told).to_be_visible()
    line = next(n for n, each in enumerate(good.splitlines(), 1) if each.startswith("wall"))
    expect(told.get_by_role("button", name=f"line {line}")).to_be_visible()
    told.get_by_role("button", name="Go back to the last good text").click()
    expect(told).to_be_hidden()
    assert file.read_text("utf8") == good


def test_the_text_of_the_file_and_help(maker: Watched, new_job: Callable[..., Path]) -> None:
    maker.may.add(400)
    file = new_job()
    page = page_of(maker, file)
    page.get_by_role("button", name=f"Help: {WALL}").press("Enter")
    expect(page.locator("#f-mold-wall-help")).to_contain_text("common practice, no source")
    page.get_by_text("The job file as text").click()
    text = page.get_by_label("job.toml")
    expect(text).to_have_value(file.read_text("utf8"))
    text.fill(file.read_text("utf8").replace("wall =", "walls ="))
    page.get_by_role("button", name="Save the text").click()
    expect(page.locator("#job-text-faults")).to_contain_text("unknown key 'walls'")
    text.fill(file.read_text("utf8").replace('"20 mm"', '"21 mm"'))
    page.get_by_role("button", name="Save the text").click()
    expect(field(page, WALL)).to_have_value("21 mm")
    assert read(file)["mold"]["wall"] == "21 mm"
