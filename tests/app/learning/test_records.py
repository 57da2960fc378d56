"""Each kind of entry gives the record that was put into it, and none where it says nothing."""

from datetime import UTC, datetime, timedelta
from math import exp, log

import numpy as np
import pytest

from pourwright.app.benching.steps import BEGUN, IN_MOLD, READY
from pourwright.app.learning.from_clock import hours_of
from pourwright.app.learning.from_cooling import heat_film_of
from pourwright.app.learning.from_glass import yields_of
from pourwright.app.learning.from_pours import PourLogged, records_of
from pourwright.app.learning.from_size import shrinkage_of
from pourwright.app.learning.from_water import cavity_of
from pourwright.app.learnt.paces import GETTING_READY, POURING
from pourwright.app.work_lengths import laying_time, pouring_time
from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.plan_sizes import Direction, Sizes
from pourwright.materials import load_materials
from pourwright.materials.batches import Batch
from pourwright.physics.outside_film import outside_film
from pourwright.records import Entry
from tests.sheets.sample_plan import sample_plan

NINE = datetime(2026, 9, 1, 9, 0, tzinfo=UTC)
MATERIALS = load_materials()


def entry(kind: str, minutes: float = 0.0, value: float | None = None, text: str = "") -> Entry:
    return Entry(pour_id=1, kind=kind, at=NINE + timedelta(minutes=minutes), value=value, text=text)


def water(minutes: float, litres: float, level: float) -> list[Entry]:
    # 998.2 kg/m3 at 20 degC, from tables of water
    return [entry("water", minutes, 0.9982 * litres), entry("water_level", minutes, level)]


