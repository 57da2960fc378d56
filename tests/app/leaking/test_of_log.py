"""A leak reckoned from the shop's log alone, and from the log and what is told beside it."""

from datetime import datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from pourwright.app.booking.entering import Said, enter
from pourwright.app.booking.places import book_place
from pourwright.app.leaking.told import LeakTold, leak_told
from pourwright.records import open_book
from tests.app.leaking.block import AREA, DENSITY

BEGUN = datetime(2026, 11, 20, 9, 10, tzinfo=ZoneInfo("Europe/Berlin"))
NOW = BEGUN + timedelta(hours=9)


def said(kind: str, hours: float, value: float | None = None) -> Said:
    return Said(kind=kind, at=BEGUN + timedelta(hours=hours), value=value)


@pytest.fixture
def logged(poured: Path) -> Path:
    (poured.parent / "shop.toml").touch()
    enter(
        poured.parent,
        book_place(poured.parent),
        [
            said("poured", 0.0, 0.100),
            said("poured", 0.1, 0.075),
            said("level", 6.0, 0.040),
            said("level", 8.0, 0.037),
            said("caught", 8.0, 0.040),
        ],
    )
    return poured


def test_the_log_is_enough(logged: Path) -> None:
    found = leak_told(logged, LeakTold(), now=NOW).document
    assert found.mass.poured_kg == pytest.approx(0.175)
    assert datetime.fromisoformat(found.begun) == BEGUN
    kinds = [each.kind for each in found.evidence]
    assert kinds == ["poured", "level", "level", "level", "caught"]
    assert found.running.state == "runs"
    assert found.running.fell_m == pytest.approx(0.003)


def test_what_is_told_now_comes_besides(logged: Path) -> None:
    told = LeakTold(level=("37 mm",), at=("18:00",), drips=False, caught="50 g")
    found = leak_told(logged, told, now=NOW).document
    assert [each.level_m for each in found.evidence if each.at] == pytest.approx([0.040, 0.037, 0.037])
    assert found.running.state == "stopped"
    assert next(each.mass_kg for each in found.evidence if each.kind == "caught") == pytest.approx(0.050)


def test_a_top_up_adds_to_what_is_in_and_ends_what_levels_said(logged: Path) -> None:
    enter(
        logged.parent, book_place(logged.parent), [said("topped_up", 8.2, 0.045), said("level", 8.5, 0.050)]
    )
    found = leak_told(logged, LeakTold(drips=False), now=NOW).document
    assert found.mass.poured_kg == pytest.approx(0.220)
    assert [each.level_m for each in found.evidence if each.at] == pytest.approx([0.050])
    assert found.mass.in_mold_kg == pytest.approx(DENSITY * AREA * (0.030 * 0.45 + 0.020), rel=0.06)


def test_another_journal_line_is_taken_in_first(logged: Path) -> None:
    place = book_place(logged.parent)
    before = leak_told(logged, LeakTold(drips=False), now=NOW).document
    place.unlink()
    with open_book(place):
        pass
    assert leak_told(logged, LeakTold(drips=False), now=NOW).document.mass == before.mass
