"""What went into the mold: each batch once, by the best that is known of it."""

import random
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import count
from math import hypot

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.app.benching.step import AS_PLANNED, TOGETHER
from pourwright.app.booking.batches import is_measured
from pourwright.app.booking.needs import Thing, used_by
from pourwright.app.booking.went_in import mass_in_mold, went_in
from pourwright.app.leaking.of_log import of_entries
from pourwright.records import Entry
from tests.sheets.sample_plan import sample_plan

NINE = datetime(2026, 12, 1, 9, 0, tzinfo=UTC)
PLAN = sample_plan(2)
LOSS = PLAN.fill.resin.bucket_kg / PLAN.fill.resin_kg
PARTS = PLAN.fill.parts_by_weight
minutes = count()


def entry(kind: str, value: float | None, text: str = "", source: str = "terminal", **more: object) -> Entry:
    at = NINE + timedelta(minutes=next(minutes))
    return Entry(pour_id=1, kind=kind, at=at, value=value, text=text, source=source, **more)  # type: ignore[arg-type]


def at_bench(
    number: int, a: float, b: float, *, planned: bool = False, mix: float | None = None
) -> list[Entry]:
    """A batch as the bench logs it: A, B, mixed with one press, in the mold with another."""
    name = f"batch {number} of 3"
    mark = f", {AS_PLANNED}" if planned else ""
    return [
        entry("weigh_a", a, name + mark, "bench"),
        entry("weigh_b", b, name + mark, "bench"),
        entry("mixed", a + b if mix is None else mix, f"{name}, {TOGETHER}", "bench"),
        entry("step", None, f"in the mold: {name}", "bench"),
    ]


def in_mold(entries: list[Entry]) -> float:
    found = mass_in_mold(PLAN, went_in(entries).masses)
    assert found is not None
    return found.mass


def test_a_batch_that_was_only_mixed_is_not_lost_beside_one_that_was_poured() -> None:
    log = [entry("mixed", 2.0), entry("poured", 1.9), entry("mixed", 1.0)]
    assert in_mold(log) == pytest.approx(1.9 + 1.0 * (1 - LOSS))
    read = of_entries(log)
    assert (read.poured, read.mixed, read.planned) == ((1.9,), (1.0,), ())


def test_real_weights_win_over_a_mix_that_was_but_pressed() -> None:
    # the press has the planned mass, and an older page said nothing of it
    name = "batch 1 of 3"
    old = [
        entry("weigh_a", 1.2, name, "bench"),
        entry("weigh_b", 0.54, name, "bench"),
        entry("mixed", 1.681, name, "bench"),
    ]
    assert of_entries(old).mixed == (pytest.approx(1.74),)
    assert of_entries(at_bench(1, 1.2, 0.54, mix=1.681)).mixed == (pytest.approx(1.74),)
    # a mix that somebody weighed as a whole, or corrected since, is a weight itself
    assert of_entries([*old[:2], entry("mixed", 1.7)]).mixed == (1.7,)
    corrected = entry("mixed", 1.7, name, "bench", replaces=old[2].id)
    assert of_entries([*old[:2], corrected]).mixed == (1.7,)


def test_what_the_bench_logs_is_in_the_mold() -> None:
    log = [*at_bench(1, 1.2, 0.54), *at_bench(2, 1.0, 0.45), entry("topped_up", 0.2)]
    assert in_mold(log) == pytest.approx((1.74 + 1.45) * (1 - LOSS) + 0.2)


def test_a_pail_that_was_weighed_full_and_empty_is_of_its_own_batch() -> None:
    second = entry("poured", 1.40, "in the mold: batch 2 of 3", "bench")
    log = [*at_bench(1, 1.2, 0.54), *at_bench(2, 1.0, 0.45), second]
    assert in_mold(log) == pytest.approx(1.74 * (1 - LOSS) + 1.40)
    # one that names no batch is of the one that held it with the least left over
    for poured, other in ((1.70, 1.45), (1.42, 1.74)):
        log = [*at_bench(1, 1.2, 0.54), *at_bench(2, 1.0, 0.45), entry("poured", poured)]
        assert in_mold(log) == pytest.approx(poured + other * (1 - LOSS))


