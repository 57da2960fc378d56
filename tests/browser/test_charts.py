"""Charts as a maker reads them: drawn, gone through by keys, as a table, as a file; light, dark, narrow."""

import csv
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from pourwright.jobs.plan import PlanDocument
from tests.browser.pieces import put
from tests.browser.planned import with_plan
from tests.browser.serving import Served
from tests.browser.test_reachable import AXE, examined as examined, faults, in_each_scheme  # noqa: PLC0414 - a fixture
from tests.browser.watched import ready, watched

CHARTS = ("heat", "level", "calendar", "matters")


@pytest.fixture(scope="module")
def job(server: Served) -> Path:
    return put(server.shop, "charted")


@pytest.fixture(scope="module")
def plan(job: Path) -> PlanDocument:
    return with_plan(job)


# read by all tests but the last, which makes another plan
@pytest.fixture(scope="module")
def page(browser: Browser, server: Served, job: Path, plan: PlanDocument) -> Iterator[Page]:
    with watched(browser, server.address) as watch:
        page = watch.page(f"/jobs/{job.parent.name}")
        for name in CHARTS:
            drawn(page, name)
        yield page


def drawn(page: Page, name: str) -> Locator:
    """One chart, once it is drawn."""
    chart = page.locator(f"#chart-{name}")
    chart.scroll_into_view_if_needed()
    chart.locator(".drawing[data-drawn=yes]").wait_for()
    return chart


def canvas(page: Page, name: str) -> Locator:
    """The first canvas of a chart."""
    return drawn(page, name).locator("canvas").first


def picture(page: Page, name: str) -> str:
    """What is on it."""
    return canvas(page, name).evaluate("(canvas) => canvas.toDataURL()")


def numbers(page: Page, name: str) -> dict:
    """What the page was given to draw."""
    return page.evaluate("(name) => window.desk.get(`charts/${name}.json`)", name)


def test_keys_go_through_the_values_and_say_them(page: Page, plan: PlanDocument) -> None:
    told, chart = numbers(page, "heat"), drawn(page, "heat")
    slider = chart.get_by_role("slider")
    slider.focus()
    for key in ("Home", "ArrowRight", "ArrowRight", "ArrowLeft", "End", "PageDown"):
        slider.press(key)
    # to the end, and twenty values back
    at = len(told["x"]["values"]) - 21
    assert slider.get_attribute("aria-valuenow") == str(at)
    assert slider.get_attribute("aria-valuetext") == told["x"]["texts"][at]
    said = chart.locator("[aria-live]").inner_text()
    for series in told["series"]:
        assert f"{series['words']} {series['texts'][at]}" in said
    start = datetime.fromisoformat(plan.pours[0].start)
    assert told["x"]["texts"][0].startswith(start.strftime("%a %-d %b, %H:%M"))


def test_a_line_that_is_put_aside_is_neither_drawn_nor_read(page: Page) -> None:
    chart = drawn(page, "heat")
    before = picture(page, "heat")
    chart.get_by_role("slider").press("End")
    expect(chart.locator(".readings")).to_contain_text("coolest place")
    chart.get_by_label("coolest place").uncheck()
    expect(chart.locator(".readings")).not_to_contain_text("coolest place")
    assert picture(page, "heat") != before
    chart.get_by_label("coolest place").check()
    assert picture(page, "heat") == before


def test_charts_are_drawn_anew_in_the_dark_and_when_narrow(page: Page) -> None:
    light, wide = picture(page, "level"), canvas(page, "level").bounding_box()["width"]
    page.emulate_media(color_scheme="dark")
    page.wait_for_timeout(100)
    assert picture(page, "level") != light
    page.set_viewport_size({"width": 360, "height": 800})
    page.wait_for_function("() => document.querySelector('#chart-level canvas').offsetWidth < 340")
    assert canvas(page, "level").bounding_box()["width"] < wide
    assert page.evaluate("() => document.documentElement.scrollWidth") <= 360
    page.emulate_media(color_scheme="light")
    page.set_viewport_size({"width": 1280, "height": 900})
    page.wait_for_function("() => document.querySelector('#chart-level canvas').offsetWidth > 900")
    assert picture(page, "level") == light


@pytest.mark.parametrize("name", ["level", "calendar"])
def test_the_table_and_the_file_hold_the_same(page: Page, name: str) -> None:
    told, chart = numbers(page, name), drawn(page, name)
    chart.get_by_text("Table", exact=True).click()
    rows = chart.locator(".as-table tbody tr")
    expect(rows).to_have_count(len(told["table"]["rows"]))
    last = rows.last.locator("th, td").all_inner_texts()
    assert last == [str(cell) for cell in told["table"]["rows"][-1]]
    with page.expect_download() as coming:
        chart.get_by_role("link", name="CSV").click()
    with coming.value.path().open(encoding="utf-8-sig", newline="") as file:
        assert [row[:-1] for row in csv.reader(file)][-1] == last


def test_every_entry_of_the_calendar_has_its_bar_in_the_order_of_time(page: Page, plan: PlanDocument) -> None:
    rows = drawn(page, "calendar").locator(".rows li")
    assert rows.count() == len(plan.calendar)
    lefts = [bar.bounding_box()["x"] for bar in rows.locator(".bar").all()]
    assert lefts == sorted(lefts)
    for row, event in zip(rows.all(), plan.calendar, strict=True):
        assert event.title in row.inner_text()


def test_a_new_plan_takes_the_place_of_the_old_one(page: Page, job: Path) -> None:
    expect(page.locator(".charts .old-word")).to_contain_text("the job has changed")
    before = page.locator("#chart-level").element_handle()
    with_plan(job, 2)
    page.evaluate("() => window.desk.tell('plan')")
    page.wait_for_function("(card) => !card.isConnected", arg=before)
    drawn(page, "level").get_by_text("What is marked in it").click()
    expect(page.locator("#chart-level .in-words li", has_text="below the rim")).to_have_count(2)


def test_a_job_without_a_plan_says_what_to_do_first(opened: Page) -> None:
    expect(opened.locator(".charts")).to_contain_text("make the plan")
    assert opened.evaluate("() => window.desk.get('charts.json')")["charts"] == []


def test_axe_finds_no_fault_in_charts_tables_and_an_enlarged_page(
    examined: BrowserContext, server: Served, job: Path, plan: PlanDocument
) -> None:
    page = examined.new_page()
    page.goto(f"{server.address}/jobs/{job.parent.name}")
    ready(page)
    for name in CHARTS:
        drawn(page, name)
    drawn(page, "level").get_by_text("Table", exact=True).click()
    page.evaluate(AXE.read_text("utf8"))
    for scheme in in_each_scheme(page):
        # a chart's listener draws it after the frame
        page.wait_for_timeout(100)
        assert faults(page, ".charts", ".papers") == [], scheme
    page.locator("[data-sheet=plan] .thumb").first.click()
    for scheme in in_each_scheme(page):
        assert faults(page, ".leaf") == [], scheme