def test_the_water_test_tells_what_the_mold_holds_over_its_drawing() -> None:
    plan = sample_plan(1)
    marks = [plan.dip_stick[len(plan.dip_stick) * share // 10] for share in (4, 7, 9)]
    entries = [
        each
        for number, mark in enumerate(marks)
        for each in water(number, 1020.0 * mark.cavity_m3, mark.height_m)
    ]
    found = list(cavity_of(plan, entries, "7", "stool", 1.0))
    assert [one.value for one in found] == [pytest.approx(1.02, abs=2e-4)] * 3
    assert {one.subject for one in found} == {"stool"}
    assert len({one.id for one in found}) == 3
    # a millimetre of the dip counts for less the higher the water stands in a straight part
    assert all(0.0 < one.doubt < 0.03 for one in found)
    # a plan that was made with 1.02 already finds the same again, not 1.00
    scaled = plan.model_copy(
        update={
            "dip_stick": [
                row.model_copy(update={"cavity_m3": 1.02 * row.cavity_m3}) for row in plan.dip_stick
            ]
        }
    )
    again = list(cavity_of(scaled, entries, "7", "stool", 1.02))
    assert [one.value for one in again] == [pytest.approx(one.value) for one in found]


def test_water_without_its_level_and_a_puddle_tell_nothing() -> None:
    plan = sample_plan(1)
    low = plan.dip_stick[1]
    puddle = water(0, 1000.0 * low.cavity_m3, low.height_m)
    assert list(cavity_of(plan, [entry("water", 0, 3.0)], "7", "stool", 1.0)) == []
    assert list(cavity_of(plan, [entry("water_level", 0, 0.1)], "7", "stool", 1.0)) == []
    assert low.cavity_m3 < 0.1 * plan.dip_stick[-1].cavity_m3
    assert list(cavity_of(plan, puddle, "7", "stool", 1.0)) == []


def test_what_was_sieved_belongs_to_the_crushing_before_it() -> None:
    entries = [
        entry("sieved", 0, 1.0, "coarse"),
        entry("crushed", 1, 10.0),
        entry("sieved", 2, 3.0, "coarse"),
        entry("sieved", 3, 1.0, "coarse"),
        entry("sieved", 4, 2.5, "medium"),
        entry("crushed", 5, 8.0),
        entry("sieved", 6, 2.0, "coarse"),
        entry("sieved", 7, 9.0, "medium"),
    ]
    found = [(one.subject, one.value) for one in yields_of(entries, "7")]
    # more than went in is no yield
    assert found == [("coarse", 0.4), ("medium", 0.25), ("coarse", 0.25)]


def sized(casting: float) -> PlanDocument:
    """A plan whose casting loses so much along z of a cavity of 450 mm."""
    plain = dict.fromkeys(
        ("piece_m", "piece_low_m", "piece_high_m", "sanded_m", "rubber_m", "master_m", "master_low_m",
         "master_high_m"), 0.0,
    )  # fmt: skip
    up = Direction(
        axis="z", poured="z", words="z, up as poured", cast_m=0.450 - casting, casting_m=casting,
        warm_rubber_m=0.0, cavity_m=0.450, **plain,
    )  # fmt: skip
    sizes = Sizes(
        shape_is="master", cut=False, directions=[up], faces=[], piece_volume_m3=0.0, cavity_volume_m3=0.0,
        master_volume_m3=0.0, master_size_m=(0.0, 0.0, 0.0), gels_at_degC=30.0, numbers=[], notes=[],
    )  # fmt: skip
    return sample_plan(1).model_copy(update={"sizes": sizes})


def test_a_piece_that_lost_half_as_much_more_shrinks_half_as_much_more() -> None:
    measured = [entry("size", 0, 0.450 - 0.006, "z"), entry("size", 1, 0.3, "x")]
    (found,) = shrinkage_of(sized(0.004), measured, "7", 0.030)
    assert found.value == pytest.approx(0.045)
    # half a millimetre of a loss of four
    assert found.doubt == pytest.approx(0.030 / 8)
    # one that grew was measured at another place
    assert list(shrinkage_of(sized(0.004), [entry("size", 0, 0.452, "z")], "7", 0.030)) == []


def test_the_bench_tells_how_long_getting_ready_and_pouring_took() -> None:
    pour = sample_plan(1).pours[0]
    batches = [Batch(b.number, b.mass_kg, b.part_a_kg, b.part_b_kg, b.ratio_error) for b in pour.batches]
    ready = (laying_time(sum(each.mass_kg for each in pour.glass)) + 1800.0) / 60.0
    usual = pouring_time(batches) / 60.0
    entries = [
        entry("step", 0, text=f"{BEGUN}{READY} pour 1"),
        entry("step", 1.5 * ready, text=f"{READY} pour 1"),
        entry("weigh_a", 200 + 1.5 * ready, 1.0),
    ]
    count = len(batches)
    went_in = [200 + 1.5 * ready + 1.2 * usual * number / count for number in range(1, count + 1)]
    entries += [entry("step", at, text=f"{IN_MOLD}: batch {n}") for n, at in enumerate(went_in, 1)]
    found = {one.subject: one.value for one in hours_of(pour, entries, "7")}
    assert found == {GETTING_READY: pytest.approx(1.5), POURING: pytest.approx(1.2)}
    # the last batch is still in its pail
    assert POURING not in {one.subject for one in hours_of(pour, entries[:-1], "7")}


def test_what_was_entered_afterwards_in_one_go_tells_no_hours() -> None:
    pour = sample_plan(1).pours[0]
    entries = [entry("weigh_a", 0, 1.0)]
    entries += [entry("step", 0.1, text=f"{IN_MOLD}: batch {n}") for n in range(1, len(pour.batches) + 1)]
    assert list(hours_of(pour, entries, "7")) == []


def test_what_clung_tells_the_film() -> None:
    plan, film = sample_plan(1), 0.15e-3
    # a box of 80 by 60 by 50 mm, open at the top
    face = 0.08 * 0.06 + 2 * (0.08 + 0.06) * 0.05
    rows = [
        plan.dip_stick[0].model_copy(update={"height_m": z, "cavity_m3": 0.08 * 0.06 * z})
        for z in (0.0, 0.04, 0.05)
    ]
    piece = plan.piece.model_copy(update={"area_m2": face + 0.08 * 0.06})
    plan = plan.model_copy(update={"dip_stick": rows, "piece": piece})
    one = PourLogged(id="7", number=1, begun=NINE, clung=1100.0 * face * film)
    (found,) = records_of(plan, [one], 1100.0)
    assert (found.quantity, found.value) == ("film", pytest.approx(film))


def cooling(rate: float) -> PlanDocument:
    """A plan whose only pour peaks after 10 h, 40 K over the shop, then dies away at a rate [1/h]."""
    plan = sample_plan(1)
    hours = np.arange(0.0, 60.0, 0.5)
    hot = 20.0 + 40.0 * np.where(hours < 10.0, hours / 10.0, np.exp(-rate * (hours - 10.0)))
    history = plan.pours[0].history.model_copy(
        update={"time_h": hours.tolist(), "hottest_degC": hot.tolist(), "coolest_degC": hot.tolist()}
    )
    heat = plan.heat.model_copy(update={"air_time_h": [0.0, 100.0], "air_degC": [20.0, 20.0]})
    pours = [plan.pours[0].model_copy(update={"history": history})]
    rubber = plan.mold.rubber.model_copy(update={"id": next(iter(MATERIALS.rubber))})
    box = plan.mold.box.model_copy(update={"board": next(iter(MATERIALS.board))})
    mold = plan.mold.model_copy(update={"rubber": rubber, "box": box})
    return plan.model_copy(update={"pours": pours, "heat": heat, "mold": mold})


@pytest.mark.parametrize("factor", [0.6, 1.0, 1.7])
def test_a_mold_in_a_draught_is_found_by_how_fast_it_cooled(factor: float) -> None:
    plan = cooling(0.10)
    rubber, box = MATERIALS.rubber[plan.mold.rubber.id], MATERIALS.board[plan.mold.box.board]
    panel = min(each.thickness_m for each in plan.mold.box.panels)
    wall = plan.mold.rubber.wall_m / rubber.conductivity.value + panel / box.conductivity.value
    film = float(outside_film(303.15, 293.15, plan.piece.height_m, "upright", 0.9))
    # resistances in series: the wall's stays, the air's changes
    rate = 0.10 * (wall + 1.0 / film) / (wall + 1.0 / (factor * film))
    readings = [
        (NINE + timedelta(hours=hour), 20.0 + 35.0 * exp(-rate * max(hour - 9.0, 0.0)))
        for hour in np.arange(0.0, 80.0, 0.25).tolist()
    ]
    found = heat_film_of(plan, plan.pours[0], NINE, readings, MATERIALS, "7", "stool", 1.0)
    assert found is not None
    assert (found.quantity, found.subject) == ("heat_film", "stool")
    assert found.value == pytest.approx(factor, rel=0.02)
    assert found.doubt > 0.1 * found.value
    # a plan made with a factor of 2 that cooled as planned keeps its 2
    again = heat_film_of(plan, plan.pours[0], NINE, readings, MATERIALS, "7", "stool", 2.0)
    assert again is not None
    assert log(again.value) > log(found.value)


def test_a_logger_that_was_taken_out_early_tells_no_cooling() -> None:
    plan = cooling(0.10)
    short = [(NINE + timedelta(hours=hour), 20.0 + 4.0 * hour) for hour in range(11)]
    assert heat_film_of(plan, plan.pours[0], NINE, short, MATERIALS, "7", "stool", 1.0) is None
    assert heat_film_of(plan, plan.pours[0], NINE, [], MATERIALS, "7", "stool", 1.0) is None
