"""The heat of a top-up and the plan that goes on, on the block of the other tests."""

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from pourwright.app.hands import Work
from pourwright.app.leaking.told import LeakTold, leak_goes_on, leak_told
from pourwright.jobs import load_plan
from tests.app.leaking.block import AREA, DENSITY, full_mass

HERE = Work(processes=1, no_cache=True)


@pytest.fixture
def told(poured: Path) -> LeakTold:
    plan = load_plan(poured.parent / "plan" / "plan.json")
    mass = f"{1000 * full_mass(plan, 0.050):.0f} g"
    return LeakTold(poured=(mass,), level=("20 mm",), at=("17:00",), drips=False, now="2026-12-01 17:05")


def test_the_plan_goes_on_from_the_level_as_logged(poured: Path, told: LeakTold) -> None:
    found = leak_told(poured, told).document
    (plan,) = leak_goes_on(poured, told, work=HERE).plans
    first, *left = plan.pours
    begun, now = datetime.fromisoformat(found.begun), datetime.fromisoformat(found.computed_for)
    assert datetime.fromisoformat(first.start) == begun
    assert first.to_m == pytest.approx(found.at_gel.level.level_m)
    assert left[0].from_m == pytest.approx(first.to_m)
    assert left[-1].to_m == pytest.approx(0.050)
    start = datetime.fromisoformat(left[0].start)
    assert now < start
    assert first.bonds_from_h <= (start - begun) / timedelta(hours=1) <= first.bonds_until_h
    # the glass of the first pour lies in the mold already; clear resin is what is left above 30 mm
    assert all(portion.band != "clear window" for pour in left for portion in pour.glass)
    assert sum(portion.mass_kg for pour in left for portion in pour.glass) == 0.0
    resin = sum(pour.resin_kg for pour in left)
    assert resin == pytest.approx(DENSITY * AREA * 0.020 + DENSITY * AREA * 0.45 * 0.012, rel=0.25)
    assert all(datetime.fromisoformat(event.end) >= now for event in plan.calendar)
    assert "state as logged" in {reason.key for reason in plan.reasons}
    written = load_plan(poured.parent / "plan-goes-on" / "plan.json")
    assert written == plan
    # what was poured by stays what it was
    assert len(load_plan(poured.parent / "plan" / "plan.json").pours) == 1


def test_the_heat_of_a_top_up_is_run_and_told(poured: Path, told: LeakTold) -> None:
    bound, run = (leak_told(poured, told, heat=asked).document.heat for asked in (False, True))
    assert (bound.kind, run.kind) == ("bound", "run")
    # a small block of slow resin in a shop of 22 degC warms a little
    assert run.peak_degC is not None
    assert 22.0 < run.peak_degC < 45.0
    assert run.cured_enough_after_h is not None
    assert 24.0 < run.cured_enough_after_h < 21 * 24.0
