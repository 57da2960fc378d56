"""Heat runs with pinned values: what is run, what comes back, what is refused."""

import json
from datetime import UTC, datetime
from pathlib import Path
from types import SimpleNamespace

import jsonschema
import pytest

from pourwright.app import check_job, heat_job
from pourwright.app.cold import refuse_unset
from pourwright.app.memory import BASE_BYTES, BYTES_PER_CELL, count_cells, free_memory, refuse_without_room
from pourwright.app.setup import set_up, site
from pourwright.app.shaping.piece import read_piece
from pourwright.foundation.errors import UserError
from pourwright.jobs import heat_schema, load_job
from tests.app.conftest import NOW
from tests.app.making import only_planned, plan_quickly

BLOCK = """
format = 1
title = "Block"
start = "2027-01-11 09:00"
[shape]
box = ["60 mm", "50 mm", "40 mm"]
[casting]
material = "epoxy-slow-deep"
[[band]]
to = "top"
grade = "medium"
[shop]
temperature = "20 degC"
"""
COARSE = '[pin.grid]\nspacing = "8 mm"\ntolerance = 0.2\n'


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return tmp_path / "job.toml"


def ran(job: Path, text: str, **options):
    job.write_text(text, "utf8")
    answer = heat_job(job, now=NOW, **options).to_json()
    # NaN and infinity would be refused here
    json.dumps(answer, allow_nan=False)
    jsonschema.validate(answer, heat_schema())
    return answer


def refused(job: Path, text: str, **options) -> str:
    job.write_text(text, "utf8")
    with pytest.raises(UserError) as caught:
        heat_job(job, now=NOW, **options)
    assert caught.value.exit_status == 2
    return str(caught.value)


def test_a_job_that_pins_nothing_is_poured_in_one_go(job):
    answer = ran(job, BLOCK)
    (pour,) = answer["pours"]
    assert (pour["to_m"], pour["at_h"], pour["temperature_degC"]) == (0.04, 0.0, pytest.approx(20.0))
    assert "no [[pin.pour]]: the whole piece is poured in one go at time 0" in answer["notes"]
    assert answer["start"] == "2027-01-11T09:00:00+00:00"
    assert answer["schema"] == "pourwright-heat/1.0"
    assert answer["pinned"] == []
    assert answer["probes"] == []
    assert {"version", "seed", "inputs", "sources", "energy_error"} <= set(answer)


def test_two_pours_and_their_probes(job):
    answer = ran(
        job,
        BLOCK + COARSE + """
[[pin.pour]]
to = "16 mm"
[[pin.pour]]
to = "top"
at = "30 h"
temperature = "35 degC"
[pin]
until = "60 h"
[[pin.probe]]
name = "low"
z = "8 mm"
[[pin.probe]]
name = "high"
x = "10 mm"
y = "5 mm"
z = "30 mm"
""",
    )  # fmt: skip
    low, high = answer["probes"]
    assert low["time_h"][0] == 0.0
    assert high["time_h"][0] == 30.0
    assert low["temperature_degC"][0] == pytest.approx(20.0, abs=1e-3)
    # glass at 20 degC and resin at 35 degC mix to something between
    assert 22.0 < high["temperature_degC"][0] < 33.0
    for probe in answer["probes"]:
        lists = [probe[key] for key in ("time_h", "temperature_degC", "conversion")]
        assert len({len(values) for values in lists}) == 1
        assert 3 < len(lists[0]) <= 420
        assert lists[0] == sorted(lists[0])
        assert lists[2] == sorted(lists[2])
        assert lists[0][-1] == 60.0
        assert probe["peak_temperature_degC"] >= max(lists[1]) - 1e-3
    hottest = answer["hottest"]
    assert hottest["temperature_degC"] >= max(high["peak_temperature_degC"], low["peak_temperature_degC"])
    assert hottest["temperature_degC"] >= max(hottest["history_temperature_degC"]) - 1e-3
    assert [pour["number"] for pour in answer["pours"]] == [1, 2]
    assert answer["ending"]["why"] == "until"
    assert answer["energy_error"] < 1e-10


