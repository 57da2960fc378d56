"""The heat on a section is what the heat file of the plan holds."""

from pathlib import Path

import numpy as np
import pytest

from pourwright.app.viewing.heat import heat_at, heat_of, planes_of
from pourwright.app.viewing.packed import unpacked
from pourwright.app.viewing.view import view_of
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.jobs import SnapshotFile

pytestmark = pytest.mark.xdist_group("example")


@pytest.fixture
def job(lamp) -> Path:
    return next(path.parent.parent for path in lamp.files if path.name == "plan.json") / "job.toml"


@pytest.fixture
def heat(job) -> dict:
    return heat_of(job)


def test_a_plane_through_time_is_the_files(job, heat):
    arrays = unpacked(planes_of(job, "y", 0.004))[1]
    with SnapshotFile(job.parent / "plan" / "heat.h5") as file:
        times = file.time_h.tolist()
        for row in range(0, len(heat["hours"]), 7):
            moment = max(n for n, time in enumerate(times) if time == heat["hours"][row])
            if file.pours_in[moment] != heat["pours_in"][row]:
                moment -= 1
            plane, cured = (file.plane(moment, "y", 0.004, what) for what in ("temperature_degC", "cured"))
            there = np.isfinite(plane)
            assert there.any()
            np.testing.assert_array_equal(arrays["temperature"][row][there], plane[there].astype(np.float16))
            assert arrays["cured"][row][there] / 250 == pytest.approx(cured[there], abs=0.0021)
            wet = (arrays["filled"] > 0) & (arrays["filled"] <= heat["pours_in"][row])
            np.testing.assert_array_equal(wet, there)


def test_where_nothing_is_poured_stands_a_value_of_the_casting_beside_it(job, heat):
    arrays = unpacked(planes_of(job, "x", 0.0))[1]
    warm, filled = arrays["temperature"], arrays["filled"]
    assert (filled == 0).any()
    for row in (0, len(heat["hours"]) // 2):
        wet = (filled > 0) & (filled <= heat["pours_in"][row])
        assert set(warm[row].ravel().tolist()) == set(warm[row][wet].tolist())


def test_the_hottest_place_and_its_limit_are_named(lamp, heat, job):
    (plan,) = lamp.plans
    peak = max(pour.peak_temperature_degC for pour in plan.pours)
    assert heat["hottest"]["temperature_degC"] == peak
    assert heat["temperature"]["high_degC"] >= peak
    assert f"{peak * 1.8 + 32:.0f} °F" in heat["hottest"]["text"]
    at = heat_at(job, tuple(heat["hottest"]["place_m"]), heat["hottest"]["time_h"])
    assert at["temperature_degC"] == pytest.approx(peak, abs=0.6)
    assert f"{at['temperature_degC'] * 1.8 + 32:.0f} °F" in at["text"]
    assert at["text"].count("cured") == 1


def test_moments_are_few_in_order_and_hold_both_sides_of_every_pour(lamp, heat, job):
    assert heat["hours"] == sorted(heat["hours"])
    assert len(heat["hours"]) <= 130
    with SnapshotFile(job.parent / "plan" / "heat.h5") as file:
        assert (heat["hours"][0], heat["hours"][-1]) == (file.time_h[0], file.time_h[-1])
        for start in file.pour_start_h[1:]:
            assert heat["hours"].count(start) == 2
    assert all("°" not in text and "pour" in text for text in heat["moments"])
    assert not heat["old"]


def test_before_it_is_poured_there_is_nothing(job, heat):
    top = (0.0, 0.0, heat["edges_m"]["z"][-1] - 1e-4)
    if len(heat["levels_m"]) > 1:
        assert heat_at(job, top, 0.0)["temperature_degC"] is None
    assert heat_at(job, top, heat["hours"][-1])["cured"] > 0.5
    with pytest.raises(UserError, match="outside the casting"):
        heat_at(job, (9.0, 0.0, 0.0), 0.0)


def test_the_scale_ticks_are_in_the_makers_degrees(heat):
    low, high = heat["temperature"]["low_degC"], heat["temperature"]["high_degC"]
    texts = [tick["text"] for tick in heat["temperature"]["ticks"]]
    assert texts[0] == f"{low * 1.8 + 32:.0f} °F"
    assert texts[-1] == f"{high * 1.8 + 32:.0f} °F"


def test_pours_are_parts_once_there_is_a_plan(lamp, job):
    pours = [part for part in view_of(job)["parts"] if part["kind"] == "pour"]
    assert [part["volume_m3"] for part in pours] == [pour.volume_m3 for pour in lamp.plans[0].pours]


def test_without_a_plan_it_is_said(tmp_path, small):
    with pytest.raises(NotThereError, match="no heat to show yet"):
        heat_of(small)
    with pytest.raises(NotThereError, match="no heat to show yet"):
        planes_of(small, "y", 0.0)
