"""A shop that logs its pours learns from its book, takes things back, and plans with what it has learnt."""

from datetime import datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from pourwright.app.booking.entering import Said, enter
from pourwright.app.booking.places import book_place
from pourwright.app.learning.shop import learn_in_shop
from pourwright.app.learnt.in_force import in_force, learnt_choices, shop_materials
from pourwright.app.learnt.used import used_by, with_learnt
from pourwright.app.setup import set_up
from pourwright.app.shaping.piece import read_piece
from pourwright.foundation.errors import NotThereError
from pourwright.jobs import load_job, load_plan
from pourwright.materials import load_materials
from pourwright.records import open_book
from tests.app.leaking.block import AREA, DENSITY, planned

BEGUN = datetime(2026, 9, 1, 9, 0, tzinfo=ZoneInfo("Europe/Berlin"))
VOIDS = 0.40
LEVEL = 0.030


def cast(folder: Path, number: int, voids: float, text: str = "") -> None:
    """One piece: mixed, poured up to the top of the glass, read, gelled, out of its mold."""
    begun = BEGUN + timedelta(days=7 * number)
    # film of the plan: 1 g
    poured = DENSITY * AREA * LEVEL * voids + 0.001
    told = [
        ("mixed", 0.0, poured / 0.96, ""),
        ("poured", 0.2, poured, ""),
        ("level", 0.5, LEVEL, ""),
        ("gel", 15.5 / 1.2, None, ""),
        ("demolded", 100.0, None, text),
    ]
    for kind, hours, value, words in told:
        at = begun + timedelta(hours=hours)
        said = Said(kind=kind, at=at, value=value, text=words, casting=number + 1)
        enter(folder, book_place(folder), [said])


@pytest.fixture
def shop(small: Path) -> Path:
    """Six pieces cast by one plan; the fifth was logged wrong, the sixth broke."""
    job = planned(small)
    (job.parent / "shop.toml").touch()
    for number, voids in enumerate((0.401, 0.399, 0.402, 0.400, 0.80, 0.398)):
        cast(job.parent, number, voids, "broken at the rim" if number == 5 else "")
    return job


def learnt(report: dict, quantity: str) -> dict:
    return next(one for one in report["learnt"] if one["quantity"] == quantity)


def test_the_book_teaches_voids_pail_pace_and_scrap(shop: Path) -> None:
    report = learn_in_shop(shop.parent)
    voids = learnt(report, "void_fraction")
    assert voids["subject"] == "coarse"
    assert voids["value"] == pytest.approx(VOIDS, abs=0.012)
    assert voids["low"] < VOIDS < voids["high"]
    assert voids["words"].startswith("Your coarse glass: 40.")
    assert [one["value"] for one in voids["look_wrong"]] == [pytest.approx(0.80)]
    assert learnt(report, "bucket_loss")["value"] == pytest.approx(0.04, rel=0.1)
    scrap = learnt(report, "scrap_rate")
    assert scrap["records"] == 6


def test_what_was_but_agreed_to_at_the_bench_teaches_nothing(shop: Path) -> None:
    before = learn_in_shop(shop.parent)
    begun = BEGUN + timedelta(days=70)
    name = "batch 1 of 1"
    pressed = [
        ("weigh_a", 0.0, 0.11, f"{name}, as planned"),
        ("weigh_b", 0.0, 0.05, f"{name}, as planned"),
        ("mixed", 0.1, 0.16, f"{name}, A and B together"),
        ("poured", 0.2, 0.09, f"in the mold: {name}"),
        ("level", 0.5, LEVEL, "as expected"),
    ]
    said = [
        Said(kind=kind, at=begun + timedelta(hours=hours), value=value, text=text, source="bench", casting=9)
        for kind, hours, value, text in pressed
    ]
    enter(shop.parent, book_place(shop.parent), said)
    after = learn_in_shop(shop.parent)
    for quantity in ("bucket_loss", "void_fraction"):
        assert learnt(after, quantity)["records"] == learnt(before, quantity)["records"]


