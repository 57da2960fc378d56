"""What comes when a page is opened: little, and from here."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.serving import Served
from tests.browser.watched import Watched, ready, watched

MOST = 250_000
WIDE = 8


def loaded(page: Page, address: str) -> tuple[int, list[str]]:
    """Bytes of all bodies as they travelled until the page was still, and what was asked for."""
    session = page.context.new_cdp_session(page)
    session.send("Network.enable")
    session.send("Network.setCacheDisabled", {"cacheDisabled": True})
    sizes: list[int] = []
    urls: list[str] = []
    session.on("Network.dataReceived", lambda told: sizes.append(told["encodedDataLength"]))
    session.on("Network.requestWillBeSent", lambda told: urls.append(told["request"]["url"]))
    page.goto(address)
    ready(page)
    for share in range(1, WIDE + 1):
        page.evaluate(f"scrollTo(0, document.documentElement.scrollHeight * {share / WIDE})")
        page.wait_for_timeout(150)
    before = 0
    while len(urls) > before:
        before = len(urls)
        page.wait_for_timeout(500)
    return sum(sizes), urls


@pytest.mark.parametrize("path", ["/", "/new", "/jobs/{job}"])
def test_a_page_and_all_it_loads_later_weighs_little(
    maker: Watched, new_job: Callable[..., Path], path: str
) -> None:
    address = maker.address + path.format(job=new_job().parent.name)
    size, urls = loaded(maker.context.new_page(), address)
    assert len(urls) > 2
    assert 1_000 < size < MOST


def test_a_narrow_screen_is_never_pushed_sideways(
    browser: Browser, server: Served, new_job: Callable[..., Path]
) -> None:
    job = new_job().parent.name
    with watched(browser, server.address, width=360) as watch:
        for path in ("/", f"/jobs/{job}", "/new"):
            page = watch.page(path)
            assert too_wide(page) == "", path
        for way in page.locator("input[name=way]").all():
            way.check()
            assert too_wide(page) == "", way.get_attribute("value")


def too_wide(page: Page) -> str:
    """Nothing, or what pushes the page sideways."""
    page.wait_for_timeout(200)
    return "" if page.evaluate("document.documentElement.scrollWidth") == 360 else page.evaluate(_TOO_WIDE)


_TOO_WIDE = """[...document.querySelectorAll('main *')].filter((one) =>
    one.getBoundingClientRect().right > 361 && !one.closest('.scroll, .steps, .visually-hidden'))
    .map((one) => one.tagName + '.' + one.className + '#' + one.id).slice(0, 5).join(' ')"""
