"""Bottles of a job on the command line: what is told, written and refused."""

import json
from functools import partial
from pathlib import Path

import pytest

from pourwright.cli import main
from tests.cli.asking import asked

JOB = """format = 1
[shape]
box = ["200 mm", "150 mm", "100 mm"]
[casting]
material = "epoxy-slow-deep"
[[band]]
to = "50 mm"
grade = "coarse"
colour = "green"
[[band]]
to = "top"
grade = "medium"
colour = "amber"
[shop]
temperature = "22 degC"
[bottles]
crushed = "2 kg"
pan = "500 g"
[[bottles.kind]]
name = "wine"
colour = "green"
mass = "480 g"
have = 7
[[bottles.kind]]
name = "beer"
colour = "amber"
mass = "350 g"
[[bottles.sieving]]
sieve = "6.3 mm"
stayed = "900 g"
[[bottles.sieving]]
sieve = "3.15 mm"
stayed = "600 g"
[prices]
currency = "EUR"
glass = "2 EUR/kg"
hour = "20 EUR/h"
"""


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB)
    return path


told = partial(asked, "fill")


def bottles(job: Path) -> dict:
    """The part of the answer about bottles."""
    said = told(str(job), "--json")
    assert said.exit_code == 0, said.output
    return json.loads(said.stdout)["bottles"]


def test_bottles_follow_from_kinds_and_sieves(job: Path) -> None:
    part = bottles(job)
    assert [each["bottle_kg"] for each in part["colours"]] == pytest.approx([0.48, 0.35])
    yields = {each["grade"]: each for each in part["yields"]}
    # 600 g of 2 kg between the two sieves
    assert yields["medium"]["share"] == pytest.approx(0.3)
    assert yields["medium"]["by"] == "weighed"
    assert yields["coarse"]["by"] == "fitted"
    assert part["sizes"]["residual"] == pytest.approx(0.0, abs=1e-9)
    green, amber = part["colours"]
    assert (green["have"], green["collect"]) == (7, green["bottles"] - 7)
    need = amber["wanted_kg"] / 0.3 / 0.35
    assert need <= amber["bottles"] < need + 1
    for each in part["colours"]:
        left = sum(grade["left_kg"] for grade in each["grades"]) + each["over_kg"] + each["rest_kg"]
        assert left + each["wanted_kg"] == pytest.approx(each["crushed_kg"])


def test_the_plans_own_bottles_are_the_same(job: Path) -> None:
    answer = json.loads(told(str(job), "--json").stdout)
    laid = [lot["bottles"] for lot in answer["laid"]["glass"]]
    assert laid == [each["bottles"] for each in answer["bottles"]["colours"]]


@pytest.mark.parametrize(
    ("prices", "starts"),
    [
        ('glass = "2 EUR/kg"\nhour = "20 EUR/h"', "Buy green and amber"),
        ('glass = "2 EUR/kg"\nhour = "0.5 EUR/h"', "Crush green and amber"),
        ('glass = "2 EUR/kg"', "Buy it graded"),
        ('hour = "20 EUR/h"', "Crush it"),
        ("", "Crush it"),
    ],
)
def test_what_to_do_follows_from_the_prices(job: Path, prices: str, starts: str) -> None:
    job.write_text(JOB.replace('glass = "2 EUR/kg"\nhour = "20 EUR/h"', prices))
    assert bottles(job)["recommendation"].startswith(starts)


def test_a_bought_colour_counts_no_bottles(job: Path) -> None:
    job.write_text(JOB.replace("[bottles]", '[bottles]\nbought = ["amber"]'))
    answer = json.loads(told(str(job), "--json").stdout)
    assert [lot["bottles"] is None for lot in answer["laid"]["glass"]] == [False, True]
    assert "amber" not in answer["bottles"]["left"]
    assert answer["bottles"]["recommendation"].endswith("As the job says, amber comes graded.")
    assert "bought graded" in told(str(job)).stdout


