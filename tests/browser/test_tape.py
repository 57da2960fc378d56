"""Bands beside the tape measure: dragged, moved by keys, typed, split, and taken back."""

import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import APIResponse, Locator, Page, Route, expect

from tests.browser.pieces import TWO_BANDS
from tests.browser.watched import Watched


@pytest.fixture
def job(new_job: Callable[..., Path]) -> Path:
    return new_job(TWO_BANDS)


@pytest.fixture
def page(maker: Watched, job: Path) -> Page:
    """The page of a block 40 mm high whose border lies at 15 mm."""
    page = maker.page(f"/jobs/{job.parent.name}")
    expect(border(page)).to_be_visible()
    return page


def border(page: Page, number: int = 1) -> Locator:
    return page.get_by_role("slider", name=f"Upper end of band {number}")


def bands(job: Path) -> list[dict[str, object]]:
    return list(tomllib.loads(job.read_text("utf8"))["band"])


def masses(page: Page) -> list[float]:
    """Glass of the bands from the mold's floor up [g], as their fields tell it."""
    texts = page.locator(".tape-band .tape-takes > span:first-child strong").all_inner_texts()
    return [float(text.removesuffix(" g")) for text in reversed(texts)]


def saved(page: Page) -> None:
    expect(page.locator(".tape-state")).to_have_text("Saved")


def test_arrow_keys_move_a_border_by_a_millimetre_and_it_is_saved(page: Page, job: Path) -> None:
    before = masses(page)
    border(page).focus()
    for key in ("ArrowUp", "ArrowUp", "ArrowDown", "PageUp"):
        page.keyboard.press(key)
    expect(border(page)).to_have_attribute("aria-valuenow", "26")
    words = "26 mm up from the floor of the mold, dip 14 mm down from the rim"
    expect(border(page)).to_have_attribute("aria-valuetext", words)
    saved(page)
    assert [band["to"] for band in bands(job)] == ["26 mm", "top"]
    after = masses(page)
    assert after[0] > before[0]
    assert after[1] < before[1]


def test_a_border_is_dragged_and_goes_no_farther_than_the_next(page: Page, job: Path) -> None:
    border(page).scroll_into_view_if_needed()
    place = border(page).bounding_box()
    assert place is not None
    x, y = place["x"] + place["width"] / 2, place["y"] + place["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y + 20, steps=4)
    page.mouse.move(x, y + 900, steps=4)
    expect(border(page)).to_have_attribute("aria-valuenow", "1")
    page.mouse.up()
    saved(page)
    assert bands(job)[0]["to"] == "1 mm"
    took = page.evaluate("performance.getEntriesByName('tape').length")
    assert took >= 2


def test_a_height_is_typed_in_another_unit_and_kept_as_it_was_typed(page: Page, job: Path) -> None:
    field = page.locator(".tape-band[data-place='0']").get_by_label("Up to")
    field.fill("3/4 in")
    field.press("Tab")
    saved(page)
    assert bands(job)[0]["to"] == "3/4 in"
    expect(border(page)).to_have_attribute("aria-valuenow", "19.1")


def test_a_height_above_the_piece_is_refused_with_the_reason_and_not_saved(page: Page, job: Path) -> None:
    before = job.read_bytes()
    field = page.locator(".tape-band[data-place='0']").get_by_label("Up to")
    field.fill("90 mm")
    field.press("Tab")
    expect(page.locator(".tape-band[data-place='0'] [role=alert]")).to_contain_text("90 mm")
    expect(page.locator(".tape-state")).to_contain_text("Not saved")
    assert job.read_bytes() == before
    page.get_by_role("button", name="Put back").click()
    expect(field).to_have_value("15 mm")
    expect(page.locator(".tape-band[data-place='0'] [role=alert]")).to_be_hidden()


def test_glass_colour_and_bucket_test_are_chosen(page: Page, job: Path) -> None:
    band = page.locator(".tape-band[data-place='1']")
    band.get_by_label("Glass", exact=True).select_option("fine")
    saved(page)
    band = page.locator(".tape-band[data-place='1']")
    band.get_by_label("Colour").fill("blue")
    band.get_by_label("Colour").press("Tab")
    expect(band.locator(".tape-name")).to_have_text("band 2: blue, fine")
    band.get_by_text("Voids, tapping, soft border").click()
    band.get_by_label("Room between the grains").select_option("mass")
    band.get_by_label("Bucket to its brim").fill("5 l")
    band.get_by_label("Bucket to its brim").press("Tab")
    band.get_by_label("Glass alone weighs").fill("6.85 kg")
    band.get_by_label("Glass alone weighs").press("Tab")
    expect(page.locator(".tape-band[data-place='1'] .tape-takes")).to_contain_text("46 % voids")
    saved(page)
    assert bands(job)[1] == {
        "to": "top",
        "grade": "fine",
        "colour": "blue",
        "bucket_test": {"mass": "6.85 kg", "volume": "5 l"},
    }


def test_bands_read_before_a_save_do_not_undo_it_on_the_page(page: Page, job: Path) -> None:
    """A hand edit makes the page read the bands anew; what it reads comes only after a later choice."""
    held: list[tuple[Route, APIResponse]] = []
    page.route("**/tape.json*", lambda route: held.append((route, route.fetch())), times=1)
    with page.expect_request("**/tape.json*"):
        job.write_text(job.read_text("utf8").replace('"15 mm"', '"16 mm"') + "# by hand\n", "utf8")
    band = page.locator(".tape-band[data-place='1']")
    field = page.locator(".tape-band[data-place='0']").get_by_label("Up to")
    page.wait_for_timeout(100)
    job.write_text(job.read_text("utf8").replace('"16 mm"', '"15 mm"'), "utf8")
    expect(page.locator(".tape-state")).not_to_contain_text("Not saved")
    band.get_by_label("Colour").fill("blue")
    band.get_by_label("Colour").press("Tab")
    saved(page)
    band.get_by_text("Voids, tapping, soft border").click()
    band.get_by_label("Room between the grains").select_option("mass")
    band.get_by_label("Bucket to its brim").fill("5 l")
    ((route, answer),) = held
    with page.expect_response("**/tape.json*"):
        route.fulfill(response=answer)
    expect(band.get_by_label("Bucket to its brim")).to_have_value("5 l")
    expect(band.get_by_label("Colour")).to_have_value("blue")
    expect(field).to_have_value("15 mm")


def test_a_band_is_split_and_the_new_one_removed_again(page: Page, job: Path) -> None:
    page.get_by_role("button", name="Split band 1 in two").click()
    saved(page)
    assert [band["to"] for band in bands(job)] == ["7.5 mm", "15 mm", "top"]
    borders = page.locator("#fill").get_by_role("slider")
    expect(borders).to_have_count(2)
    page.get_by_role("button", name="Remove band 1").click()
    expect(borders).to_have_count(1)
    saved(page)
    assert [band["to"] for band in bands(job)] == ["15 mm", "top"]


def test_the_numbers_beside_the_choices_follow_a_saved_border(page: Page, job: Path) -> None:
    glass = page.locator("#fill .answers [data-key=glass_kg]")
    before = glass.inner_text()
    border(page).focus()
    page.keyboard.press("PageUp")
    expect(glass).not_to_have_text(before)


def test_what_is_taken_back_elsewhere_is_drawn(page: Page, job: Path) -> None:
    border(page).focus()
    page.keyboard.press("PageUp")
    saved(page)
    page.evaluate("desk.send('undo', {}).then((told) => desk.tell('choices', told))")
    expect(border(page)).to_have_attribute("aria-valuenow", "15")
    assert bands(job)[0]["to"] == "15 mm"