def test_two_pails_that_were_poured_together_are_one_weight() -> None:
    log = [entry("mixed", 1.0), entry("mixed", 1.2), entry("poured", 2.15)]
    assert in_mold(log) == pytest.approx(2.15)
    # a third one after it is its own
    assert in_mold([*log, entry("mixed", 0.5)]) == pytest.approx(2.15 + 0.5 * (1 - LOSS))


def test_another_batch_of_the_same_name_is_another_batch() -> None:
    assert in_mold([*at_bench(1, 1.2, 0.54), *at_bench(1, 1.1, 0.5)]) == pytest.approx(3.34 * (1 - LOSS))


def test_a_batch_that_a_second_phone_began_under_the_first_name_goes_on_under_its_own() -> None:
    # two phones without a network both said batch 1; the second is another, and goes on as batch 2
    log = at_bench(1, 1.2, 0.54)
    log.append(entry("weigh_a", 1.0, "batch 1 of 3", "bench"))
    log.append(entry("weigh_b", 0.45, "batch 2 of 3", "bench"))
    log.append(entry("mixed", 1.45, f"batch 2 of 3, {TOGETHER}", "bench"))
    assert in_mold(log) == pytest.approx((1.74 + 1.45) * (1 - LOSS))
    taken = used_by(PLAN, 1, log)
    assert sum(
        taken[Thing("resin", PLAN.piece.casting_material, "", part)] for part in "AB"
    ) == pytest.approx(3.19)


def test_a_single_part_went_nowhere_yet_but_left_its_tub() -> None:
    log = [entry("weigh_a", 2.0)]
    assert mass_in_mold(PLAN, went_in(log).masses) is None
    assert used_by(PLAN, 1, log)[Thing("resin", PLAN.piece.casting_material, "", "A")] == 2.0


def test_as_planned_is_no_reading() -> None:
    read = of_entries(at_bench(1, 1.159, 0.522, planned=True))
    assert (read.poured, read.mixed, read.planned) == ((), (), (pytest.approx(1.681),))
    planned = mass_in_mold(PLAN, went_in(at_bench(1, 1.159, 0.522, planned=True)).masses)
    weighed = mass_in_mold(PLAN, went_in(at_bench(1, 1.159, 0.522)).masses)
    assert planned is not None
    assert weighed is not None
    assert planned.mass == pytest.approx(weighed.mass)
    # 3 % of the mass beside the half percent of a scale
    more = hypot(0.03 * weighed.mass, weighed.doubt)
    assert planned.doubt == pytest.approx(more, rel=0.02)
    # A was read and B was not: together they are no better than as planned
    mixed = [*at_bench(1, 1.2, 0.54)[:1], *at_bench(1, 1.159, 0.522, planned=True)[1:2]]
    assert of_entries(mixed).planned == (pytest.approx(1.722),)


def test_a_level_that_looked_as_expected_gives_way_to_one_that_was_read() -> None:
    looked = entry("level", 0.2, "as expected", "bench")
    assert not is_measured(looked)
    (seen,) = of_entries([entry("poured", 2.0), looked]).seen
    assert seen.doubt == pytest.approx(0.010)
    read = entry("level", 0.195)
    assert [each.height for each in of_entries([entry("poured", 2.0), looked, read]).seen] == [0.195]


def test_a_level_that_nobody_looked_at_is_not_one_that_cannot_be_seen() -> None:
    by_weight = entry("no_level", None, "by weight", "bench")
    assert of_entries([entry("poured", 2.0), by_weight]).seen == ()
    hidden = entry("no_level", None, "", "bench")
    assert [each.height for each in of_entries([entry("poured", 2.0), by_weight, hidden]).seen] == [None]


