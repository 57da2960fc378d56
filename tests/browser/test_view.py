"""Piece and mold in space: seen, cut, tinted, pointed at, by hand and by keys; and without any of it."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from pourwright.app import plan_job
from tests.app.making import one_at_a_time
from tests.browser.pieces import TWO_BANDS, put
from tests.browser.serving import Served
from tests.browser.test_reachable import AXE, examined as examined, faults, in_each_scheme  # noqa: PLC0414 - a fixture
from tests.browser.watched import Watched, watched

# a bare expression would be evaluated by the page, which its own policy forbids
BUSY = "() => document.querySelector('[data-mount=view]').view?.room.hasAttribute('data-busy') === false"


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a small job with two bands and its quick plan."""
    file = put(tmp_path_factory.mktemp("planned"), "two-bands", TWO_BANDS)
    with one_at_a_time(tmp_path_factory.getbasetemp().parent):
        plan_job(file, quick=True, processes=1)
    return file.parent


@pytest.fixture
def address(server: Served, planned: Path) -> str:
    """Where the page of that job is."""
    if not (server.shop / planned.name).exists():
        shutil.copytree(planned, server.shop / planned.name)
    return f"{server.address}/jobs/{planned.name}"


@pytest.fixture
def view(maker: Watched, address: str) -> Page:
    """The page of that job, its picture drawn."""
    page = maker.page(address.removeprefix(maker.address))
    drawn(page)
    return page


def drawn(page: Page) -> None:
    page.locator("[data-mount=view]").scroll_into_view_if_needed()
    # the first of a session may have to make its bodies while other tests run
    page.wait_for_function(BUSY, timeout=60_000)
    page.wait_for_timeout(300)


def colours(page: Page) -> dict[tuple[int, ...], int]:
    """How many of the picture's points have each colour, in steps of 16."""
    found: list[list[int]] = page.evaluate("""() => {
        const { stage } = document.querySelector('[data-mount=view]').view;
        const gl = stage.renderer.getContext();
        stage.renderer.render(stage.scene, stage.camera);
        const [wide, high] = [gl.drawingBufferWidth, gl.drawingBufferHeight];
        const data = new Uint8Array(4 * wide * high);
        gl.readPixels(0, 0, wide, high, gl.RGBA, gl.UNSIGNED_BYTE, data);
        const count = new Map();
        for (let i = 0; i < data.length; i += 4) {
            const key = [0, 1, 2, 3].map((k) => data[i + k] >> 4).join();
            count.set(key, (count.get(key) ?? 0) + 1);
        }
        return [...count].map(([key, times]) => [...key.split(',').map(Number), times]);
    }""")
    return {tuple(row[:-1]): row[-1] for row in found}


def said(page: Page) -> str:
    return page.locator(".view-value").inner_text()


def point_at_the_middle(page: Page) -> None:
    page.locator(".view-canvas").click()


def test_the_mold_is_seen_cut_open_and_pulled_apart(view: Page) -> None:
    together = colours(view)
    assert sum(times for key, times in together.items() if key[3]) > 10_000
    assert len([key for key, times in together.items() if key[3] and times > 50]) >= 5
    place = view.get_by_label("Where it is cut")
    expect(place).to_have_attribute("aria-valuetext", "through the middle")
    place.focus()
    for _ in range(12):
        view.keyboard.press("ArrowRight")
    # 60 mm of piece, twice 20 mm of rubber and 18 mm of board: twelve stops of a 120th
    expect(place).to_have_attribute("aria-valuetext", "14 mm behind the middle")
    view.wait_for_timeout(200)
    assert colours(view) != together
    view.get_by_label("Pulled apart").focus()
    view.keyboard.press("End")
    view.wait_for_timeout(200)
    spread = colours(view)
    # all of it is in the picture, so each part of it is smaller
    assert sum(times for key, times in spread.items() if key[3]) < 0.7 * sum(together.values())


def test_parts_are_hidden_and_shown_by_keys(view: Page) -> None:
    before = colours(view)
    for part in ("rubber", "box"):
        box = view.get_by_role("checkbox", name=part, exact=True)
        box.focus()
        view.keyboard.press("Space")
    view.get_by_role("radio", name="master", exact=True).focus()
    view.keyboard.press("Space")
    # the bars it hangs from came with it
    view.get_by_role("checkbox", name="bars", exact=True).uncheck()
    view.wait_for_function(BUSY)
    view.wait_for_timeout(600)
    assert colours(view) != before
    point_at_the_middle(view)
    expect(view.locator(".view-value")).to_contain_text("Master, at x = ")


