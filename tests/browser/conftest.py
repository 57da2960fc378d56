"""The page in Debian's browser, served by a process of its own."""

import itertools
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright

from tests.browser.pieces import BLOCK, put
from tests.browser.serving import Served, served
from tests.browser.watched import PATIENCE, Watched, browser_of, watched

HERE = Path(__file__).parent
_numbers = itertools.count()
# for what never comes: others may be at work on this machine
expect.set_options(timeout=PATIENCE)


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """One browser, one server: these tests stand in one line and do not starve each other."""
    for item in items:
        if HERE in item.path.parents:
            item.add_marker(pytest.mark.xdist_group("browser"))


# not for the whole session: while it is open, its event loop counts as running in this process
@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = browser_of(playwright)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def caches(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Kept results of the servers, none of them the user's."""
    return tmp_path_factory.mktemp("caches")


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory, caches: Path) -> Iterator[Served]:
    """A shop that is served, its shelf empty."""
    with served(tmp_path_factory.mktemp("shop"), caches) as one:
        yield one


@pytest.fixture
def maker(browser: Browser, server: Served) -> Iterator[Watched]:
    """A maker's browser in which nothing goes wrong unseen."""
    with watched(browser, server.address) as watch:
        yield watch


@pytest.fixture
def new_job(server: Served) -> Callable[..., Path]:
    """Put a job of its own on the shelf; gives its file."""
    return lambda text=BLOCK: put(server.shop, f"block-{next(_numbers)}", text)


@pytest.fixture
def opened(maker: Watched, new_job: Callable[..., Path]) -> Page:
    """The page of a small job."""
    return maker.page(f"/jobs/{new_job().parent.name}")
