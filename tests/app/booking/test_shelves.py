"""The stock as the page shows it."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from pourwright.app.booking.counting import add_lot, reserve_job, take_lot
from pourwright.app.booking.logging import log_job
from pourwright.app.booking.shelves import lot_told, stock_told
from pourwright.foundation.errors import NotThereError, UserError
from tests.sheets.sample_plan import sample_plan

EPOXY = sample_plan().piece.casting_material


def day(days: int) -> str:
    return f"{datetime.now(UTC) + timedelta(days=days):%Y-%m-%d}"


def group(told: dict, name: str) -> dict[str, dict]:
    """Its things by their names."""
    (found,) = [one for one in told["groups"] if one["name"] == name]
    return {one["name"]: one for one in found["things"]}


def test_a_look_at_no_stock_makes_no_book(shop: Path) -> None:
    told = stock_told(shop)
    assert [one["things"] for one in told["groups"]] == [[], [], [], []]
    assert set(told["kinds"]) == {"resin", "rubber", "powder", "glass", "board", "consumable", "mold"}
    with pytest.raises(NotThereError, match="no lot 1"):
        lot_told(shop, 1)
    assert not (shop / "book.sqlite").exists()


def test_lots_stand_by_thing_the_first_to_expire_first(shop: Path) -> None:
    for name, keeps in (("late", day(300)), ("never", None), ("soon", day(20)), ("gone", day(-3))):
        add_lot(shop, "resin", EPOXY, "5 kg", grade="A", name=name, expires=keeps)
    add_lot(shop, "glass", "bottles", "12 kg", colour="green", grade="coarse")
    add_lot(shop, "board", "plywood-18", "600 mm x 300 mm", name="offcut")
    add_lot(shop, "consumable", "gloves", "40")
    told = stock_told(shop)
    (epoxy,) = group(told, "Kits").values()
    assert [one["name"] for one in epoxy["lots"]] == ["gone", "soon", "late", "never"]
    # what has gone off is there and not to be used
    assert epoxy["left_shown"] == "15.00 kg"
    assert [(one["name"], one["gone_off"]) for one in told["soon"]] == [("gone", True), ("soon", False)]
    assert group(told, "Glass")["green, coarse"]["lots"][0]["left_shown"] == "12.00 kg"
    assert group(told, "Boards and offcuts")["plywood-18"]["left"] == pytest.approx(0.18)
    assert group(told, "Consumables")["gloves"]["left_shown"] == "40 pieces"


def test_what_plans_keep_and_what_runs_short_is_said(shop: Path, stool: Path) -> None:
    # of the sample: A of its four pours is 6.741 kg
    add_lot(shop, "resin", EPOXY, "5 kg", grade="A", bought="2026-01-05")
    reserve_job(stool)
    told = stock_told(shop)
    epoxy = group(told, "Kits")[f"{EPOXY}, part A"]
    assert (epoxy["reserved_shown"], epoxy["free_shown"]) == ("6.74 kg", "−1.74 kg")
    (short,) = [one for one in told["short"] if (one["kind"], one["grade"]) == ("resin", "A")]
    assert (short["missing_shown"], short["job"]) == ("1.74 kg", "stool")
    # kept, and none there
    assert group(told, "Kits")[f"{EPOXY}, part B"]["lots"] == []


def test_what_is_used_up_stands_apart(shop: Path) -> None:
    lot = add_lot(shop, "consumable", "gloves", "40")["lot"]
    take_lot(shop, lot, "0")
    told = stock_told(shop)
    assert group(told, "Consumables") == {}
    assert [one["lot"] for one in told["used_up"]] == [lot]


def test_every_move_of_a_lot_is_told_with_its_pour(shop: Path, stool: Path) -> None:
    lot = add_lot(shop, "resin", EPOXY, "10 kg", grade="A", bought="2026-01-05")["lot"]
    log_job(stool, ("weigh", "A", "2 kg"), at="2026-11-02 09:00")
    take_lot(shop, lot, used="500 g")
    take_lot(shop, lot, "7 kg")
    told = lot_told(shop, lot)
    assert [(one["why"], one["change_shown"], one["left_shown"]) for one in told["moves"]] == [
        ("bought", "10.00 kg", "10.00 kg"),
        ("used", "−2.00 kg", "8.00 kg"),
        ("used", "−500 g", "7.50 kg"),
        ("counted", "−500 g", "7.00 kg"),
    ]
    assert [one["pour"] and (one["pour"]["job"], one["pour"]["number"]) for one in told["moves"]] == [
        None,
        ("stool", 1),
        None,
        None,
    ]
    assert (told["left_shown"], told["bought_on"]) == ("7.00 kg", "Mon 5 Jan 2026")


def test_a_mold_tells_its_casts_and_condition(shop: Path, stool: Path) -> None:
    log_job(stool, ("poured", "2.4 kg"))
    (mold,) = stock_told(shop)["molds"]
    take_lot(shop, mold["lot"], note="a tear at the rim, mended")
    told = lot_told(shop, mold["lot"])
    assert (told["casts"], told["note"], told["kind"]) == (1, "a tear at the rim, mended", "mold")


def test_no_more_is_taken_out_than_there_is(shop: Path) -> None:
    lot = add_lot(shop, "glass", "", "1 kg", colour="green", grade="fine")["lot"]
    with pytest.raises(UserError, match="more than there is"):
        take_lot(shop, lot, used="1.2 kg")
    with pytest.raises(UserError, match="both cannot be"):
        take_lot(shop, lot, "1 kg", used="200 g")
    assert lot_told(shop, lot)["left"] == 1.0
    take_lot(shop, lot, used="1 kg")
    assert lot_told(shop, lot)["left"] == 0.0
