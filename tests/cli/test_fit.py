"""The fit command: its words, its JSON, its statuses, and being stopped."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from pourwright.foundation.errors import Cancelled, UserError
from pourwright.jobs.fit import FitDocument
from tests.cli.conftest import Said
from tests.cli.fake_app import Answer, FakeApp

Say = Callable[..., Said]
DEPTH = {"key": "depth", "words": "greatest neat depth", "unit": "m", "value": 0.05}
DEPTH_BAND = DEPTH | {"value_p10": 0.035, "value_p90": 0.064}
WITHOUT = DEPTH | {"value": 0.06, "value_p10": 0.03, "value_p90": 0.09}
GEL = {
    "label": "gel_time", "unit": "h", "stated": 20.0, "fitted": 26.0, "missed": -3.1,
    "others": {"unit": "h", "value": 27.0, "value_p10": 24.0, "value_p90": 31.0}, "without": [WITHOUT],
}  # fmt: skip
CUP = {
    "label": "cup test", "unit": None, "stated": None, "fitted": None, "missed": 0.0, "others": None,
    "without": [WITHOUT],
}  # fmt: skip


def document(**changes: Any) -> dict[str, Any]:
    """A fit of two facts; all of it invented, and checked to be a fit document."""
    cup = {
        "label": "cup test", "file": "cup.csv", "rows": 181, "mass_kg": 0.4, "time_h": [0.0, 1.0],
        "measured_degC": [22.0, 25.0], "fitted_degC": [22.0, 25.1], "fitted_degC_p10": [21.8, 24.8],
        "fitted_degC_p90": [22.2, 25.4], "air_time_h": [0.0, 1.0], "air_degC": [21.0, 21.0],
    }  # fmt: skip
    next_cup = {
        "mass_kg": 0.3, "part_a_kg": 0.214, "part_b_kg": 0.086, "logged_h": 48.0, "peak_degC": 48.0,
        "peak_degC_p10": 38.0, "peak_degC_p90": 66.0,
    }  # fmt: skip
    made = {
        "schema": "pourwright-fit/1.0", "version": "0.1.0", "id": "river", "name": "River resin",
        "family": "epoxy-slow-deep", "hardener": "slow polyether amines", "source": "an invented sheet",
        "units": "metric", "invented": True, "density_kg_m3": 1090.0, "inputs": {"facts.toml": "0" * 64},
        "facts": [GEL, CUP], "answers": [DEPTH_BAND],
        "contradictions": [
            {"first": "gel_time", "second": "peak", "apart": 3.0, "text": "gel_time and peak: one is wrong"}
        ],
        "unusual": ["gel_time: sooner than 9 of 10 of this family"], "narrowed": ["how fast it cures"],
        "uncertain": ["how well it conducts heat"], "parameters": [], "covariance": [], "cups": [cup],
        "next_cup": next_cup, "notes": ["the tack-free time says little"],
    }  # fmt: skip
    return FitDocument.model_validate(made | changes).to_json()


def asked(app: FakeApp, answer: dict[str, Any], monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    calls: list[Any] = []

    def fit_resin(path: Path, *, out: Path | None, progress: Any) -> Answer:
        progress.step("fitting", 0, 1)
        calls.append((path, out))
        if app.failure is not None:
            raise app.failure
        return Answer(answer, [Path("resin/fit/resin.toml"), Path("resin/fit/fit.json")])

    monkeypatch.setattr(app, "fit_resin", fit_resin, raising=False)
    return calls


def test_it_prints_facts_answers_contradictions_and_files(
    app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls = asked(app, document(), monkeypatch)
    said = say("fit", "resin/facts.toml")
    assert (said.status, said.err) == (0, "fitting ...\n")
    assert calls == [(Path("resin/facts.toml"), None)]
    lines = [" ".join(line.split()) for line in said.out.splitlines()]
    assert lines[0] == "River resin, cured by slow polyether amines (an example: its data are invented)"
    assert "gel_time 20 h 1 day 2 h 1 day to 1 day 7 h 30 mm to 90 mm" in lines
    assert "cup test 181 rows 30 mm to 90 mm" in lines
    assert any("greatest neat depth" in line and "50 mm (35 mm to 64 mm)" in line for line in lines)
    for remark in ("gel_time and peak: one is wrong", "how well it conducts heat", "how fast it cures"):
        assert f"- {remark}" in lines
    assert lines[-3:] == ["Files:", "resin/fit/resin.toml", "resin/fit/fit.json"]
    assert max(map(len, said.out.splitlines())) <= 110


def test_the_folder_may_be_chosen(app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch) -> None:
    calls = asked(app, document(), monkeypatch)
    assert say("fit", "resin/facts.toml", "--out", "elsewhere").status == 0
    assert calls == [(Path("resin/facts.toml"), Path("elsewhere"))]


def test_us_shop_reads_its_own_units(app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch) -> None:
    asked(app, document(units="us"), monkeypatch)
    out = say("fit", "resin/facts.toml").out
    assert "1 3/8 in to 2 1/2 in" in out
    assert " mm" not in out


def test_what_is_not_there_has_no_heading(app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch) -> None:
    nothing: dict[str, Any] = {
        "contradictions": [],
        "unusual": [],
        "narrowed": [],
        "uncertain": [],
        "notes": [],
    }
    asked(app, document(**nothing, invented=False), monkeypatch)
    out = say("fit", "resin/facts.toml").out
    headings = ("Contradictions", "Unusual", "Well known now", "Stays uncertain", "Notes", "invented")
    assert [heading for heading in headings if heading in out] == []


def test_json_is_the_document_and_nothing_else(
    app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked(app, document(), monkeypatch)
    assert json.loads(say("fit", "resin/facts.toml", "--json").out) == document()


def test_a_fault_of_the_maker_is_one_line(app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch) -> None:
    asked(app, document(), monkeypatch)
    app.failure = UserError("times go backwards", where="cup.csv:31", todo="cut off the second test")
    said = say("fit", "resin/facts.toml")
    assert (said.status, said.out) == (2, "")
    assert said.err.splitlines()[-1] == "cup.csv:31: times go backwards; do: cut off the second test"


def test_stopped_it_says_so(app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch) -> None:
    asked(app, document(), monkeypatch)
    app.failure = Cancelled()
    said = say("fit", "resin/facts.toml")
    assert (said.status, said.out) == (130, "")
    assert said.err.splitlines()[-1] == "stopped; nothing half-written was left"
