"""Bands of a job on the command line: missing glass, borders, shells, both readings."""

import json
import re
from functools import partial
from pathlib import Path

import pytest

from tests.cli.asking import asked, refusal

JOB = """format = 1
[shape]
box = ["200 mm", "150 mm", "200 mm"]
up = "-z"
[casting]
material = "epoxy-slow-deep"
[[band]]
to = "100 mm"
grade = "medium"
colour = "green"
soft = "20 mm"
[[band]]
to = "top"
grade = "medium"
colour = "clear"
[fill]
neat_cover = "10 mm"
[[fill.stock]]
grade = "medium"
colour = "green"
mass = "3 kg"
[[fill.stock]]
grade = "medium"
colour = "clear"
mass = "20 kg"
[shop]
temperature = "22 degC"
"""
SHELL = 'colour = "clear"\nshell = { colour = "green", thickness = "20 mm" }'


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB)
    return path


told = partial(asked, "fill")


def flat(text: str) -> str:
    """Without line ends."""
    return " ".join(text.split())


def test_what_is_missing_is_told_in_both_readings(job: Path) -> None:
    said = told(str(job))
    assert said.exit_code == 0, said.output
    text = flat(said.stdout)
    (one,) = json.loads(told(str(job), "--json").stdout)["bands"]["missing"]
    assert one["missing_kg"] == pytest.approx(one["wanted_kg"] - 3.0)
    # a prism: heights go as masses, and the piece is 200 mm high, upside down
    ends = 100 * 3.0 / one["wanted_kg"]
    assert one["ends_at_m"] == pytest.approx(ends / 1000)
    assert f"the band ends at {ends:.0f} mm ({200 - ends:.0f} mm as it stands)" in text
    assert f"mix in {100 * one['mix_in_share']:.0f} % clear" in text
    assert max(map(len, said.stdout.splitlines())) <= 110


def test_no_bed_is_told_finer_than_anybody_knows(job: Path) -> None:
    moves = json.loads(told(str(job), "--json").stdout)["bands"]["moves"]
    for one in moves:
        lengths = [int(each) for each in re.findall(r"(\d+) mm", one["text"])]
        masses = [float(each) for each in re.findall(r"([\d.]+) kg", one["text"])]
        assert lengths
        assert all(length % 5 == 0 for length in lengths)
        assert masses
        assert all((2 * mass).is_integer() for mass in masses)
        assert "about" in one["text"] or "under" in one["text"]


def test_upside_down_is_told_before_anything_is_weighed(job: Path) -> None:
    text = flat(told(str(job)).stdout)
    top = "band 1 (green, medium) is at the top of the piece as it stands: 0 mm to 100 mm up from the mold's"
    assert (
        text.index(top) < text.index("is at the foot of the piece as it stands") < text.index("What goes in")
    )
    job.write_text(JOB.replace('up = "-z"\n', ""))
    assert "at the top of the piece" not in told(str(job)).stdout


def test_a_shell_follows_into_the_glass_to_have_ready(job: Path, tmp_path: Path) -> None:
    job.write_text(JOB.replace('soft = "20 mm"\n', "").replace('colour = "clear"', SHELL, 1))
    out = tmp_path / "out"
    assert told(str(job), "--out", str(out)).exit_code == 0
    answer = json.loads((out / "fill.json").read_text())
    (shell,) = answer["bands"]["shells"]
    # upper band: 90 mm under the cover, core 160 x 110 mm
    assert shell["share"] == pytest.approx(1 - 0.16 * 0.11 / (0.2 * 0.15), rel=0.01)
    lots = {lot["colour"]: lot["mass_kg"] for lot in answer["laid"]["glass"]}
    assert lots["green"] == pytest.approx(answer["laid"]["bands"][0]["glass_kg"] + shell["glass_kg"])
    assert lots["clear"] == pytest.approx(shell["core_kg"])
    drawing = (out / "drawings" / "bands.svg").read_text()
    assert "green shell" in drawing
    assert ">ends<" in drawing


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        (
            'colour = "clear"',
            'colour = "red"',
            'colour = "red"',
            "no red glass lies in stock; allowed: green, clear",
        ),
        ('soft = "20 mm"', 'soft = "60 mm"', "soft =", "allowed: above 0, up to 45 mm, half of band 2"),
        ('soft = "20 mm"', 'shell = { colour = "clear", thickness = "5 mm" }', "shell =", "largest grains"),
        ('soft = "20 mm"', 'shell = { colour = "clear", thickness = "90 mm" }', "shell =", "leaves no core"),
        ('soft = "20 mm"', 'shell = { colour = "green", thickness = "20 mm" }', "shell =", "two colours"),
    ],
)
def test_bad_input_is_one_line_with_its_place(
    job: Path, old: str, new: str, line: str, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    job.write_text(JOB.replace(old, new, 1))
    number = next(n for n, text in enumerate(job.read_text().splitlines(), 1) if line in text)
    last = refusal(capsys, "fill", str(job))
    assert f"job.toml:{number}" in last
    assert said in last