def test_a_level_by_weight_is_no_leak(shop: Path) -> None:
    before = learnt(learn_in_shop(shop.parent), "void_fraction")["records"]
    cast(shop.parent, 9, 0.401)
    at = BEGUN + timedelta(days=63, hours=0.3)
    by_weight = Said(kind="no_level", at=at, text="by weight", source="bench", casting=10, pour=1)
    enter(shop.parent, book_place(shop.parent), [by_weight])
    assert learnt(learn_in_shop(shop.parent), "void_fraction")["records"] == before + 1


def test_a_record_is_set_aside_and_taken_back(shop: Path) -> None:
    before = learnt(learn_in_shop(shop.parent), "void_fraction")
    (bad,) = before["look_wrong"]
    after = learnt(learn_in_shop(shop.parent, set_aside=bad["id"]), "void_fraction")
    assert (after["records"], after["look_wrong"]) == (before["records"] - 1, [])
    again = learnt(learn_in_shop(shop.parent, take_back=bad["id"]), "void_fraction")
    assert again["value"] == pytest.approx(before["value"])
    with pytest.raises(NotThereError, match="no record"):
        learn_in_shop(shop.parent, set_aside="999:void_fraction")


def test_what_was_undone_stays_so_until_there_is_more(shop: Path) -> None:
    voids = learnt(learn_in_shop(shop.parent), "void_fraction")
    undone = learnt(learn_in_shop(shop.parent, undo=voids["number"]), "void_fraction")
    assert not undone["in_force"]
    assert not learnt(learn_in_shop(shop.parent), "void_fraction")["in_force"]
    assert "void_fraction" not in {one.quantity for one in in_force(shop.parent)}
    cast(shop.parent, 8, 0.401)
    assert learnt(learn_in_shop(shop.parent), "void_fraction")["in_force"]
    with pytest.raises(NotThereError, match="nothing was learnt"):
        learn_in_shop(shop.parent, undo=999)


def test_the_next_plan_is_made_with_it_and_says_so(shop: Path) -> None:
    job = load_job(shop)
    family = load_materials().glass["soda-lime-crushed"].grade("coarse").void_fraction
    assert shop_materials(job).glass["soda-lime-crushed"].grade("coarse").void_fraction == family
    learn_in_shop(shop.parent)
    found = shop_materials(job).glass["soda-lime-crushed"].grade("coarse").void_fraction
    assert found.value == pytest.approx(VOIDS, abs=0.012)
    assert learnt_choices(job).fill.bucket_loss == pytest.approx(0.04, rel=0.1)
    coarse = shop.read_text("utf8").replace('grade = "medium"', 'grade = "coarse"')
    shop.write_text(coarse, "utf8")
    changed = load_job(shop)
    fill = set_up(changed, read_piece(changed)).fill
    # a narrow mold packs looser than the shop's bucket
    assert VOIDS - 0.01 < fill.bands[0].void_fraction < VOIDS + 0.06
    plan = with_learnt(load_plan(shop.parent / "plan" / "plan.json"), changed, used_by(changed))
    assert "learnt.void_fraction.coarse" in {reason.key for reason in plan.reasons}


def test_a_shop_without_a_book_plans_as_the_family(small: Path) -> None:
    job = load_job(small)
    assert in_force(small.parent) == []
    assert shop_materials(job) == load_materials()
    assert learnt_choices(job) is job


def test_a_book_that_cannot_be_read_stops_no_plan(small: Path) -> None:
    # a shop of its own, or the book would lie above it, where other tests look
    (small.parent / "shop.toml").touch()
    place = book_place(small.parent)
    assert place.parent == small.parent
    with open_book(place):
        pass
    place.write_bytes(b"no book at all, but long enough to be looked at twice" * 40)
    assert in_force(small.parent) == []
