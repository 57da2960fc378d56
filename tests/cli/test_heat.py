"""The heat command: its words, its JSON, its exit statuses, and being stopped."""

import json
import signal
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Said
from tests.cli.fake_app import Answer, FakeApp
from tests.cli.foreground import started

Say = Callable[..., Said]
PLACE = {"x_m": 0.0, "y_m": -0.0125, "z_m": 0.02}
HOTTEST = {"temperature_degC": 61.26, "time_h": 12.5, **PLACE}
PROBE = {
    "name": "middle", **PLACE, "time_h": [0.0, 12.0, 20.0], "temperature_degC": [20.0, 60.0, 31.5],
    "conversion": [0.0, 0.5, 0.84], "peak_temperature_degC": 60.04, "peak_time_h": 12.25,
}  # fmt: skip


def document(**changes: Any) -> dict[str, Any]:
    """A heat document with the parts that are printed."""
    job = {"title": "Slab", "variant": "main", "units": "metric", "time_zone": "UTC", "invented": False}
    pour = {"number": 1, "to_m": 0.04, "at_h": 0.0, "temperature_degC": 21.5, "hottest": HOTTEST}
    return {
        "job": job,
        "start": "2027-01-11T09:00:00+00:00",
        "pinned": ["film", "probe"],
        "grid": {"spacing_m": 0.004, "across_m": 0.0251, "cells": [8, 8, 10], "steps": 96},
        "pours": [pour],
        "probes": [PROBE],
        "hottest": HOTTEST | {"history_time_h": [0.0]},
        "ending": {"why": "cooled", "time_h": 20.0, "least_cured": 0.83, "text": "cooled off its peak"},
        "energy_error": 3e-16,
        "notes": ["h is 0: no heat gets out"],
    } | changes


def asked(app: FakeApp, answer: dict[str, Any], monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    calls: list[Any] = []

    def heat_job(path: Path, *, variant: str | None, progress: Any) -> Answer:
        progress.step("heat and cure, pour 1 of 1", 0, 1)
        calls.append((path, variant))
        return Answer(answer)

    monkeypatch.setattr(app, "heat_job", heat_job, raising=False)
    return calls


def test_it_prints_pours_probes_and_the_hottest_place(
    app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls = asked(app, document(), monkeypatch)
    said = say("heat", "slab/job.toml", "--variant", "thin")
    assert (said.status, said.err) == (0, "heat and cure, pour 1 of 1 ...\n")
    assert calls == [(Path("slab/job.toml"), "thin")]
    lines = [" ".join(line.split()) for line in said.out.splitlines()]
    assert "1 40 mm 0 h 21.5 °C 61.3 °C 12 h 30 min 0.0 mm, -12.5 mm, 20.0 mm" in lines
    assert "middle 0.0 mm, -12.5 mm, 20.0 mm 60.0 °C 12 h 15 min 31.5 °C 84 %" in lines
    assert "Hottest 61.3 °C after 12 h 30 min, at x, y, z = 0.0 mm, -12.5 mm, 20.0 mm" in lines
    assert "End cooled off its peak; least-cured place 83 % cured" in lines
    assert "Grid 8 x 8 x 10 cells, 4.0 mm high and 25.1 mm wide at most" in lines
    assert "- h is 0: no heat gets out" in lines
    assert any(line.startswith("Steps 96 in ") and line.endswith("closes to round-off") for line in lines)
    assert max(map(len, said.out.splitlines())) <= 110


def test_us_shop_reads_its_own_units(app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch) -> None:
    answer = document()
    answer["job"] |= {"units": "us"}
    asked(app, answer, monkeypatch)
    out = say("heat", "slab/job.toml").out
    assert "142.3 °F" in out
    assert " mm" not in out
    assert "°C" not in out


def test_a_probe_that_was_never_covered_says_so(
    app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch
) -> None:
    bare = PROBE | {"time_h": [], "temperature_degC": [], "conversion": [], "peak_temperature_degC": None}
    asked(app, document(probes=[bare]), monkeypatch)
    assert "never covered" in say("heat", "slab/job.toml").out


@pytest.mark.parametrize("option", [(), ("--json",)])
def test_a_runaway_is_told_and_changes_the_status(
    app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch, option: tuple[str, ...]
) -> None:
    text = "it runs away: stopped at 814 °C after 4 min, at x 0.0 mm, y 0.0 mm, z 20.0 mm"
    ending = {"why": "runaway", "time_h": 0.07, "least_cured": 0.0, "text": text}
    asked(app, document(ending=ending), monkeypatch)
    said = say("heat", "slab/job.toml", *option)
    assert said.status == 1
    assert said.err.splitlines()[-1] == text
    assert text.partition(",")[0] in " ".join(said.out.split())


def test_json_is_the_document_and_nothing_else(
    app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked(app, document(), monkeypatch)
    assert json.loads(say("heat", "slab/job.toml", "--json").out) == document()


JOB = """format = 1
[shape]
box = ["300 mm", "300 mm", "300 mm"]
[casting]
material = "epoxy-slow-deep"
[shop]
temperature = "22 degC"
[pin]
until = "100 weeks"
"""


def test_ctrl_c_stops_a_long_run(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(JOB)
    running = started(tmp_path, "heat", "job.toml", "--json")
    assert running.stderr is not None
    next(line for line in running.stderr if line.startswith("heat and cure"))
    running.send_signal(signal.SIGINT)
    out, err = running.communicate(timeout=120)
    assert running.returncode == 130, err
    assert out == ""
    assert err.splitlines()[-1] == "stopped; nothing half-written was left"
