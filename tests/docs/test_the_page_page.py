"""The chapter on the page tells of every page and part there is, and of no button that is not."""

import re

import pytest
from starlette.responses import HTMLResponse

from pourwright.web.application import ROUTES
from tests.contracts.house import PACKAGE, ROOT

CHAPTER = (ROOT / "docs" / "the-page.md").read_text("utf8")
NAMED = sorted(set(re.findall(r"(?<!\*)\*([^*]+)\*(?!\*)", " ".join(CHAPTER.split()))))
HEADS = set(re.findall(r"^#+ (.+)$", CHAPTER, re.MULTILINE))
PAGES = {
    "/": "The shelf",
    "/new": "A new job",
    "/jobs/{job}": "A job",
    "/jobs/{job}/cut": "What to saw",
    "/jobs/{job}/cost": "Cost and price",
    "/jobs/{job}/leak": "When something leaked",
    "/jobs/{job}/measured": "When a logger was in it",
    "/orders": "Orders",
    "/learnt": "What the shop has learnt",
    **dict.fromkeys(("/book", "/book/log/{job}", "/book/stock", "/book/stock/{lot}"), "The book"),
    **dict.fromkeys(("/book/pieces", "/book/pieces/{number}"), "The book"),
    **dict.fromkeys(("/jobs/{job}/bench", "/bench", "/pair", "/phones"), "At the bench, on a phone"),
}
PARTS = {
    "answers": "A job",
    "charts": "Charts",
    "choices": "Choices",
    "paper": "Paper",
    "runs": "Plan, and cancel",
    "tape": "Bands beside a tape measure",
    "view": "The view",
}
WEB = PACKAGE / "web"


def shown() -> str:
    """All words the page can show, as they stand in its sources."""
    files = [*(WEB / "templates").rglob("*.html"), *(WEB / "static" / "js").rglob("*.js")]
    files += [PACKAGE / "app" / "shelf" / "cards.py"]
    return "\n".join(one.read_text("utf8") for one in files)


def test_every_page_has_its_place() -> None:
    routes = [route for router in ROUTES for route in router().routes]
    found = {one.path for one in routes if getattr(one, "response_class", None) is HTMLResponse}
    assert found == set(PAGES)
    assert set(PAGES.values()) <= HEADS


def test_every_part_of_a_job_has_its_place() -> None:
    known = re.search(r"KNOWN = new Set\(\[(.*?)\]\)", (WEB / "static" / "js" / "job.js").read_text("utf8"))
    assert known
    assert set(re.findall(r'"(\w+)"', known[1])) == set(PARTS)
    assert set(PARTS.values()) <= HEADS


def test_every_step_and_every_question_is_told() -> None:
    steps = re.findall(
        r'<section class="step" id="(\w+)"', (WEB / "templates" / "job.html").read_text("utf8")
    )
    assert len(steps) == 5
    assert ", ".join(step.capitalize() for step in steps) in CHAPTER
    legends = re.findall(r"</span> (.+?)</legend>", (WEB / "templates" / "new.html").read_text("utf8"))
    assert [one for one in legends if one not in CHAPTER] == []
    assert len(legends) == 5


@pytest.mark.parametrize("words", NAMED)
def test_what_it_calls_by_name_is_on_the_page(words: str) -> None:
    assert words.casefold() in shown().casefold()


def test_every_picture_is_shown_and_small() -> None:
    pictures = {one.name: one.stat().st_size for one in (ROOT / "docs" / "pictures").glob("*.png")}
    manual = "\n".join(page.read_text("utf8") for page in (ROOT / "docs").glob("*.md"))
    assert set(re.findall(r"\]\(pictures/([\w-]+\.png)\)", manual)) == set(pictures)
    assert max(pictures.values()) <= 120_000
    assert sum(pictures.values()) <= 900_000
