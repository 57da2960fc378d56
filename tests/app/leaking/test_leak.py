"""A leak of a straight block, whose every answer can be reckoned by hand."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from pourwright.app.leaking.leak import leak_job
from pourwright.app.leaking.readings import Readings, Seen
from pourwright.app.leaking.told import LeakTold, leak_told
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.jobs import load_plan
from pourwright.jobs.leak import LeakDocument
from pourwright.jobs.plan import PlanDocument
from tests.app.leaking.block import AREA, DENSITY, RESIN, begun, full_mass


@pytest.fixture
def plan(poured: Path) -> PlanDocument:
    return load_plan(poured.parent / "plan" / "plan.json")


def morning(poured: Path, plan: PlanDocument, **given: object) -> LeakDocument:
    at = begun(plan) + timedelta(hours=8)
    readings = Readings(**{"poured": (full_mass(plan, 0.050),), "seen": (Seen(at, 0.040),), **given})  # type: ignore[arg-type]
    return leak_job(poured, readings, now=at + timedelta(minutes=5)).document


def test_what_ran_out_of_the_clear_part_is_its_fall(poured: Path, plan: PlanDocument) -> None:
    found = morning(poured, plan).mass
    shrunk = RESIN.cure_shrinkage.value
    assert found.out_kg == pytest.approx(DENSITY * AREA * 0.010, rel=0.25)
    # what has shrunk has not run out: never more than the fall
    assert DENSITY * AREA * (0.010 - 2 * shrunk * 0.050) < found.out_kg < DENSITY * AREA * 0.0105
    assert found.out_kg_p10 < found.out_kg < found.out_kg_p90


def test_the_masses_balance_exactly(poured: Path, plan: PlanDocument) -> None:
    found = morning(poured, plan).mass
    assert found.in_mold_kg + found.out_kg == pytest.approx(found.poured_kg, abs=1e-12)
    assert found.in_mold_kg_p10 + found.out_kg_p90 == pytest.approx(found.poured_kg, abs=1e-12)
    assert found.in_mold_m3 * DENSITY == pytest.approx(found.in_mold_kg)


def test_one_that_no_longer_runs_is_topped_up_now_by_what_is_missing(
    poured: Path, plan: PlanDocument
) -> None:
    found = morning(poured, plan, drips=False)
    assert found.top_up.way == "now"
    assert found.top_up.missing_kg == pytest.approx(DENSITY * AREA * 0.010, rel=0.25)
    a, b = plan.fill.parts_by_weight or (0.0, 0.0)
    assert found.top_up.part_a_kg / found.top_up.part_b_kg == pytest.approx(a / b, rel=0.05)
    assert found.top_up.mix_kg >= found.top_up.missing_kg
    assert [each.way for each in found.top_up.windows] == ["now", "bond", "sand"]


def test_one_that_runs_is_left_to_gel_and_falls_on_until_then(poured: Path, plan: PlanDocument) -> None:
    found = morning(poured, plan, drips=True)
    assert found.top_up.way == "bond"
    assert found.at_gel.level.level_m < found.at_gel.if_stopped_m
    assert found.running.rate_kg_h > 0.0


def test_after_its_bond_window_it_is_sanded_or_its_glass_comes_out(poured: Path, plan: PlanDocument) -> None:
    late = begun(plan) + timedelta(hours=plan.pours[0].bonds_until_h + 2.0)
    for level, way in ((0.040, "sand"), (0.020, "glass out")):
        readings = Readings(poured=(full_mass(plan, 0.050),), seen=(Seen(late, level),), pour=1)
        found = leak_job(poured, readings, now=late).document
        assert (found.running.state, found.top_up.way) == ("gelled", way)


def test_a_level_as_planned_needs_nothing(poured: Path, plan: PlanDocument) -> None:
    at = begun(plan) + timedelta(hours=1)
    found = morning(poured, plan, seen=(Seen(at, 0.050),), drips=False)
    assert found.top_up.way == "nothing"
    assert found.top_up.batches == []


def test_both_readings_of_the_height_and_the_dip_agree(poured: Path, plan: PlanDocument) -> None:
    found = morning(poured, plan).level_now
    rim = plan.dip_stick[0].height_m + plan.dip_stick[0].dip_m
    assert found.level_m + found.dip_m == pytest.approx(rim)
    assert found.standing_m == pytest.approx(
        plan.piece.height_m - found.level_m if plan.piece.flipped else found.level_m
    )


def test_words_and_units_of_the_maker_are_read(poured: Path, plan: PlanDocument) -> None:
    mass = f"{1000 * full_mass(plan, 0.050):.0f} g"
    told = LeakTold(
        poured=(mass,), dip=("1 cm", "11 mm"), at=("13:00", "17:00"), caught="20 g", now="2026-12-01 17:05"
    )
    found = leak_told(poured, told).document
    assert [each.level_m for each in found.evidence if each.kind == "level" and each.at] == [
        pytest.approx(0.040),
        pytest.approx(0.039),
    ]
    assert found.evidence[1].at == "2026-12-01T13:00:00+01:00"
    hidden = LeakTold(poured=(mass,), no_level=True, at=("17:00",), now="2026-12-01 17:05")
    assert any(each.kind == "at most" for each in leak_told(poured, hidden).document.evidence)


MASS = "200 g"


@pytest.mark.parametrize(
    ("told", "word"),
    [
        (LeakTold(poured=(MASS,), level=("90 mm",)), "height of 90 mm"),
        (LeakTold(poured=("-200 g",), level=("40 mm",)), "batch 1"),
        (LeakTold(poured=(MASS,), level=("40 mm",), at=("2026-12-02 18:00",)), "future"),
        (LeakTold(poured=(MASS,), level=("40 mm",), at=("2026-12-01 07:00",)), "before this pour"),
        (LeakTold(poured=(MASS,), level=("40 mm",), gelled="2026-12-01 08:00"), "before this pour"),
        (LeakTold(poured=(MASS,), level=("40 mm",), begun="2026-12-02 08:00"), "future"),
        (LeakTold(poured=(MASS,), level=("40 mm",), pour=7), "no pour 7"),
        (LeakTold(poured=(MASS,), level=("40 mm",), dip=("10 mm",)), "both heights and dips"),
        (LeakTold(poured=(MASS,), level=("40 mm", "39 mm"), at=("12:00",)), "2 readings and 1 times"),
        (LeakTold(poured=(MASS,), level=("40 mm",), caught="-1 g"), "beside the mold"),
        (LeakTold(poured=(MASS,), level=("40 mm",), at=("noon",)), "no time"),
        (LeakTold(poured=(MASS,), level=("40 kg",)), "length"),
        (LeakTold(poured=(MASS,)), "no level"),
    ],
)
def test_what_cannot_be_is_refused_in_words(poured: Path, told: LeakTold, word: str) -> None:
    now = datetime(2026, 12, 1, 16, 0, tzinfo=UTC)
    with pytest.raises(UserError, match=word) as refused:
        leak_told(poured, told, now=now)
    assert refused.value.todo


def test_a_job_without_a_plan_is_told_to_make_one(small: Path) -> None:
    with pytest.raises(NotThereError, match="no plan"):
        leak_job(small, Readings())


def test_a_changed_job_is_said(poured: Path, plan: PlanDocument) -> None:
    text = poured.read_text("utf8")
    try:
        poured.write_text(text + "\n# a remark\n", "utf8")
        assert any("changed" in each for each in morning(poured, plan).warnings)
    finally:
        poured.write_text(text, "utf8")
