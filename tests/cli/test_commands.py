import json
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from pourwright import compiled_before
from tests.cli.conftest import Said
from tests.cli.fake_app import FakeApp
from tests.sheets.sample_plan import sample_document

Say = Callable[..., Said]
JOB = Path("stool/job.toml")


def test_plan_prints_what_the_plan_holds(app: FakeApp, say: Say) -> None:
    said = say("plan", "stool/job.toml")
    assert said.status == 0
    assert said.err == "heat run ...\n"
    flat = " ".join(said.out.split())
    assert app.plan["job"]["title"] in flat
    for pour in app.plan["pours"]:
        assert f"{pour['peak_temperature_degC']:.0f} °C {pour['peak_limit_degC']:.0f} °C" in flat
        assert f"{pour['to_m'] * 1000:.0f} mm {pour['to_standing_m'] * 1000:.0f} mm" in flat
    assert "2 Dec" in next(
        line for line in said.out.splitlines() if " and " in line and line.startswith("1 ")
    )
    for caution in app.plan["cautions"]:
        assert caution in flat
    assert "stool/plan/plan.pdf" in said.out
    assert max(map(len, said.out.splitlines())) <= 110
    assert "\x1b" not in said.out


def test_us_shop_reads_its_own_units(app: FakeApp, say: Say) -> None:
    app.plan = sample_document(units="us")
    out = say("plan", "stool/job.toml").out
    numbers = out.partition("Warnings")[0].partition("Take care")[0]
    assert " lb" in numbers
    assert "°F" in numbers
    assert " kg" not in numbers.replace("kg/", "")
    assert "°C" not in numbers


def test_json_is_the_whole_plan_and_nothing_else(app: FakeApp, say: Say) -> None:
    said = say("plan", "stool/job.toml", "--json")
    assert json.loads(said.out) == json.loads(json.dumps(app.plan))


def test_plan_passes_its_options_on(app: FakeApp, say: Say) -> None:
    say("plan", "stool/job.toml")
    say(
        "plan",
        "stool/job.toml",
        "--out",
        "friday",
        "--start",
        "2026-12-01 09:00",
        "--variant",
        "a",
        "--fine",
        "--what-if",
        "limits.probability = 0.8",
        "--processes",
        "1",
        "--no-cache",
    )
    usual = {"out": None, "start": None, "variant": None, "fine": False, "quick": False, "what_if": ()}
    usual |= {"processes": None, "cluster": None, "no_cache": False}
    asked = {
        "out": Path("friday"),
        "start": datetime(2026, 12, 1, 9),
        "variant": "a",
        "fine": True,
        "quick": False,
        "what_if": ("limits.probability = 0.8",),
        "processes": 1,
        "cluster": None,
        "no_cache": True,
    }
    assert app.calls == [("plan", (JOB, usual)), ("plan", (JOB, asked))]


def test_several_variants_each_get_their_lines(app: FakeApp, say: Say) -> None:
    plans = [sample_document(1, variant=name) for name in ("hung", "screwed")]
    app.plan = {"plans": plans}
    out = say("plan", "stool/job.toml").out
    assert "variant hung" in out
    assert "variant screwed" in out
    app.plan = sample_document(1, variant="main")
    assert "variant" not in say("plan", "stool/job.toml").out


def test_a_piece_that_never_hardens_is_told_so(app: FakeApp, say: Say) -> None:
    app.plan["demold"] |= {"at": None, "after_h": None, "cured": 0.61}
    assert "never hard enough in this shop: least-cured place 61 % cured" in say("plan", "stool/job.toml").out


def test_a_pour_over_its_limit_is_told_by_its_numbers(app: FakeApp, say: Say) -> None:
    app.plan["pours"][0] |= {"peak_temperature_degC": 91.0, "peak_limit_degC": 70.0}
    assert "91 °C 70 °C" in " ".join(say("plan", "stool/job.toml").out.split())


@pytest.mark.parametrize(("level", "status"), [("ok", 0), ("mind", 0), ("stop", 1)])
def test_check_status_says_whether_something_stands_in_the_way(
    app: FakeApp, say: Say, level: str, status: int
) -> None:
    app.findings = [{"level": level, "text": "the wall is 3 mm thin at 212 mm"}]
    said = say("check", "stool/job.toml")
    assert said.status == status
    assert f"{level:<4}  the wall is 3 mm thin at 212 mm" in said.out
    assert json.loads(say("check", "stool/job.toml", "--json").out)["findings"] == app.findings


def test_shape(app: FakeApp, say: Say) -> None:
    out = say("shape", "part.stl", "--unit", "in").out
    assert app.plan["piece"]["name"] in out
    assert " in" in out
    assert set(json.loads(say("shape", "part.stl", "--unit", "mm", "--json").out)) == {
        "piece",
        "units",
        "faults",
        "files",
    }


@pytest.mark.parametrize(
    "command", [["plan", "a"], ["check", "a"], ["shape", "a", "--unit", "mm"], ["warm-up"]]
)
def test_first_run_ever_says_that_it_compiles(
    app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch, command: list[str], tmp_path: Path
) -> None:
    monkeypatch.setattr("pourwright.cli.meter.compiled_before", compiled_before)
    monkeypatch.setenv("NUMBA_CACHE_DIR", str(tmp_path))
    assert say(*command).err.startswith("first run on this computer: compiling once")
    (tmp_path / "kernel.nbi").touch()
    assert "compiling once," not in say(*command).err


def test_warm_up(app: FakeApp, say: Say) -> None:
    assert say("warm-up").out == "ready after 21 s\n"
    assert json.loads(say("warm-up", "--json").out) == {"seconds": 21.4}
    assert len(app.calls) == 2
