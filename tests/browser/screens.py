"""Which screens there are, and how one comes to each."""

from collections.abc import Callable
from dataclasses import dataclass

from playwright.sync_api import Page, expect

STEPS = ("piece", "mold", "fill", "pour", "paper")
LAMP, STOOL, LOG = "/jobs/table-lamp", "/jobs/hourglass-stool", "/book/log/table-lamp"
DRAWN = "() => document.querySelector('[data-mount=view]').view?.room.dataset.busy === undefined"
PLANNED = 300_000
"""A first plan may have to compile [ms]."""


def _as_it_comes(_page: Page) -> None:
    pass


@dataclass(frozen=True)
class Screen:
    """One screen.

    ``do`` brings the page there; ``part`` is the piece of it that is taken, else what is in sight, or the
    ``whole``; ``docs`` is its name in the manual.
    """

    name: str
    path: str
    do: Callable[[Page], None] = _as_it_comes
    part: str = ""
    whole: bool = True
    docs: str = ""
    needs_plan: bool = False


def planned(page: Page) -> None:
    """Make a quick plan through the page and wait for it."""
    page.get_by_label("How the plan is made").select_option("quick")
    page.get_by_role("button", name="Plan the pours").click()
    expect(page.locator("#runs-state")).to_contain_text("Done", timeout=PLANNED)


def _way(name: str) -> Callable[[Page], None]:
    def choose(page: Page) -> None:
        page.locator("#new[data-ready=yes]").wait_for()
        page.locator(f"input[name=way][value={name}]").check()

    return choose


def _sizes(page: Page) -> None:
    _way("form")(page)
    for field, size in zip(page.locator(".size").all(), ("12 in", "8 in", "40 mm"), strict=True):
        field.fill(size)
    page.get_by_label("Name of the piece").fill("Step for the door")


def _refused(page: Page) -> None:
    _way("form")(page)
    page.get_by_role("button", name="Begin").click()
    expect(page.locator("#refused")).not_to_be_empty()


def _view(page: Page) -> None:
    page.locator("[data-mount=view]").scroll_into_view_if_needed()
    page.wait_for_function(
        "() => document.querySelector('[data-mount=view]').view?.room.dataset.busy === undefined"
    )
    page.wait_for_timeout(800)


def _apart(page: Page) -> None:
    _view(page)
    page.get_by_label("Pulled apart").focus()
    page.keyboard.press("End")


def _heat(page: Page) -> None:
    _view(page)
    page.get_by_label("Show on the cut").select_option("temperature")
    page.get_by_role("button", name="Hottest moment").click()
    page.wait_for_timeout(800)


def _thickness(page: Page) -> None:
    _view(page)
    page.get_by_label("Colour the piece by").select_option("thickness")
    page.wait_for_timeout(1500)


def _in_words(page: Page) -> None:
    _view(page)
    page.get_by_text("The same in words").click()
    page.wait_for_timeout(1500)


def _help(page: Page) -> None:
    page.locator(".field[data-key='mold.wall'] .ask").click()
    page.locator(".field[data-key='mold.wall'] .help p").first.wait_for()


def _wrong(page: Page) -> None:
    field = page.locator(".field[data-key='mold.wall'] input")
    field.fill("19")
    field.press("Enter")
    expect(page.locator(".field[data-key='mold.wall'] .error")).to_be_visible()


def _all_choices(page: Page) -> None:
    for more in page.locator("details.more:visible > summary").all():
        more.click()


def _text(page: Page) -> None:
    page.get_by_text("The job file as text").click()
    page.wait_for_timeout(500)


def _leaf(page: Page) -> None:
    page.locator(".thumb").first.scroll_into_view_if_needed()
    page.locator(".thumb").first.click()
    page.wait_for_timeout(1500)


def _conflict(page: Page) -> None:
    both = {"error": {"what": "changed elsewhere"}, "conflict": {"file": "7/8 in"}}
    page.route("**/choices?*", lambda route: route.fulfill(status=409, json=both))
    field = page.locator(".field[data-key='mold.wall'] input")
    field.fill("1 in")
    field.press("Enter")
    page.get_by_role("dialog").wait_for()


def _drawn(page: Page) -> None:
    for chart in page.locator(".chart").all():
        chart.scroll_into_view_if_needed()
        expect(chart).not_to_contain_text("is drawn ...")


def _tables(page: Page) -> None:
    _drawn(page)
    for table in page.locator("details.as-table > summary").all():
        table.click()


def _sawn(page: Page) -> None:
    page.locator("#cut[data-ready=yes]").wait_for()
    if not page.locator("#cut-count").count():
        page.get_by_role("button", name="Work out what to saw").click()
        page.locator("#cut-count").wait_for(timeout=PLANNED)
    page.locator("#cut[data-ready=yes]").wait_for()
    page.get_by_label("All of sheet 1 is sawn").set_checked(checked=True)
    page.locator("[data-left=sheet-1] button").first.wait_for()
    page.locator("#cut-count").scroll_into_view_if_needed()


