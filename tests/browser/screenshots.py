"""Every screen of the page as a picture, in light and dark: ``python -m tests.browser.screenshots [--docs]``.

They lie in ``build/screenshots``. With ``--docs`` the few that the manual shows are made small and put into
``docs/pictures``.
"""

import argparse
import shlex
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser, BrowserContext, Page, TimeoutError as TookTooLong, sync_playwright

from tests.browser.screens import LIVED, SCREENS, Screen, planned
from tests.browser.serving import served
from tests.browser.watched import browser_of, ready
from tests.contracts.house import ROOT

OUT = ROOT / "build" / "screenshots"
DOCS = ROOT / "docs" / "pictures"
WIDTHS = (360, 1280, 2560)
WIDEST = 3840
"""Made in light only."""
EXAMPLES = ("hourglass-stool", "table-lamp")
DOCS_WIDTH, DOCS_HEIGHT = 1000, 1300
DOCS_COLOURS = (128, 64, 32, 24)
SMALL, ALL_OF_THEM = 120_000, 900_000


def main() -> None:
    """Make them all."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--docs", action="store_true", help="only those of the manual, small")
    asked.add_argument("--only", default="", help="only screens whose name holds this")
    asked.add_argument("--width", type=int, help="only this width")
    given = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        shop = Path(folder) / "my shop"
        _fill(shop)
        with served(shop, Path(folder) / "caches") as server:
            browser = browser_of(playwright)
            screens = [one for one in SCREENS if given.only in one.name]
            if any(one.needs_plan for one in screens):
                _plan(browser, server.address)
                _live(shop)
            if given.docs:
                _for_the_manual(browser, server.address, screens)
            else:
                _all(browser, server.address, screens, given.width)
            browser.close()


def _fill(shop: Path) -> None:
    for name in EXAMPLES:
        left_out = shutil.ignore_patterns("plan", "*.py")
        shutil.copytree(ROOT / "examples" / name, shop / name, ignore=left_out)


def _plan(browser: Browser, address: str) -> None:
    """Plan the smaller example through the page, as its maker does."""
    with _looking(browser, 1280, "light") as context:
        page = context.new_page()
        page.goto(f"{address}/jobs/table-lamp")
        ready(page)
        planned(page)


def _live(shop: Path) -> None:
    """Buy, pour the planned lamp and take it out of its mold as a shop would; all of it invented."""
    for words in map(shlex.split, LIVED.strip().splitlines()):
        asked = [sys.executable, "-c", "from pourwright.cli import main; main()", *words]
        done = subprocess.run(asked, cwd=shop, capture_output=True, text=True, check=False)
        if done.returncode:
            print(f"{' '.join(words)}: {done.stderr.strip()}", file=sys.stderr)


def _all(browser: Browser, address: str, screens: list[Screen], width: int | None) -> None:
    views = [(each, scheme) for each in WIDTHS for scheme in ("light", "dark")] + [(WIDEST, "light")]
    for each, scheme in views:
        if width is not None and each != width:
            continue
        folder = OUT / f"{each}-{scheme}"
        folder.mkdir(parents=True, exist_ok=True)
        with _looking(browser, each, scheme) as context:
            for screen in screens:
                _take(context, address, screen, folder / f"{screen.name}.png")


def _for_the_manual(browser: Browser, address: str, screens: list[Screen]) -> None:
    DOCS.mkdir(parents=True, exist_ok=True)
    with _looking(browser, 1280, "light") as context:
        for screen in screens:
            if not screen.docs:
                continue
            goal = DOCS / f"{screen.docs}.png"
            _take(context, address, screen, goal)
            _make_small(goal)
    assert sum(one.stat().st_size for one in DOCS.glob("*.png")) <= ALL_OF_THEM


def _make_small(goal: Path) -> None:
    """Scale a picture down and take colours out of it until it is light enough to be kept with the source."""
    with Image.open(goal) as taken:
        small = taken.convert("RGB")
    small.thumbnail((DOCS_WIDTH, DOCS_HEIGHT), Image.Resampling.LANCZOS)
    for colours in DOCS_COLOURS:
        few = small.quantize(colours, method=Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE)
        few.save(goal, optimize=True)
        if goal.stat().st_size <= SMALL:
            return
    raise AssertionError(f"{goal.name} is too large for the manual")


@contextmanager
def _looking(browser: Browser, width: int, scheme: str) -> Iterator[BrowserContext]:
    height = 780 if width < 700 else max(900, width * 9 // 16)
    context = browser.new_context(
        viewport={"width": width, "height": height}, color_scheme=scheme, reduced_motion="reduce"
    )
    context.set_default_timeout(30_000)
    yield context
    context.close()


def _take(context: BrowserContext, address: str, screen: Screen, goal: Path) -> None:
    page = context.new_page()
    try:
        page.goto(address + screen.path)
        ready(page)
        screen.do(page)
        if screen.part:
            # it would lie across the picture
            page.evaluate("() => document.querySelector('.steps')?.style.setProperty('position', 'static')")
        # what is drawn when it comes into sight has to be in sight once
        _walk(page)
        with suppress(TookTooLong):
            page.wait_for_function("() => [...document.images].every((one) => one.complete)", timeout=6000)
        page.wait_for_timeout(400)
        if screen.part:
            page.locator(screen.part).first.screenshot(path=goal)
        else:
            page.screenshot(path=goal, full_page=screen.whole)
    except Exception as error:  # noqa: BLE001 one screen that fails does not hide the rest
        print(f"{goal.relative_to(ROOT)}: {str(error).splitlines()[0]}", file=sys.stderr)
    else:
        print(goal.relative_to(ROOT))
    finally:
        page.close()


def _walk(page: Page) -> None:
    for eighth in range(1, 9):
        page.evaluate(f"scrollTo(0, document.documentElement.scrollHeight * {eighth} / 8)")
        page.wait_for_timeout(100)
    page.evaluate("scrollTo(0, 0)")


if __name__ == "__main__":
    main()