def test_pinned_numbers_are_told_apart_from_the_resins_own(job):
    pinned = ran(job, BLOCK + COARSE + '[pin.kinetics]\nheat_of_reaction = "100 J/g"\n[pin]\nuntil = "1 h"\n')
    first = pinned["sources"][0]
    assert (first["kind"], first["used_for"]) == ("pinned", "resin heat of reaction")
    assert any("resin order m" in source["used_for"] for source in pinned["sources"][1:])


def test_without_film_nothing_gets_out_and_the_rise_is_adiabatic(job):
    # B37: T - T0 = conversion H / c exactly, however the law goes
    case = """
[pin]
until = "3 h"
[pin.kinetics]
a1 = "1e5 1/s"
e1 = "55 kJ/mol"
a2 = "0 1/s"
m = 1
n = 2
heat_of_reaction = "250 J/g"
[pin.matter]
density = "1100 kg/m3"
heat_capacity = "1200 J/(kg K)"
[pin.mold]
around = false
[pin.film]
h = "0 W/(m2 K)"
[[pin.pour]]
to = "top"
temperature = "25 degC"
[[pin.probe]]
z = "20 mm"
"""
    (probe,) = ran(job, BLOCK + COARSE + case)["probes"]
    for warm, cured in zip(probe["temperature_degC"], probe["conversion"], strict=True):
        assert warm - 25.0 == pytest.approx(cured * 250e3 / 1200.0, abs=1e-3)
    assert probe["peak_temperature_degC"] == pytest.approx(506.483 - 273.15, rel=1e-3)


def test_a_runaway_is_an_answer(job):
    hot = '[pin.kinetics]\nheat_of_reaction = "90000 J/g"\na1 = "1e20 1/s"\n[[pin.probe]]\nz = "20 mm"\n'
    answer = ran(job, BLOCK + COARSE + hot)
    assert answer["ending"]["why"] == "runaway"
    assert answer["ending"]["text"].startswith("it runs away: stopped at ")
    assert answer["hottest"]["temperature_degC"] > 700.0
    assert all(0.0 <= cured <= 1.0 for cured in answer["probes"][0]["conversion"])


def test_a_law_that_never_starts_is_told(job):
    law = '[pin.kinetics]\na1 = "0 1/s"\nstart = 0\n'
    message = refused(job, BLOCK + COARSE + law)
    assert "pin.kinetics.start: with a1 = 0 and nothing cured at the start, the cure never starts" in message
    begun = ran(job, BLOCK + COARSE + law.replace("start = 0", "start = 0.001") + '[pin]\nuntil = "40 h"\n')
    assert begun["ending"]["least_cured"] > 0.002


def test_a_slow_beginning_is_not_taken_for_the_end(job):
    # c' = k c (1 - c), k = 1e-4 1/s: from a millionth to a half in ln(1e6) / k, which is 38 h
    law = '[pin.kinetics]\na1 = "0 1/s"\na2 = "1e-4 1/s"\ne2 = "0 kJ/mol"\nm = 1\nn = 1\nstart = 0.000001\n'
    answer = ran(job, BLOCK + COARSE + law + '[[pin.probe]]\nz = "20 mm"\n')
    assert answer["ending"]["least_cured"] > 0.9
    (probe,) = answer["probes"]
    half = next(t for t, c in zip(probe["time_h"], probe["conversion"], strict=True) if c >= 0.5)
    assert half == pytest.approx(38.4, abs=1.0)


