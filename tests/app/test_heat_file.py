"""The heat file and the cuts of a real plan agree with each other and with what the plan says."""

import contextlib
import io
import re
from datetime import datetime
from hashlib import sha256
from pathlib import Path

import numpy as np
import pytest

from pourwright.app.plan_folder import write_plan
from pourwright.jobs import SnapshotFile
from pourwright.sheets.axes import hours_between
from pourwright.sheets.wording import Wording
from tests.app.conftest import NOW

pytestmark = pytest.mark.xdist_group("example")
PAGE = Path(__file__).parents[2] / "docs" / "plan-folder.md"
HALF = 0.032
"""Half precision between 32 and 64 degC: steps of 1/32."""
MEAN = 0.4
"""A display cell may take up two thin ones of the run: its mean lies below the hotter of them [K]."""


def folder_of(planned) -> Path:
    return next(path.parent for path in planned.files if path.name == "plan.json")


@pytest.fixture(params=["stool", "lamp"])
def planned(request):
    return request.getfixturevalue(request.param)


def test_the_file_belongs_to_its_plan(planned):
    folder, (plan,) = folder_of(planned), planned.plans
    with SnapshotFile(folder / "heat.h5") as file:
        assert file.about["plan_sha256"] == sha256((folder / "plan.json").read_bytes()).hexdigest()
        assert file.about["title"] == plan.job.title
        assert file.about["first_pour"] == plan.pours[0].start
        assert file.pour_level_m.tolist() == [pour.to_m for pour in plan.pours]
        assert np.diff(file.time_h).min() >= 0.0
        assert file.pours_in.max() == len(plan.pours)
        assert datetime.fromisoformat(file.about["computed_for"]) == NOW


def test_a_few_hundred_moments_of_the_casting_box_and_no_more(planned):
    (plan,) = planned.plans
    with SnapshotFile(folder_of(planned) / "heat.h5") as file:
        assert 100 <= file.time_h.size <= 310  # 300, and the fixed ones
        sides = [file.edges_m[axis][-1] - file.edges_m[axis][0] for axis in "xyz"]
        assert sides == pytest.approx(plan.piece.size_m, abs=2 * plan.heat.spacing_m)
        assert max(file.centers_m[axis].size for axis in "xyz") <= 1.5 * 64


def test_histories_count_from_the_first_pour(planned):
    (plan,) = planned.plans
    for pour in plan.pours:
        assert pour.history.time_h[0] == pytest.approx(
            hours_between(plan.pours[0].start, pour.start), abs=1e-3
        )
    # the air is told from a little before, at the shop's own hours
    assert plan.heat.air_time_h[0] == -2.0
    assert plan.heat.air_time_h[-1] >= plan.pours[-1].history.time_h[-1]