def test_what_is_pointed_at_is_told_by_hand_and_by_keys(view: Page) -> None:
    point_at_the_middle(view)
    expect(view.locator(".view-value")).to_contain_text("piece, band", ignore_case=True)
    first = said(view)
    view.get_by_label("Arrow keys move the pointer").check()
    for _ in range(25):
        view.keyboard.press("ArrowDown")
    expect(view.locator(".view-value")).not_to_have_text(first)
    keys = view.locator(".view-canvas")
    view.get_by_label("Arrow keys move the pointer").uncheck()
    looked = colours(view)
    keys.focus()
    view.keyboard.press("ArrowRight")
    view.wait_for_timeout(200)
    assert colours(view) != looked


def test_a_tint_shows_the_piece_alone_with_its_legend(view: Page) -> None:
    view.get_by_label("Colour the piece by").select_option("thickness")
    expect(view.locator(".view-legend")).to_contain_text("to 40 mm")
    view.wait_for_function(BUSY)
    view.wait_for_timeout(800)
    point_at_the_middle(view)
    # a block of 60 x 60 x 40 mm
    expect(view.locator(".view-value")).to_contain_text("0 mm thick, piece")
    assert said(view).startswith(("60 mm thick", "40 mm thick"))
    view.get_by_label("Colour the piece by").select_option("band")
    expect(view.locator(".view-legend")).to_contain_text("from 0 mm to 15 mm")


def test_heat_on_the_cut_follows_the_slider_and_is_told(view: Page) -> None:
    view.get_by_label("Show on the cut").select_option("temperature")
    expect(view.locator(".view-ticks")).to_contain_text("°C")
    view.get_by_role("button", name="Hottest moment").click()
    view.wait_for_timeout(600)
    hot = colours(view)
    when = view.get_by_role("slider", name="When")
    assert when.input_value() != "0"
    view.evaluate("document.querySelector('[data-mount=view]').view.orbit.look('front')")
    point_at_the_middle(view)
    expect(view.locator(".view-value")).to_contain_text("cured")
    warm = said(view)
    when.focus()
    view.keyboard.press("Home")
    expect(when).to_have_attribute(
        "aria-valuetext", "at the first pour's start (Mon 11 Jan, 09:00, pour 1 in the mold)"
    )
    expect(view.locator(".view-value")).not_to_have_text(warm)
    view.get_by_role("button", name="Askew").click()
    view.wait_for_timeout(300)
    assert colours(view) != hot
    measured = view.evaluate("performance.getEntriesByName('view-time').length")
    assert measured >= 1


def test_the_words_say_the_same(view: Page) -> None:
    view.get_by_text("The same in words").click()
    expect(view.locator(".view-twin")).to_contain_text("Of the surface that touches the mold 0 % leans back")
    expect(view.locator(".view-twin")).to_contain_text("Pour 1 is hottest")
    assert view.locator(".view-twin tbody tr").count() >= 8


def test_without_webgl_drawings_and_words_take_its_place(
    browser: Browser, server: Served, new_job: Callable[..., Path]
) -> None:
    with watched(browser, server.address) as watch:
        watch.context.add_init_script(
            "const get = HTMLCanvasElement.prototype.getContext;"
            "HTMLCanvasElement.prototype.getContext = function (kind, ...more) {"
            " return kind.startsWith('webgl') ? null : get.call(this, kind, ...more); };"
        )
        page = watch.page(f"/jobs/{new_job().parent.name}")
        page.locator("[data-mount=view]").scroll_into_view_if_needed()
        expect(page.locator("[data-mount=view]")).to_contain_text("These drawings show the same")
        for picture in page.locator(".view-drawings img").all():
            picture.scroll_into_view_if_needed()
            expect(picture).to_have_js_property("complete", True)
            assert picture.evaluate("picture => picture.naturalWidth") > 100


def test_axe_finds_no_fault_in_it(examined: BrowserContext, address: str) -> None:
    page = examined.new_page()
    page.goto(address)
    drawn(page)
    page.get_by_label("Show on the cut").select_option("temperature")
    page.get_by_text("The same in words").click()
    expect(page.locator(".view-twin")).to_contain_text("Hottest places")
    page.evaluate(AXE.read_text("utf8"))
    page.evaluate("document.querySelectorAll('.step > :not(.view, h2, h3)').forEach((each) => each.remove())")
    for scheme in in_each_scheme(page):
        assert faults(page) == [], scheme


def test_a_choice_that_changes_the_piece_changes_the_picture(
    maker: Watched, new_job: Callable[..., Path]
) -> None:
    file = new_job()
    page = maker.page(f"/jobs/{file.parent.name}")
    drawn(page)
    key = "document.querySelector('[data-mount=view]').view.told.fingerprint"
    first = page.evaluate(key)
    file.write_text(file.read_text("utf8").replace('"40 mm"]', '"70 mm"]'), "utf8")
    page.evaluate("desk.tell('choices')")
    page.wait_for_function(f"() => {key} !== '{first}'")
    page.wait_for_function(BUSY)
    parts = page.evaluate("document.querySelector('[data-mount=view]').view.told.parts")
    assert next(part for part in parts if part["id"] == "piece")["high_m"][2] == pytest.approx(0.07)