@pytest.mark.parametrize(
    ("pin", "place", "what", "allowed"),
    [
        (
            '[[pin.pour]]\nto = "41 mm"',
            "pin.pour[1].to",
            "a pour to 41 mm would run over the mold",
            "40.0 mm",
        ),
        (
            '[[pin.probe]]\nname = "out"\nz = "41 mm"',
            "pin.probe[1]",
            "'out' lies outside",
            "z 0.0 mm to 40.0 mm",
        ),
        (
            '[[pin.probe]]\nx = "-31 mm"\nz = "4 mm"',
            "pin.probe[1]",
            "'1' lies outside",
            "x -30.0 mm to 30.0 mm",
        ),
        ('[pin.grid]\nspacing = "41 mm"', "pin.grid.spacing", "cells of 41 mm are wider", "up to 40.0 mm"),
        ('[pin.grid]\nacross = "51 mm"', "pin.grid.across", "cells of 51 mm are wider", "up to 50.0 mm"),
        ('[pin.grid]\nacross = "0.002 mm"', "pin.grid.across", "of memory, and there are", "or more"),
        ('[pin.grid]\nspacing = "0.002 mm"', "pin.grid.spacing", "of memory, and there are", "or more"),
    ],
)
def test_what_does_not_fit_the_piece_is_refused(job, pin, place, what, allowed):
    message = refused(job, f"{BLOCK}{pin}\n")
    assert f"job.toml:{len(BLOCK.splitlines()) + 1}" in message or "job.toml:15" in message
    assert place in message
    assert what in message
    assert allowed in message.partition("allowed: ")[2]


def test_a_probe_in_the_rubber_is_refused(job):
    cone = 'cone = { bottom_diameter = "60 mm", top_diameter = "20 mm", height = "40 mm" }\nup = "-z"'
    text = BLOCK.replace('box = ["60 mm", "50 mm", "40 mm"]', cone)
    assert "lies in the rubber" in refused(job, text + '[[pin.probe]]\nx = "25 mm"\nz = "2 mm"\n')
    assert ran(job, text + COARSE + '[pin]\nuntil = "1 h"\n[[pin.probe]]\nx = "25 mm"\nz = "39 mm"\n')[
        "probes"
    ]


def test_memory_is_asked_for_before_it_is_taken(job, tmp_path):
    assert free_memory() > 1e7
    (tmp_path / "proc").mkdir()
    (tmp_path / "proc" / "meminfo").write_text("MemTotal: 9 kB\nMemAvailable:    2048 kB\n", "ascii")
    assert free_memory(tmp_path) == 2048 * 1024
    message = refused(job, BLOCK + '[pin.grid]\nspacing = "0.01 mm"\n')
    fits = message.partition('do: write "')[2].partition('"')[0]
    # the spacing that is offered is accepted, one a little finer is not
    layout = pin_site(job)
    metres = float(fits.split()[0]) / 1000
    room = free_memory()
    assert count_cells(layout, metres, metres) * BYTES_PER_CELL + BASE_BYTES < room
    assert count_cells(layout, metres / 1.2, metres / 1.2) * BYTES_PER_CELL + BASE_BYTES > 0.8 * room
    with pytest.raises(UserError, match=r"8\.0 TB|GB of memory, and there are 1\.0 GB"):
        refuse_without_room(layout, 1e-4, 1e-4, where="here", free=1e9)


@pytest.mark.parametrize(
    ("names", "stat"),
    [
        (("memory.max", "memory.current"), "memory.stat"),
        (("memory/memory.limit_in_bytes", "memory/memory.usage_in_bytes"), "memory/memory.stat"),
    ],
)
def test_files_kept_in_memory_leave_room(tmp_path, names, stat):
    group = tmp_path / "sys" / "fs" / "cgroup"
    (group / "memory").mkdir(parents=True)
    for name, amount in zip(names, (9000, 8000), strict=True):
        (group / name).write_text(f"{amount}\n", "ascii")
    assert free_memory(tmp_path) == 1000
    (group / stat).write_text("anon 5000\ninactive_file 2500\nactive_file 500\n", "ascii")
    assert free_memory(tmp_path) == 3500


def pin_site(job: Path):
    read = load_job(job)
    return site(set_up(read, read_piece(read)), datetime(2027, 1, 11, 9, tzinfo=UTC))