def test_terminal_and_paper_tell_it(job: Path, tmp_path: Path) -> None:
    said = told(str(job), "--out", str(tmp_path / "out"))
    assert said.exit_code == 0, said.output
    assert max(map(len, said.stdout.splitlines())) <= 110
    for words in ("From bottles to crushed glass", "mirrors", "slurry off drains", "15 mg/m³", "a third one"):
        assert words in " ".join(said.stdout.split())
    assert (tmp_path / "out" / "fill.pdf").read_bytes().startswith(b"%PDF")


def test_kinds_that_nobody_weighed_are_called_invented(job: Path) -> None:
    job.write_text(JOB.partition("[bottles]")[0])
    part = bottles(job)
    assert all(kind["invented"] for each in part["colours"] for kind in each["kinds"])
    assert "weights invented" in told(str(job)).stdout
    assert part["sizes"] is None


def test_drying_by_the_way_it_is_dried_or_timed(job: Path) -> None:
    waits = {}
    for line in ("", 'dried = "oven"', 'dries_in = "9 h"'):
        job.write_text(JOB.replace("[bottles]", f"[bottles]\n{line}"))
        drying = bottles(job)["drying"]
        waits[line] = (drying["waits_h"], drying["own"])
    # 24 h and 2 h by common practice
    assert list(waits.values()) == [(24.0, False), (2.0, False), (9.0, True)]


def test_a_coarse_scale_cannot_tell_a_dry_tray(job: Path) -> None:
    job.write_text(JOB.replace("[shop]", '[shop]\nscale_step = "5 g"'))
    answer = json.loads(told(str(job), "--json").stdout)
    # 0.1 % of 5 kg are 5 g
    assert answer["bottles"]["drying"]["least_on_scale_kg"] == pytest.approx(5.0)
    assert "weigh trays of 5.00 kg or more" in " ".join(answer["warnings"])


@pytest.mark.parametrize(
    ("line", "broken", "told_of"),
    [
        ('colour = "amber"\nmass', 'colour = "brown"\nmass', "no bottles of amber are collected"),
        ('pan = "500 g"', 'pan = "300 g"', "hold 1.80 kg of 2.00 kg crushed: 200 g (10 %) are missing"),
        ('crushed = "2 kg"\npan = "500 g"\n', "", "neither pan nor crushed"),
        ('stayed = "900 g"', 'stayed = "0 g"\n', "fewer than two sieves"),
        ('sieve = "6.3 mm"', 'sieve = "3.15 mm"', "a sieve named twice"),
        ('sieve = "6.3 mm"', 'sieve = "No. 9"', "No. 9"),
        ('sieve = "6.3 mm"', 'sieve = "2 m"', "a sieve with openings of 2 m"),
        ('stayed = "600 g"', 'stayed = "-600 g"', "below zero"),
        ('stayed = "600 g"', "share = 0.3", "masses and shares mixed"),
        ('stayed = "600 g"', "", "nothing weighed"),
        ('mass = "350 g"', 'mass = "350 kg"', "a bottle of 350 kg"),
        ("[bottles]", "[bottles]\nyield = { coarse = 0.4 }", "both yield and sieving"),
        ("[bottles]", '[bottles]\ncrushing_time = "3 day"', "too much"),
    ],
)
def test_bottles_that_cannot_be_are_refused_in_one_line(
    job: Path, capsys: pytest.CaptureFixture[str], line: str, broken: str, told_of: str
) -> None:
    text = JOB.replace(line, broken, 1)
    # with nothing on the top sieve the sum has to stay right
    job.write_text(text.replace('crushed = "2 kg"\n', "") if "0 g" in broken and "stayed" in broken else text)
    with pytest.raises(SystemExit) as left:
        main(["fill", str(job)])
    assert left.value.code == 2
    errors = [each for each in capsys.readouterr().err.splitlines() if "job.toml:" in each]
    assert told_of in errors[-1]


def test_sieves_go_by_their_names(job: Path) -> None:
    job.write_text(JOB.replace('"6.3 mm"', "'1/4 in'").replace('"3.15 mm"', '"#8"'))
    # ASTM E11: No. 8 is 2.36 mm, 1/4 in is 6.3 mm
    assert [each["sieve_m"] for each in bottles(job)["sizes"]["sieves"]] == pytest.approx([0.0063, 0.00236])
