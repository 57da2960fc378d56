"""The stock follows the log: a plan reserves, a pour takes, the first to expire first."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from pourwright.app.booking.counting import add_lot, read_amount, reserve_job, take_lot, tell_stock
from pourwright.app.booking.entering import Said, enter
from pourwright.app.booking.logging import log_job
from pourwright.app.booking.places import plan_on_disk
from pourwright.app.booking.settling import casts_of_mold, settle
from pourwright.foundation.errors import UserError
from pourwright.records import Lot, keep_lot, lots_of, moves_of, open_book
from tests.app.booking.conftest import write_plan
from tests.sheets.sample_plan import sample_plan

PLAN = sample_plan()
EPOXY = PLAN.piece.casting_material
LONG_AGO = datetime(2026, 1, 1, tzinfo=UTC)


def put(shop: Path, part: str, kilograms: float, days: int | None = None, name: str = "") -> int:
    """A lot of resin that has been there for long."""
    expires = None if days is None else datetime.now(UTC) + timedelta(days=days)
    with open_book(shop / "book.sqlite") as book:
        lot = Lot(
            kind="resin",
            material=EPOXY,
            grade=part,
            name=name,
            bought=LONG_AGO,
            expires=expires,
            left=kilograms,
        )
        return keep_lot(book, lot).id


def left(shop: Path) -> dict[int, float]:
    with open_book(shop / "book.sqlite") as book:
        return {lot.id: round(lot.left, 9) for lot in lots_of(book) if lot.kind != "mold"}


def things(told: dict) -> dict[tuple[str, str], dict]:
    return {(one["kind"], one["grade"] or one["colour"]): one for one in told["things"]}


def test_a_pour_takes_what_was_weighed(stool: Path, shop: Path) -> None:
    a, b = put(shop, "A", 10.0), put(shop, "B", 5.0)
    log_job(stool, ("weigh", "A", "1854 g"))
    log_job(stool, ("weigh", "B", "834 g"))
    log_job(stool, ("poured", "2600 g"))
    assert left(shop) == {a: 8.146, b: 4.166}


def test_what_was_not_weighed_is_taken_in_the_plans_ratio(stool: Path, shop: Path) -> None:
    # 100 A to 45 B by weight: 2.9 kg are 2 kg and 0.9 kg
    a, b = put(shop, "A", 10.0), put(shop, "B", 5.0)
    log_job(stool, ("poured", "2.9 kg"))
    assert left(shop) == {a: 8.0, b: 4.1}
    log_job(stool, ("topped-up", "290 g"))
    assert left(shop) == {a: 7.8, b: 4.01}


def test_a_correction_gives_back(stool: Path, shop: Path) -> None:
    a, b = put(shop, "A", 10.0), put(shop, "B", 5.0)
    wrong = log_job(stool, ("poured", "5.8 kg")).to_json()["entered"][0]
    assert left(shop) == {a: 6.0, b: 3.2}
    log_job(stool, ("correct", wrong, "2.9 kg"))
    assert left(shop) == {a: 8.0, b: 4.1}


def test_the_first_to_expire_is_used_first_and_what_has_gone_off_last(stool: Path, shop: Path) -> None:
    never, late, soon = put(shop, "A", 5.0), put(shop, "A", 5.0, 90), put(shop, "A", 1.5, 5)
    gone = put(shop, "A", 5.0, -5)
    log_job(stool, ("weigh", "A", "2 kg"))
    assert left(shop) == {never: 5.0, late: 4.5, soon: 0.0, gone: 5.0}
    log_job(stool, ("weigh", "A", "9.6 kg"))
    assert left(shop) == {never: 0.0, late: 0.0, soon: 0.0, gone: 4.9}


def test_settling_again_changes_nothing(stool: Path, shop: Path) -> None:
    put(shop, "A", 10.0), put(shop, "B", 5.0)
    log_job(stool, ("poured", "2.9 kg"))
    before = left(shop)
    with open_book(shop / "book.sqlite") as book:
        count = len(moves_of(book))
        settle(book, "stool", "main", 1)
        assert len(moves_of(book)) == count
    assert left(shop) == before


def test_what_was_bought_later_was_not_used_before(stool: Path, shop: Path) -> None:
    log_job(stool, ("weigh", "A", "2 kg"), at="2026-11-01 09:00")
    add_lot(shop, "resin", EPOXY, "10 kg", grade="A", bought="2026-11-20")
    with open_book(shop / "book.sqlite") as book:
        settle(book, "stool", "main", 1)
    assert list(left(shop).values()) == [10.0]


def test_a_plan_reserves_and_what_runs_short_is_told_with_its_time(stool: Path, shop: Path) -> None:
    # of the sample: A of its four pours is 1.854 + 1.165 + 1.556 + 2.166 = 6.741 kg
    put(shop, "A", 5.0)
    told = reserve_job(stool)
    epoxy = things(told)["resin", "A"]
    assert (epoxy["left"], epoxy["reserved"], epoxy["free"]) == pytest.approx((5.0, 6.741, -1.741))
    short = {(one["kind"], one["grade"]): one for one in told["short"]}
    assert short["resin", "A"]["missing"] == pytest.approx(1.741)
    # 1.854 + 1.165 + 1.556 are there; the fourth pour runs short
    fourth = datetime.fromisoformat(PLAN.pours[3].start)
    assert datetime.fromisoformat(short["resin", "A"]["at"]) == fourth
    assert short["glass", "coarse"]["missing"] == pytest.approx(
        sum(lot.mass_kg for lot in PLAN.fill.glass if lot.grade == "coarse")
    )
    assert ("rubber", "A") in short
    assert things(reserve_job(stool, no_more=True))["resin", "A"]["reserved"] == 0.0


def test_what_goes_off_before_its_pour_does_not_count(stool: Path, shop: Path) -> None:
    put(shop, "A", 50.0, -1)
    short = {(one["kind"], one["grade"]): one for one in reserve_job(stool)["short"]}
    assert short["resin", "A"]["missing"] == pytest.approx(6.741)


def test_what_has_begun_reserves_the_rest_and_nothing_once_it_is_out(stool: Path, shop: Path) -> None:
    put(shop, "A", 20.0)
    log_job(stool, ("weigh", "A", "1.854 kg"))
    told = tell_stock(shop)
    assert things(told)["resin", "A"]["reserved"] == pytest.approx(6.741 - 1.854)
    # what is cast has its mold already
    assert ("rubber", "A") not in things(told)
    log_job(stool, ("demolded",))
    assert things(tell_stock(shop))["resin", "A"]["reserved"] == 0.0


def test_half_a_pour_leaves_the_other_half_reserved_until_it_gels(stool: Path, shop: Path) -> None:
    # of the first pour, 1.854 kg of A and 0.834 kg of B
    log_job(stool, ("weigh", "A", "1 kg"))
    of_b = sum(pour.part_b_kg for pour in PLAN.pours)
    told = things(tell_stock(shop))
    assert told["resin", "A"]["reserved"] == pytest.approx(6.741 - 1.0)
    assert told["resin", "B"]["reserved"] == pytest.approx(of_b)
    log_job(stool, ("gel",))
    assert things(tell_stock(shop))["resin", "B"]["reserved"] == pytest.approx(of_b - PLAN.pours[0].part_b_kg)


def test_a_new_plan_in_the_middle_reserves_instead_of_the_old_one(stool: Path, shop: Path) -> None:
    log_job(stool, ("weigh", "A", "1.854 kg"))
    write_plan(stool, title="second try")
    log_job(stool, ("weigh", "A", "1.165 kg"), pour=2)
    assert things(tell_stock(shop))["resin", "A"]["reserved"] == pytest.approx(1.556 + 2.166)


def test_a_mold_counts_its_casts_until_the_next_mold(stool: Path, shop: Path) -> None:
    log_job(stool, ("poured", "2.9 kg"), at="2026-11-02 09:00")
    log_job(stool, ("demolded",), at="2026-11-09 09:00")
    log_job(stool, ("poured", "2.9 kg"), at="2026-11-10 09:00")
    log_job(stool, ("demolded",), at="2026-11-17 09:00")
    add_lot(shop, "mold", "stool", name="second mold", bought="2026-11-18")
    log_job(stool, ("poured", "2.9 kg"), at="2026-11-19 09:00")
    told = {one["name"]: one["casts"] for one in tell_stock(shop)["molds"]}
    assert told == {"mold of Hourglass stool": 2, "second mold": 1}
    with open_book(shop / "book.sqlite") as book:
        assert sum(casts_of_mold(book, lot) for lot in lots_of(book, "mold")) == 3


def test_a_stock_take_puts_right_and_tells_why(shop: Path) -> None:
    lot = add_lot(shop, "glass", "soda-lime-crushed", "12 kg", colour="green", grade="coarse")["lot"]
    told = take_lot(shop, lot, "10.5 kg", opened="2026-11-01", note="damp at the bottom")
    assert [(one["why"], one["left"]) for one in told["history"]] == [("bought", 12.0), ("counted", 10.5)]
    (kept,) = told["lots"]
    assert (kept["left"], kept["note"], kept["opened"]) == (
        10.5,
        "damp at the bottom",
        "2026-11-01T12:00:00.000Z",
    )


@pytest.mark.parametrize(
    ("kind", "text", "told"),
    [
        ("glass", "12", "the unit is missing"),
        ("glass", "-1 kg", "no amount of glass"),
        ("board", "2 m", "no amount of board"),
        ("consumable", "a few", "no amount of consumable"),
        ("consumable", "0", "no amount of consumable"),
    ],
)
def test_what_is_no_amount_is_refused(kind: str, text: str, told: str) -> None:
    with pytest.raises(UserError, match=told):
        read_amount(kind, text, "AMOUNT")


def test_wrong_lots_are_refused(shop: Path) -> None:
    with pytest.raises(UserError, match="no stock is called 'gold'"):
        add_lot(shop, "gold", "x", "1 kg")
    with pytest.raises(UserError, match="no lot 9"):
        take_lot(shop, 9, "1 kg")
    with pytest.raises(UserError, match="is no day"):
        add_lot(shop, "glass", "", "1 kg", expires="next year")
    assert left(shop) == {}


def shed(shop: Path) -> dict[str, int]:
    """Rubber in both parts and a sheet of board, as the plan's mold wants them."""
    things = [("rubber", PLAN.mold.rubber.id, "A", 50.0), ("rubber", PLAN.mold.rubber.id, "B", 50.0)]
    things.append(("board", PLAN.mold.box.board, "", 6.0))
    with open_book(shop / "book.sqlite") as book:
        lots = [
            Lot(kind=kind, material=material, grade=grade, name=kind, bought=LONG_AGO, left=amount)
            for kind, material, grade, amount in things
        ]
        return {f"{lot.kind} {lot.grade}".strip(): keep_lot(book, lot).id for lot in lots}