def _costed(page: Page) -> None:
    page.locator("#cost[data-ready=yes]").wait_for()
    page.locator(".cost-line > summary").first.click()


def _ordered(page: Page) -> None:
    page.locator("#orders[data-ready=yes]").wait_for()
    if page.locator("#work").count():
        page.locator("#work").click()
        page.locator("#h-orders").wait_for(timeout=PLANNED)


LIVED = """
book add resin epoxy-slow-deep "8 kg" --grade A --name "pail 1" --expires 2027-06-30
book add resin epoxy-slow-deep "3.2 kg" --grade B --name "can 1" --expires 2027-06-30
book add glass glass "5 kg" --colour "bottle green" --grade coarse --name "sack by the door"
book add consumable gloves 40
log table-lamp weigh A "652 g"
log table-lamp weigh B "261 g"
log table-lamp level "60 mm"
log table-lamp note "a few bubbles at the rim, gone after ten minutes"
log table-lamp demolded
book piece table-lamp --mass "3.1 kg" --note "one chip at the foot, filled"
log table-lamp weigh A "655 g"
"""
"""What a shop entered besides: commands of the program."""

SCREENS = (
    Screen("shelf", "/", docs="shelf"),
    *(Screen(f"new-{way}", "/new", _way(way)) for way in ("file", "tape", "copy")),
    Screen("new-form", "/new", _sizes, docs="new"),
    Screen("new-refused", "/new", _refused),
    Screen("refused", "/jobs/none"),
    Screen("book", "/book", needs_plan=True),
    Screen("book-log", LOG, needs_plan=True),
    Screen("book-stock", "/book/stock", docs="stock", needs_plan=True),
    Screen("book-lot", "/book/stock/1", needs_plan=True),
    Screen("book-pieces", "/book/pieces", needs_plan=True),
    Screen("book-piece", "/book/pieces/1", docs="piece", needs_plan=True),
    Screen("benches", "/bench", needs_plan=True),
    Screen("bench", f"{LAMP}/bench", docs="bench", needs_plan=True),
    Screen("cut", f"{LAMP}/cut", _sawn, needs_plan=True),
    Screen("cut-sheet", f"{LAMP}/cut", _sawn, part="#sheet-1", docs="cut", needs_plan=True),
    Screen("cost", f"{LAMP}/cost", _costed, needs_plan=True),
    Screen("orders", "/orders", _ordered, needs_plan=True),
    Screen("cost-no-plan", f"{STOOL}/cost"),
    Screen("leak", f"{LAMP}/leak", docs="leak", needs_plan=True),
    Screen("measured", f"{LAMP}/measured", needs_plan=True),
    Screen("learnt", "/learnt", needs_plan=True),
    Screen("job-no-plan", STOOL),
    Screen("job", LAMP, needs_plan=True),
    Screen("job-top", LAMP, whole=False, docs="job", needs_plan=True),
    *(Screen(f"job-{step}", LAMP, part=f"#{step}", needs_plan=True) for step in STEPS if step != "pour"),
    Screen("job-pour", LAMP, _drawn, part="#pour", needs_plan=True),
    Screen("stool-fill", STOOL, part="[data-mount=tape]", docs="bands"),
    Screen("view", STOOL, _view, part="[data-mount=view]", docs="view"),
    Screen("view-apart", LAMP, _apart, part="[data-mount=view]", needs_plan=True),
    Screen("view-heat", LAMP, _heat, part="[data-mount=view]", docs="heat", needs_plan=True),
    Screen("view-thickness", STOOL, _thickness, part="[data-mount=view]"),
    Screen("view-words", LAMP, _in_words, part="#piece", needs_plan=True),
    Screen("choices-help", LAMP, _help, part="#mold", docs="choices", needs_plan=True),
    Screen("choices-wrong", LAMP, _wrong, part="#mold", needs_plan=True),
    Screen("choices-all", LAMP, _all_choices, needs_plan=True),
    Screen("choices-text", LAMP, _text, part="#paper", needs_plan=True),
    Screen("charts", LAMP, _drawn, part="[data-mount=charts]", needs_plan=True),
    Screen("charts-heat", LAMP, _drawn, part="[data-chart=heat]", docs="charts", needs_plan=True),
    Screen("charts-tables", LAMP, _tables, part="[data-mount=charts]", needs_plan=True),
    Screen("paper", LAMP, part="[data-mount=paper]", needs_plan=True),
    Screen("paper-plan", LAMP, part="[data-sheet=plan]", docs="paper", needs_plan=True),
    Screen("dialog-page", LAMP, _leaf, whole=False, needs_plan=True),
    Screen("dialog-both", LAMP, _conflict, whole=False, docs="both", needs_plan=True),
)