def test_its_history_is_the_plans(planned):
    """The plan tells the hottest and the coolest place of each moment; the file holds every place."""
    (plan,) = planned.plans
    with SnapshotFile(folder_of(planned) / "heat.h5") as file:
        for pour in plan.pours:
            history = pour.history
            own = np.flatnonzero(file.pours_in == pour.number)
            for moment in own[:: max(1, len(own) // 5)]:
                box, time = file.box(int(moment)), float(file.time_h[moment])
                rows = (history.hottest_degC, history.coolest_degC)
                hottest, coolest = (np.interp(time, history.time_h, row) for row in rows)
                # the plan's history is thinned to 160 points, with straight lines between them
                assert hottest - MEAN <= np.nanmax(box) <= hottest + 0.3
                assert coolest - 0.3 <= np.nanmin(box) <= hottest


def test_the_hottest_place_of_the_plan_is_in_the_file(planned):
    (plan,) = planned.plans
    pour = max(plan.pours, key=lambda each: each.peak_temperature_degC)
    with SnapshotFile(folder_of(planned) / "heat.h5") as file:
        there = file.history(pour.peak_place_m)
        # peaks are found within a step, snapshots are taken at its end
        assert (
            pour.peak_temperature_degC - MEAN - 0.1 <= np.nanmax(there) <= pour.peak_temperature_degC + HALF
        )
        near = file.time_h[there >= np.nanmax(there) - HALF] - file.pour_start_h[pour.number - 1]
    assert near[0] - 0.5 <= pour.peak_after_h <= near[-1] + 0.5


def cells_at(edges: np.ndarray, others: list[float]) -> np.ndarray:
    """In which of our cells the middles of the others lie."""
    middles = (np.array(others[1:]) + np.array(others[:-1])) / 2
    return np.clip(np.searchsorted(edges, middles, side="right") - 1, 0, edges.size - 2)


def test_the_cuts_are_planes_of_the_same_run(planned):
    (plan,) = planned.plans
    hottest, demold = plan.heat.sections
    assert (hottest.moment, demold.moment) == ("hottest", "demold")
    with SnapshotFile(folder_of(planned) / "heat.h5") as file:
        start = file.pour_start_h[hottest.pour - 1]
        plane = file.plane(file.moment(start + hottest.after_h), hottest.axis, hottest.offset_m)
        end = file.plane(file.time_h.size - 1, demold.axis, demold.offset_m, "cured")
        along, up = file.edges_m["y" if demold.axis == "x" else "x"], file.edges_m["z"]
    warmest = max(value for row in hottest.temperature_degC for value in row if value is not None)
    assert warmest - MEAN <= np.nanmax(plane) <= warmest + HALF
    cured = [value for row in demold.cured for value in row if value is not None]
    assert np.nanmin(end) == pytest.approx(min(cured), abs=5e-3)
    assert min(cured) == pytest.approx(plan.demold.cured, abs=2.1e-3)  # places as soft within 0.2 %
    # wherever the plan tells a value the file holds it: half precision, and the mean over a display cell
    told = np.array(demold.cured, dtype=float)
    there = end[np.ix_(cells_at(along, demold.across_m), cells_at(up, demold.up_m))].T
    assert there[np.isfinite(told)] == pytest.approx(told[np.isfinite(told)], abs=2e-3)


def test_the_pictures_say_what_the_plan_says(planned):
    (plan,), folder = planned.plans, folder_of(planned)
    words = Wording(plan.job)
    peak = max(pour.peak_temperature_degC for pour in plan.pours)
    assert f"hottest: {words.temperature(peak)}" in (folder / "drawings/hottest-moment.svg").read_text()
    cured = words.share(plan.demold.cured)
    assert f"least cured: {cured}" in (folder / "drawings/coldest-at-demold.svg").read_text()
    for name in ("hottest-moment", "coldest-at-demold"):
        assert (folder / f"drawings/{name}.png").read_bytes().startswith(b"\x89PNG")


def test_the_cuts_stay_small(planned):
    (plan,) = planned.plans
    assert len(plan.model_dump_json(include={"heat": {"sections"}})) < 200_000


def test_the_manuals_lines_of_python_read_it(planned, monkeypatch):
    (lines,) = re.findall(r"```python\n(.*?)```", PAGE.read_text("utf8"), re.DOTALL)
    monkeypatch.chdir(folder_of(planned))
    printed, names = io.StringIO(), {}
    with contextlib.redirect_stdout(printed):
        exec(compile(lines, PAGE.name, "exec"), names)
    moments = names["file"]["time_h"].size
    names["file"].close()
    assert len(re.findall(r"nan|[\d.]+", printed.getvalue())) == 2 * moments


def test_being_stopped_while_it_is_written_leaves_the_older_plan(lamp, tmp_path, monkeypatch):
    folder = tmp_path / "plan"
    write_plan(lamp.plans[0], folder)
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}

    def stopped(*_: object) -> bytes:
        raise KeyboardInterrupt

    monkeypatch.setattr("pourwright.app.plan_folder.heat_file", stopped)
    with pytest.raises(KeyboardInterrupt):
        write_plan(lamp.plans[0], folder, recording="any")  # type: ignore[arg-type]
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before
    assert [path.name for path in tmp_path.iterdir()] == ["plan"]
