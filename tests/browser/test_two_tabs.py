"""Two tabs on one job: nobody's choice is lost."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

from pourwright.jobs import load_job
from tests.browser.watched import Watched


def box(page: Page, key: str) -> Locator:
    """Where a choice is typed."""
    return page.locator(f".field[data-key='{key}'] input")


def test_both_keep_what_they_chose(maker: Watched, new_job: Callable[..., Path]) -> None:
    job = new_job()
    path = f"/jobs/{job.parent.name}"
    one, other = maker.page(path), maker.page(path)
    for page, key, words in ((one, "mold.wall", "22 mm"), (other, "shop.temperature", "24 degC")):
        page.bring_to_front()
        box(page, key).fill(words)
        box(page, key).press("Enter")
    expect(box(other, "mold.wall")).to_have_value("22 mm")
    one.bring_to_front()
    expect(box(one, "shop.temperature")).to_have_value("24 degC")
    now = load_job(job)
    assert now.mold.wall.si == pytest.approx(0.022)
    assert now.shop.temperature.si == pytest.approx(297.15)
