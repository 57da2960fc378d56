"""The bench on a phone: one step at a time, an hour without network, nothing lost or doubled."""

import hashlib
import itertools
import re
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from pourwright.app.benching.journal import read_journal
from tests.browser.serving import Served
from tests.browser.test_reachable import AXE, examined as examined, faults, in_each_scheme  # noqa: PLC0414 - a fixture
from tests.browser.watched import PATIENCE, Watched, watched
from tests.records.making import PHOTO
from tests.sheets.laid import lay_plan
from tests.sheets.sample_chances import sure_plan

WIDTH = 360


@pytest.fixture
def job(new_job: Callable[..., Path]) -> Path:
    """Folder of a job with an invented plan of two pours."""
    folder = new_job().parent
    lay_plan(sure_plan(2, title=f"Hourglass stool, {folder.name}"), folder / "plan")
    return folder


@pytest.fixture
def phone(browser: Browser, server: Served) -> Iterator[Watched]:
    """A small screen; being off-line is no trouble here."""
    with watched(browser, server.address, WIDTH) as watch:
        watch.may_fail("/entries", "/bench.json", "/photos/")
        yield watch


@pytest.fixture
def bench(phone: Watched, job: Path) -> Page:
    return opened(phone.page(f"/jobs/{job.name}/bench"))


def opened(page: Page) -> Page:
    page.locator("#bench[data-ready=yes]").wait_for()
    return page


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def saved(page: Page) -> None:
    expect(page.locator("#bench-state")).to_have_text("All that was entered is on the laptop.")


def logged(job: Path) -> list[tuple[str, float | None, str]]:
    return [(one.kind, one.value, one.text) for one in read_journal(job).entries]


def go_through_a_batch(page: Page) -> None:
    """Ready, A and B as planned, mixed, in the mold."""
    press(page, "All of it is done")
    press(page, "As planned")
    expect(page.locator("#bench-head")).to_have_text("Weigh B, batch 1 of 3")
    press(page, "As planned")
    press(page, "Mixed")
    press(page, "It is in the mold")
    expect(page.locator("#bench-head")).to_have_text("Weigh A, batch 2 of 3")


BATCH = [
    ("step", None, "ready for pour 1"),
    ("weigh_a", 1.159, "batch 1 of 3, as planned"),
    ("weigh_b", 0.522, "batch 1 of 3, as planned"),
    ("mixed", 1.681, "batch 1 of 3, A and B together"),
    ("step", None, "in the mold: batch 1 of 3"),
]


def test_only_the_next_step_is_shown_and_each_press_is_on_disk(bench: Page, job: Path) -> None:
    expect(bench.locator("#bench-head")).to_have_text("Get ready for pour 1")
    assert bench.get_by_role("button", name="As planned").count() == 0
    go_through_a_batch(bench)
    saved(bench)
    assert logged(job) == BATCH


def test_an_hour_without_network_loses_and_doubles_nothing(bench: Page, phone: Watched, job: Path) -> None:
    phone.context.set_offline(True)
    go_through_a_batch(bench)
    expect(bench.locator("#bench-state")).to_contain_text("5 entries wait on this phone")
    assert logged(job) == []
    phone.context.set_offline(False)
    saved(bench)
    assert logged(job) == BATCH
    # the timers went on from when it happened, not from when it was sent
    written = [one.written - one.at for one in read_journal(job).entries]
    assert all(gap > timedelta(0) for gap in written)


def test_an_answer_that_is_lost_on_its_way_doubles_nothing(bench: Page, phone: Watched, job: Path) -> None:
    lost = itertools.count()

    def once(route: object) -> None:
        if next(lost) == 0:
            route.fetch()  # type: ignore[attr-defined]
            route.abort()  # type: ignore[attr-defined]
        else:
            route.continue_()  # type: ignore[attr-defined]

    bench.route("**/entries", once)
    press(bench, "All of it is done")
    expect(bench.locator("#bench-head")).to_have_text("Weigh A, batch 1 of 3")
    saved(bench)
    assert next(lost) > 1
    assert logged(job) == BATCH[:1]


def test_two_phones_that_press_the_same_step_enter_it_once(
    bench: Page, phone: Watched, browser: Browser, server: Served, job: Path
) -> None:
    with watched(browser, server.address, WIDTH) as other:
        other.may_fail("/entries", "/bench.json")
        second = opened(other.page(f"/jobs/{job.name}/bench"))
        for context in (phone.context, other.context):
            context.set_offline(True)
        press(bench, "All of it is done")
        press(bench, "As planned")
        press(second, "All of it is done")
        second.get_by_label("or what it really was").fill("1,140")
        second.get_by_label("unit").select_option(label="kg")
        press(second, "Enter it")
        phone.context.set_offline(False)
        saved(bench)
        other.context.set_offline(False)
        saved(second)
        expect(second.locator(".bench-refused li")).to_have_count(1)
        expect(second.locator(".bench-refused")).to_contain_text("another phone has entered something else")
        assert logged(job) == BATCH[:2]
        press(second, "It is another one: enter it")
        expect(second.locator(".bench-refused")).to_have_count(0)
        saved(second)
    assert logged(job) == [*BATCH[:2], ("weigh_a", 1.14, "batch 1 of 3")]


