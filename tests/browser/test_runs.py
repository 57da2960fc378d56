"""Long work on the page, with the real solver: planned, cancelled, the server killed in its midst."""

import json
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from tests.browser.pieces import put
from tests.browser.serving import Served, alive, below, served
from tests.browser.watched import Watched, watched
from tests.runs.watching import wait_until

NOW = ".runs-now .state"
PLANNED = 240_000
"""A quick plan on a busy computer, kernels compiled [ms]."""


def plan_quickly(page: Page) -> None:
    page.get_by_label("How the plan is made").select_option("quick")
    page.get_by_role("button", name="Plan the pours").click()


def test_a_plan_is_made_and_grows_old_with_a_hand_edit(maker: Watched, new_job: Callable[..., Path]) -> None:
    job = new_job()
    page = maker.page(f"/jobs/{job.parent.name}")
    there = page.locator(".runs-there")
    expect(there).to_contain_text("Plan: not worked out yet.")
    plan_quickly(page)
    expect(page.locator(NOW)).to_contain_text("Now: planning the pours")
    expect(page.locator(".runs-now progress")).to_be_visible()
    expect(page.get_by_role("button", name="Plan the pours")).to_be_disabled()
    expect(page.locator(NOW)).to_have_text("Done: planning the pours.", timeout=PLANNED)
    expect(there).to_contain_text("of the choices as they are now")
    plan = json.loads((job.parent / "plan" / "plan.json").read_text("utf8"))
    assert plan["job"]["title"] == "Small block"
    job.write_text(job.read_text("utf8").replace("21 degC", "19 degC"), "utf8")
    expect(there).to_contain_text("Old: made from other choices.")
    expect(there).to_contain_text("shop.temperature was 21 degC, is now 19 degC")
    job.write_text(job.read_text("utf8").replace("19 degC", "21 degC"), "utf8")
    expect(there).not_to_contain_text("Old")


def test_cancel_leaves_no_process_and_no_plan(
    maker: Watched, server: Served, new_job: Callable[..., Path]
) -> None:
    job = new_job()
    page = maker.page(f"/jobs/{job.parent.name}")
    page.get_by_role("button", name="Plan the pours").click()
    wait_until(lambda: len(below(server.process.pid)) > 1)
    expect(page.locator(".runs-now .stage")).to_contain_text("searching", timeout=PLANNED)
    those = below(server.process.pid)
    page.keyboard.press("Enter")
    expect(page.locator(NOW)).to_contain_text("Cancelled", timeout=2_000)
    assert alive(those) == set()
    assert [one.name for one in job.parent.iterdir() if "plan" in one.name] == []
    expect(page.get_by_role("button", name="Begin again")).to_be_focused()


def test_after_the_server_was_killed_the_page_finds_the_next_and_begins_again(
    browser: Browser, tmp_path: Path, caches: Path
) -> None:
    job = put(tmp_path / "shop", "block")
    with served(tmp_path / "shop", caches) as first, watched(browser, first.address) as watch:
        watch.context.set_default_timeout(30_000)
        page = watch.page("/jobs/block")
        page.get_by_role("button", name="Plan the pours").click()
        expect(page.locator(NOW)).to_contain_text("Now")
        wait_until(lambda: len(below(first.process.pid)) > 1)
        those = below(first.process.pid)
        first.kill()
        wait_until(lambda: alive(those) == set())
        expect(page.locator(".runs-lost")).to_contain_text("does not answer")
        # it is not there, and the page may say so
        watch.troubles.clear()
        with served(tmp_path / "shop", caches, port=int(first.address.rpartition(":")[2])):
            expect(page.locator(".runs-lost")).to_contain_text("started again", timeout=30_000)
            expect(page.locator(NOW)).to_contain_text("Interrupted: planning the pours")
            assert job.read_text("utf8").startswith("# Invented")
            watch.troubles.clear()
            page.get_by_role("button", name="Begin again").click()
            expect(page.locator(NOW)).to_contain_text("Now: planning the pours")
            page.get_by_role("button", name="Cancel").click()
            expect(page.locator(NOW)).to_contain_text("Cancelled")
