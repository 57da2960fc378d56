"""For everybody: no fault that axe knows of, everything by keyboard."""

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from tests.browser.serving import Served
from tests.browser.watched import ready
from tests.contracts.house import ROOT

AXE = ROOT / "page" / "node_modules" / "axe-core" / "axe.min.js"


def faults(page: Page, *parts: str) -> list[str]:
    """What axe finds wrong in the page or in parts of it, each with its place."""
    found: list[dict[str, Any]] = page.evaluate(
        "(parts) => axe.run(parts.length ? { include: parts } : document).then((told) => told.violations)",
        [[part] for part in parts],
    )
    return [
        f"{one['id']}: {node['target']} {node['failureSummary']}" for one in found for node in one["nodes"]
    ]


def in_each_scheme(page: Page) -> Iterator[str]:
    """Show a page in light colours, then in dark ones: all that a scheme changes is drawn anew."""
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        page.evaluate("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")
        yield scheme


@pytest.fixture
def examined(browser: Browser) -> Iterator[BrowserContext]:
    """A browser that lets a test bring axe along, which the page's own policy forbids."""
    assert AXE.exists(), "axe-core is missing: ./run setup brings it"
    context = browser.new_context(bypass_csp=True, reduced_motion="reduce")
    yield context
    context.close()


@pytest.fixture(params=["light", "dark"])
def looked_at(browser: Browser, request: pytest.FixtureRequest) -> Iterator[BrowserContext]:
    """A browser that lets a test bring axe along, which the page's own policy forbids."""
    assert AXE.exists(), "axe-core is missing: ./run setup brings it"
    context = browser.new_context(bypass_csp=True, color_scheme=request.param, reduced_motion="reduce")
    yield context
    context.close()


@pytest.mark.parametrize("path", ["/", "/new", "/jobs/{job}", "/jobs/none"])
def test_axe_finds_no_fault(
    examined: BrowserContext, server: Served, new_job: Callable[..., Path], path: str
) -> None:
    page = examined.new_page()
    page.goto(server.address + path.format(job=new_job().parent.name))
    ready(page)
    page.evaluate(AXE.read_text("utf8"))
    for width in (1280, 360):
        page.set_viewport_size({"width": width, "height": 900})
        for scheme in in_each_scheme(page):
            assert faults(page) == [], json.dumps({"width": width, "scheme": scheme})


_FOCUSED = """() => {
    const one = document.activeElement;
    if (!one || one === document.body) return null;
    const style = getComputedStyle(one);
    const box = one.getBoundingClientRect();
    one.dataset.reached = 'yes';
    return {
        what: one.outerHTML.slice(0, 120),
        seen: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2,
        inside: box.bottom > 0 && box.top < innerHeight && box.width > 0,
    };
}"""
_NOT_REACHED = """() => [...document.querySelectorAll(
    'a[href], button, input, select, textarea, summary, [tabindex="0"]')]
    .filter((one) => !one.disabled && one.checkVisibility({ checkVisibilityCSS: true })
        && !one.closest('[inert], details:not([open]) > :not(summary)')
        && !one.dataset.reached && !(one.type === 'radio' && !one.checked))
    .map((one) => one.outerHTML.slice(0, 120))"""


def steady(page: Page) -> None:
    """Wait until nothing that can be reached has come or gone for a second."""
    page.wait_for_function(
        """() => {
            const many = document.querySelectorAll('a[href], button, input, select, summary').length;
            if (window.lastSeen?.many !== many) window.lastSeen = { many, at: performance.now() };
            return performance.now() - window.lastSeen.at > 1000;
        }""",
        polling=100,
    )


def test_everything_on_a_job_is_reached_by_tab_and_its_focus_is_seen(opened: Page) -> None:
    steady(opened)
    opened.evaluate("document.activeElement.blur()")
    walked = []
    while len(walked) < 600:
        opened.keyboard.press("Tab")
        here = opened.evaluate(_FOCUSED)
        if here is None:
            break
        walked.append(here)
    assert len(walked) < 600, "Tab goes round and round"
    assert [one["what"] for one in walked if not one["seen"]] == []
    assert [one["what"] for one in walked if not one["inside"]] == []
    assert opened.evaluate(_NOT_REACHED) == []
