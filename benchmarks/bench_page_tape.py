"""From a moved border to drawn numbers, in the browser, by the marks the page itself sets.

Goal: under 100 ms median while a border is dragged. The ratio compares with the least a request of this
server can take, that for a small file of the page, in the same run and browser.
"""

import re
import shutil
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

EXAMPLES = Path(__file__).parents[1] / "examples"
CHROMIUM = "/usr/bin/chromium"
SERVE = "from pourwright.cli import main; main()"
MOVES = 60
_LEAST = """async () => {
    const times = [];
    for (let i = 0; i < 30; i += 1) {
        const begin = performance.now();
        await (await fetch('/static/mark.svg', { cache: 'no-store' })).text();
        times.push(performance.now() - begin);
    }
    return times;
}"""


@contextmanager
def served(shop: Path) -> Iterator[str]:
    """Serve a shop; gives its address."""
    command = [sys.executable, "-u", "-c", SERVE, "serve", str(shop), "--no-open", "--port", "0"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    try:
        assert process.stdout is not None
        yield next(found[0] for line in process.stdout if (found := re.search(r"http://[\d.]+:\d+", line)))
    finally:
        process.terminate()
        process.wait()


def dragged(page: Page) -> list[float]:
    """Drag a border up and down; gives the time to numbers of every answer [ms]."""
    border = page.get_by_role("slider", name="Upper end of band 1")
    border.wait_for(timeout=120_000)
    border.scroll_into_view_if_needed()
    page.evaluate("performance.clearMeasures('tape')")
    place = border.bounding_box()
    assert place is not None
    x, y = place["x"] + place["width"] / 2, place["y"] + place["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    for number in range(MOVES):
        page.mouse.move(x, y - 40 + abs(40 - 2 * number % 80))
        page.wait_for_timeout(16)
    page.mouse.up()
    page.wait_for_timeout(1000)
    times: list[float] = page.evaluate("performance.getEntriesByName('tape').map((one) => one.duration)")
    return times


def main() -> None:
    """Drag a border of the stool."""
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        shop = Path(name)
        shutil.copytree(EXAMPLES / "hourglass-stool", shop / "stool", ignore=shutil.ignore_patterns("plan"))
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        with served(shop) as address:
            page = browser.new_page()
            page.goto(f"{address}/jobs/stool")
            times = sorted(dragged(page))
            least = statistics.median(page.evaluate(_LEAST))
        browser.close()
        middle, worst = statistics.median(times), times[int(0.95 * len(times))]
        print(f"{MOVES} moves, {len(times)} answers: median {middle:.0f} ms, 95 % under {worst:.0f} ms")
        print(f"a small file takes {least:.1f} ms; ratio of the medians {middle / least:.1f}")


if __name__ == "__main__":
    main()