def test_stock_takes_each_batch_by_its_own_weights() -> None:
    resin = PLAN.piece.casting_material
    share = PARTS[0] / sum(PARTS)
    log = [*at_bench(1, 1.2, 0.54), entry("mixed", 1.0)]
    taken = used_by(PLAN, 1, log)
    assert taken[Thing("resin", resin, "", "A")] == pytest.approx(1.2 + share)
    assert taken[Thing("resin", resin, "", "B")] == pytest.approx(0.54 + 1.0 - share)


masses = st.floats(0.1, 5.0)
kept = st.floats(0.93, 0.999)


@st.composite
def batches(draw: st.DrawFn) -> list[tuple[list[Entry], float, float]]:
    """Batches with names, each with its entries, what of it is in the mold, and what was taken for it."""
    made = []
    for number in range(1, draw(st.integers(1, 6)) + 1):
        name = f"batch {number} of 6"
        a, b, share = draw(masses), draw(masses), draw(kept)
        weighed, mixed, poured = draw(st.booleans()), draw(st.booleans()), draw(st.booleans())
        log = [entry("weigh_a", a, name), entry("weigh_b", b, name)] if weighed else []
        log += [entry("mixed", a + b, name)] if mixed else []
        log += [entry("poured", share * (a + b), f"in the mold: {name}")] if poured else []
        in_it = share * (a + b) if poured else (1.0 - LOSS) * (a + b)
        taken = a + b if weighed or mixed else share * (a + b)
        made.append((log, in_it if log else 0.0, taken if log else 0.0))
    return made


@settings(max_examples=150, deadline=None)
@given(batches(), st.lists(masses, max_size=3), st.randoms(use_true_random=False))
def test_any_mix_of_batches_is_each_of_them_once(
    made: list[tuple[list[Entry], float, float]], top_ups: list[float], dice: random.Random
) -> None:
    log = [each for entries, _, _ in made for each in entries] + [
        entry("topped_up", each) for each in top_ups
    ]
    # several pails at once, and two phones: in whatever order it comes to be known
    dice.shuffle(log)
    log = [replace(each, at=NINE + timedelta(minutes=minute)) for minute, each in enumerate(log)]
    expected = sum(in_it for _, in_it, _ in made) + sum(top_ups)
    found = mass_in_mold(PLAN, went_in(log).masses)
    assert (0.0 if found is None else found.mass) == pytest.approx(expected)
    resin = {thing: amount for thing, amount in used_by(PLAN, 1, log).items() if thing.kind == "resin"}
    assert sum(resin.values()) == pytest.approx(sum(taken for _, _, taken in made) + sum(top_ups))


@settings(max_examples=100, deadline=None)
@given(st.lists(st.tuples(masses, masses, kept, st.booleans()), min_size=1, max_size=5))
def test_so_it_is_where_nobody_names_them(made: list[tuple[float, float, float, bool]]) -> None:
    log: list[Entry] = []
    for a, b, share, poured in made:
        log += [entry("weigh_a", a), entry("weigh_b", b), entry("mixed", a + b)]
        # one that was not weighed as it went in has no such entry: the next begins with A
        log += [entry("poured", share * (a + b))] if poured else []
    found = went_in(log)
    of_scale = sum(share * (a + b) for a, b, share, poured in made if poured)
    assert sum(one.value or 0.0 for one in found.poured) == pytest.approx(of_scale)
    assert sum(one.mixed.mass for one in found.batches if one.mixed) == pytest.approx(
        sum(a + b for a, b, *_ in made)
    )
    # which of two pails of the same weight was weighed as it went in cannot be told; both are there once
    expected = sum(share * (a + b) if poured else (1.0 - LOSS) * (a + b) for a, b, share, poured in made)
    assert in_mold(log) == pytest.approx(expected, rel=0.09)