def test_what_waits_is_sent_by_the_next_page_of_this_phone(bench: Page, phone: Watched, job: Path) -> None:
    phone.context.set_offline(True)
    press(bench, "All of it is done")
    expect(bench.locator("#bench-state")).to_contain_text("1 entry waits")
    bench.close(run_before_unload=False)
    phone.context.set_offline(False)
    page = opened(phone.page(f"/jobs/{job.name}/bench"))
    expect(page.locator("#bench-head")).to_have_text("Weigh A, batch 1 of 3")
    saved(page)
    assert logged(job) == BATCH[:1]


def test_the_real_weight_is_typed_and_b_follows_it(bench: Page, job: Path) -> None:
    press(bench, "All of it is done")
    bench.get_by_label("or what it really was").fill("1,200")
    bench.get_by_label("unit").select_option(label="kg")
    press(bench, "Enter it")
    # 100 : 45 by weight
    expect(bench.locator(".bench-big")).to_have_text("540 g")
    press(bench, "So much: 540 g")
    press(bench, "Mixed")
    saved(bench)
    assert [(kind, value) for kind, value, _ in logged(job)][1:] == [
        ("weigh_a", 1.2),
        ("weigh_b", 0.54),
        ("mixed", 1.74),
    ]


def test_what_is_no_weight_is_told_and_not_entered(bench: Page, job: Path) -> None:
    press(bench, "All of it is done")
    for typed in ("", "-3", "abc", "1.2.3", "0"):
        bench.locator("#bench-now [role=alert]").evaluate_all(
            "(all) => all.forEach((one) => { one.textContent = ''; })"
        )
        bench.get_by_label("or what it really was").fill(typed)
        press(bench, "Enter it")
        expect(bench.locator("#bench-now [role=alert]")).not_to_be_empty()
    saved(bench)
    assert logged(job) == BATCH[:1]


def test_a_mistake_is_undone_and_kept(bench: Page, job: Path) -> None:
    press(bench, "All of it is done")
    press(bench, "As planned")
    bench.get_by_role("button", name="Undo: A weighed").click()
    expect(bench.locator("#bench-head")).to_have_text("Weigh A, batch 1 of 3")
    saved(bench)
    assert bench.locator("#bench-refused").inner_text() == ""
    first, weighed, back = read_journal(job).entries
    assert (weighed.value, back.kind, back.replaces) == (1.159, "note", weighed.id)
    # a second look at the log: the old one stands there still, struck through
    bench.get_by_text("What was entered").click()
    assert bench.locator("#bench-log s").all_inner_texts() == ["A weighed, 1.16 kg, batch 1 of 3, as planned"]
    assert first.kind == "step"


def test_a_weight_is_corrected_and_the_old_one_kept(bench: Page, job: Path) -> None:
    press(bench, "All of it is done")
    press(bench, "As planned")
    bench.get_by_text("What was entered").click()
    bench.get_by_role("button", name="Correct A weighed").click()
    bench.get_by_label("A weighed: what it really was").fill("1100")
    bench.locator("#bench-correct").get_by_role("button", name="Enter it").click()
    expect(bench.locator(".bench-big")).to_have_text("495 g")
    saved(bench)
    _, old, new = read_journal(job).entries
    assert (old.value, new.value, new.replaces, new.at) == (1.159, 1.1, old.id, old.at)
    # which batch it was stays, and that it was as planned does not
    assert (old.text, new.text) == ("batch 1 of 3, as planned", "batch 1 of 3")


def test_a_timer_ends_at_the_same_moment_after_a_reload(bench: Page, job: Path) -> None:
    for name in ("All of it is done", "As planned", "As planned", "Mixed"):
        press(bench, name)
    saved(bench)
    mixed = read_journal(job).entries[-1].at
    # pot life of three quarters of an hour less the five minutes of mixing
    until = (mixed + timedelta(minutes=40)).astimezone(
        datetime.fromisoformat("2026-12-01T09:00+01:00").tzinfo
    )
    timer = bench.locator("#bench-now .bench-timers strong").first
    clock = f"{until:%H:%M}" if mixed.month in (11, 12, 1, 2) else ""
    # past midnight the day stands before it
    expect(timer).to_contain_text(re.compile(rf"until (\w+ \d+ \w+, )?{clock}"))
    text = timer.inner_text()
    bench.reload()
    opened(bench)
    assert bench.locator("#bench-now .bench-timers strong").first.inner_text() == text