def test_a_plan_is_never_made_from_pinned_values(job):
    job.write_text(BLOCK + COARSE, "utf8")
    with pytest.raises(UserError, match="values are pinned for a check of the heat run") as caught:
        plan_quickly(job, now=NOW)
    assert "pourwright heat" in str(caught.value)
    assert not (job.parent / "plan").exists()
    texts = [found["text"] for found in check_job(job).to_json()["findings"]]
    assert any("[pin] pins values for a check of the heat run (grid)" in text for text in texts)


def test_a_plan_that_would_fill_the_memory_is_refused(job, monkeypatch):
    job.write_text(BLOCK, "utf8")
    monkeypatch.setattr("pourwright.app.memory.free_memory", lambda: 2.5e8)
    with pytest.raises(
        UserError, match=r"job\.toml:5 shape: a grid of .* cells asks for .* of memory"
    ) as caught:
        plan_quickly(job, now=NOW)
    # the thin layers of a pour, and of rubber and wood below it, are counted too
    told = int(str(caught.value).partition("a grid of ")[2].partition(" cells")[0])
    assert told > 1.2 * count_cells(pin_site(job), 0.008, 0.008)


def test_a_shop_below_freezing_is_run_with_a_warning(job):
    cold = BLOCK.replace("20 degC", "-10 degC").replace("epoxy-slow-deep", "epoxy-fast")
    answer = ran(job, cold + COARSE)
    assert any("frost on glass and mold" in note for note in answer["notes"])
    assert answer["hottest"]["temperature_degC"] > -10.0
    plan = only_planned(job_without_pin(job, cold))
    assert any("below what data sheets" in text for text in plan.warnings)


def test_a_resin_that_stays_liquid_is_no_plan(job):
    job.write_text(BLOCK.replace("20 degC", "-30 degC"), "utf8")
    read = load_job(job)
    setup = set_up(read, read_piece(read))
    times = {"gel_first": 9e5, "gel_last": 9.5e5, "bonds_from": 9.6e5}
    for late in ({}, {"gel_last": float("inf")}, {"bonds_from": float("inf")}):
        pour = SimpleNamespace(**(times | late))
        decision = SimpleNamespace(final=SimpleNamespace(pours=(pour,)))
        if not late:
            refuse_unset(setup, decision)
            continue
        with pytest.raises(
            UserError, match=r"job\.toml:13 shop\.temperature: pour 1 does not set in this shop"
        ):
            refuse_unset(setup, decision)


def job_without_pin(job: Path, text: str) -> Path:
    other = job.parent / "plain" / "job.toml"
    other.parent.mkdir(exist_ok=True)
    other.write_text(text, "utf8")
    return other


def test_one_of_several_variants_is_named(job):
    text = BLOCK + COARSE + '[[variant]]\nname = "warm"\n[variant.shop]\ntemperature = "25 degC"\n'
    both = text + '[[variant]]\nname = "cool"\n[variant.pin]\nuntil = "1 h"\n'
    assert "there are several variants; allowed: warm, cool" in refused(job, both)
    assert "no variant called 'hot'" in refused(job, both, variant="hot")
    assert ran(job, both, variant="cool")["job"]["variant"] == "cool"
    assert ran(job, text)["pours"][0]["temperature_degC"] == pytest.approx(25.0)


def test_a_first_pour_too_thin_for_the_grid_is_refused(job):
    tip = 'profile = [["0 mm", "0 mm"], ["30 mm", "20 mm"], ["30 mm", "40 mm"], ["0 mm", "40 mm"]]'
    text = BLOCK.replace('box = ["60 mm", "50 mm", "40 mm"]', tip) + COARSE
    message = refused(job, text + '[[pin.pour]]\nto = "0.5 mm"\n[[pin.pour]]\nto = "top"\nat = "9 h"\n')
    assert "no cell of the grid lies in the first pour by half" in message
    assert "pin.grid.spacing" in message