PANELS = sum(one.count * one.length_m * one.width_m for one in PLAN.mold.box.panels)


def test_a_mold_that_is_made_takes_rubber_and_boards_and_comes_onto_the_stock(
    stool: Path, shop: Path
) -> None:
    lots = shed(shop)
    told = log_job(stool, ("mold-made",), at="2026-09-01 10:00").to_json()["told"]
    after = left(shop)
    rubber = PLAN.mold.rubber
    assert after[lots["rubber A"]] == pytest.approx(50.0 - rubber.part_a_kg)
    assert after[lots["rubber B"]] == pytest.approx(50.0 - rubber.part_b_kg)
    assert after[lots["board"]] == pytest.approx(6.0 - PANELS)
    assert any("are left, sheets and offcuts" in line for line in told)
    (mold,) = tell_stock(shop)["molds"]
    assert (mold["job"], mold["casts"]) == ("stool", 0)
    # nothing is kept for a mold that is there, and the first pour makes no second one
    assert all(one["reserved"] == 0.0 for one in tell_stock(shop)["things"])
    log_job(stool, ("poured", "2.9 kg"))
    assert len(tell_stock(shop)["molds"]) == 1
    assert left(shop) | after == left(shop)


def test_rubber_is_taken_as_weighed_and_a_correction_gives_back(stool: Path, shop: Path) -> None:
    lots = shed(shop)
    wrong = log_job(stool, ("rubber", "A", "21 kg"), at="2026-09-01 09:00").to_json()["entered"][0]
    assert left(shop)[lots["rubber A"]] == 29.0
    assert left(shop)[lots["board"]] == 6.0
    log_job(stool, ("correct", wrong, "2.1 kg"))
    log_job(stool, ("mold-made",), at="2026-09-01 10:00")
    assert left(shop)[lots["rubber A"]] == pytest.approx(47.9)
    assert left(shop)[lots["rubber B"]] == pytest.approx(50.0 - PLAN.mold.rubber.part_b_kg)
    # the second mold is planned rubber again
    log_job(stool, ("mold-made",), at="2026-09-03 10:00")
    assert left(shop)[lots["rubber A"]] == pytest.approx(47.9 - PLAN.mold.rubber.part_a_kg)
    assert len(tell_stock(shop)["molds"]) == 2


def test_what_the_book_does_not_have_is_told(stool: Path, shop: Path) -> None:
    told = log_job(stool, ("mold-made",), at="2026-09-01 10:00").to_json()["told"]
    assert sum("more went in than the book has" in line for line in told) == 3


def test_a_pour_that_is_taken_back_gives_all_of_it_back(stool: Path, shop: Path) -> None:
    a, b = put(shop, "A", 10.0), put(shop, "B", 5.0)
    wrong = log_job(stool, ("poured", "2.9 kg")).to_json()["entered"][0]
    assert left(shop) == {a: 8.0, b: 4.1}
    plan = plan_on_disk(stool)
    back = Said(kind="note", text="taken back", replaces=wrong, plan=plan.hash, pour=1, casting=1)
    enter(stool, shop / "book.sqlite", [back])
    assert left(shop) == {a: 10.0, b: 5.0}