def test_a_timer_is_right_after_the_phone_has_slept(bench: Page) -> None:
    for name in ("All of it is done", "As planned", "As planned", "Mixed"):
        press(bench, name)
    left = bench.locator("#bench-now .bench-timers .left").first
    expect(left).to_contain_text("min left")
    hours, minutes = re.fullmatch(r"(?:(\d+) h )?(\d+) min left\s*", left.inner_text()).groups(default="0")
    # the clock goes on while nothing ticks; the server, whose clock has not, must not be asked
    bench.context.set_offline(True)
    asleep = 60 * int(hours) + int(minutes) + 2
    bench.evaluate(f"() => {{ const now = Date.now; Date.now = () => now() + {asleep} * 60000; }}")
    expect(left).to_contain_text("over since")


def test_a_photo_is_sent_with_its_entry(bench: Page, phone: Watched, job: Path) -> None:
    phone.context.set_offline(True)
    bench.get_by_text("Something else").click()
    photo = {"name": "top.jpg", "mimeType": "image/jpeg", "buffer": PHOTO}
    bench.get_by_label("A photo").set_input_files([photo])
    expect(bench.locator("#bench-state")).to_contain_text("1 entry waits")
    phone.context.set_offline(False)
    saved(bench)
    sha256 = hashlib.sha256(PHOTO).hexdigest()
    assert (job / "photos" / f"{sha256}.jpeg").read_bytes() == PHOTO
    assert [one.photo for one in read_journal(job).entries] == [sha256]


def test_the_page_reckons_the_hashes_that_others_do(bench: Page) -> None:
    for size in (0, 1, 55, 56, 63, 64, 65, 1000):
        content = bytes(i % 251 for i in range(size))
        found = bench.evaluate(
            """async (bytes) => {
                const { sha256 } = await import('/static/js/bench/made.js');
                return sha256(Uint8Array.from(bytes).buffer);
            }""",
            list(content),
        )
        assert found == hashlib.sha256(content).hexdigest()


def test_what_is_not_taken_is_shown_and_stays_until_it_is_put_away(
    bench: Page, phone: Watched, job: Path
) -> None:
    bench.evaluate("() => { const now = Date.now; Date.now = () => now() + 3600 * 1000; }")
    press(bench, "All of it is done")
    expect(bench.locator(".bench-refused")).to_contain_text("still to come")
    expect(bench.locator("#bench-head")).to_have_text("Get ready for pour 1")
    bench.reload()
    opened(bench)
    press(bench, "Put it away")
    expect(bench.locator(".bench-refused")).to_have_count(0)
    assert logged(job) == []


def test_a_level_is_typed_as_a_dip_and_kept_from_the_floor(bench: Page, job: Path) -> None:
    bench.get_by_text("Something else").click()
    press(bench, "A level")
    more = bench.locator("#bench-more")
    more.get_by_label("A level").fill("350")
    more.get_by_role("button", name="Enter it").click()
    saved(bench)
    more.get_by_role("button", name="A level").click()
    more.get_by_label("A level").fill("500")
    more.get_by_role("button", name="Enter it").click()
    expect(more.locator(".bench-ask [role=alert]")).to_contain_text("outside the mold")
    # the invented mold is 450 mm deep
    ((kind, value, _),) = logged(job)
    assert (kind, value) == ("level", pytest.approx(0.1))


def test_buttons_fit_a_glove_and_the_page_a_small_phone(bench: Page) -> None:
    for _ in range(3):
        small = bench.evaluate(
            """() => [...document.querySelectorAll('#bench :is(button, summary, input, select)')]
              .filter((one) => one.offsetParent).map((one) => one.getBoundingClientRect())
              .filter((box) => box.height < 56 || box.right > innerWidth + 0.5).length"""
        )
        assert small == 0
        assert bench.evaluate("() => document.documentElement.scrollWidth <= innerWidth")
        bench.locator("#bench-now .first").click()


def test_axe_finds_no_fault_at_any_step(examined: BrowserContext, server: Served, job: Path) -> None:
    page = examined.new_page()
    page.set_default_timeout(PATIENCE)
    page.set_viewport_size({"width": WIDTH, "height": 800})
    page.goto(f"{server.address}/bench")
    page.evaluate(AXE.read_text("utf8"))
    for scheme in in_each_scheme(page):
        assert faults(page) == [], scheme
    page.goto(f"{server.address}/jobs/{job.name}/bench")
    opened(page)
    page.evaluate(AXE.read_text("utf8"))
    for summary in page.locator("summary").all():
        summary.click()
    for step in range(4):
        for scheme in in_each_scheme(page):
            assert faults(page) == [], (step, scheme)
        page.locator("#bench-now .first").click()


def test_it_is_all_done_by_keyboard(bench: Page, job: Path) -> None:
    bench.locator("#bench-now .first").focus()
    bench.keyboard.press("Enter")
    expect(bench.locator("#bench-head")).to_be_focused()
    bench.keyboard.press("Tab")
    bench.keyboard.press("Enter")
    expect(bench.locator("#bench-head")).to_have_text("Weigh B, batch 1 of 3")
    saved(bench)
    assert [kind for kind, _, _ in logged(job)] == ["step", "weigh_a"]
