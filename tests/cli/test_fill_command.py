"""The fill of a job on the command line: what it prints, writes and refuses."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from pourwright.cli import main
from pourwright.cli.commands import pourwright

JOB = """format = 1
[shape]
box = ["200 mm", "150 mm", "100 mm"]
[casting]
material = "epoxy-slow-deep"
[[band]]
to = "40 mm"
neat = true
[[band]]
to = "top"
grade = "coarse"
colour = "green"
void_fraction = 0.45
[fill]
neat_cover = "10 mm"
[shop]
temperature = "22 degC"
"""


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB)
    return path


def told(*arguments: str) -> Result:
    """What the command says to a pipe."""
    return CliRunner().invoke(pourwright, ["fill", *arguments])


def test_bands_are_told_from_the_top_down(job: Path) -> None:
    said = told(str(job))
    assert said.exit_code == 0, said.output
    rows = [line for line in said.stdout.splitlines() if " mm to " in line]
    assert [row.split(" mm to ")[0].split()[-1] for row in rows] == ["90", "40", "0"]
    assert max(map(len, said.stdout.splitlines())) <= 110


def test_the_masses_are_those_of_the_box(job: Path) -> None:
    """Glass of 2500 kg/m3 in 55 % of 0.2 x 0.15 x 0.05 m; resin in the rest of 3 l."""
    laid = json.loads(told(str(job), "--json").stdout)["laid"]
    area = 0.2 * 0.15
    assert [band["volume_m3"] for band in laid["bands"]] == pytest.approx(
        [area * d for d in (0.04, 0.05, 0.01)]
    )
    glass = laid["bands"][1]["glass_kg"] / (0.55 * area * 0.05)
    assert 2400 < glass < 2600
    resin = sum(band["resin_kg"] for band in laid["bands"]) / (area * (0.05 + 0.45 * 0.05))
    assert 1000 < resin < 1200


def test_the_folder_is_written(job: Path, tmp_path: Path) -> None:
    out = tmp_path / "fill"
    said = told(str(job), "--out", str(out))
    assert said.exit_code == 0, said.output
    assert (out / "fill.pdf").read_bytes().startswith(b"%PDF")
    assert json.loads((out / "fill.json").read_text())["schema"] == "pourwright-fill/1.0"


@pytest.mark.parametrize(
    ("line", "broken", "told_of"),
    [
        ('grade = "coarse"', 'grade = "gravel"', "no grade called 'gravel'"),
        ("void_fraction = 0.45", "void_fraction = 0.1", "void fraction"),
        ('"epoxy-slow-deep"', '"treacle"', "no casting material called 'treacle'"),
    ],
)
def test_what_cannot_be_filled_is_refused_in_one_line(
    job: Path, capsys: pytest.CaptureFixture[str], line: str, broken: str, told_of: str
) -> None:
    job.write_text(JOB.replace(line, broken))
    with pytest.raises(SystemExit) as left:
        main(["fill", str(job)])
    assert left.value.code == 2
    last = capsys.readouterr().err.splitlines()[-1]
    assert told_of in last
    assert "job.toml:" in last


def test_gypsum_has_no_bands(job: Path) -> None:
    job.write_text(JOB.replace("epoxy-slow-deep", "gypsum-casting"))
    assert json.loads(told(str(job), "--json").stdout)["laid"] is None


def test_batches_rise_to_the_top_and_say_where_no_dip_can_be_read(job: Path) -> None:
    part = json.loads(told(str(job), "--json").stdout)["batches"]
    levels = [step["level_m"] for band in part["bands"] for step in band["batches"]]
    assert levels == sorted(levels)
    assert levels[-1] == pytest.approx(0.1)
    ends = [band["batches"][-1]["level_m"] for band in part["bands"]]
    assert ends == pytest.approx([0.04, 0.09, 0.1])
    assert [band["glass"] for band in part["bands"]] == [False, True, False]
    rows = [line for line in told(str(job)).stdout.splitlines() if "1 of" in line]
    assert ["in the bed" in row for row in rows] == [False, True, False]


def test_a_coarse_scale_is_told_where_it_matters(job: Path) -> None:
    job.write_text(JOB.replace("[shop]", '[shop]\nscale_step = "10 g"'))
    answer = json.loads(told(str(job), "--json").stdout)
    assert answer["batches"]["ratio_matters"]
    assert "puts B off by" in " ".join(answer["warnings"])


MIXED = JOB.replace(
    'grade = "coarse"',
    'mix = [{ grade = "coarse", share = 0.6 }, { grade = "medium", share = 0.4 }]',
).replace("void_fraction = 0.45\n", "")


def test_a_mixture_takes_less_resin_and_is_had_ready_by_its_parts(job: Path) -> None:
    job.write_text(JOB.replace("void_fraction = 0.45\n", ""))
    alone = json.loads(told(str(job), "--json").stdout)["laid"]
    job.write_text(MIXED)
    mixed = json.loads(told(str(job), "--json").stdout)["laid"]
    assert mixed["resin_kg"] < alone["resin_kg"]
    assert {lot["grade"] for lot in mixed["glass"]} == {"coarse", "medium"}
    assert "60 % coarse + 40 % medium" in told(str(job)).stdout


@pytest.mark.parametrize(
    ("line", "broken", "told_of"),
    [
        ("share = 0.4", "share = 0.5", "shares that sum to 1.1"),
        ("share = 0.6", "share = 0.0", "shares that sum to"),
        ('"medium"', '"gravel"', "no grade called 'gravel'"),
        ('"medium"', '"coarse"', "a mix of one grade"),
        ("mix =", 'grade = "fine"\nmix =', "both a grade and a mix"),
    ],
)
def test_mixtures_that_are_none_are_refused_in_one_line(
    job: Path, capsys: pytest.CaptureFixture[str], line: str, broken: str, told_of: str
) -> None:
    job.write_text(MIXED.replace(line, broken))
    with pytest.raises(SystemExit) as left:
        main(["fill", str(job)])
    assert left.value.code == 2
    last = capsys.readouterr().err.splitlines()[-1]
    assert told_of in last
    assert "job.toml:" in last
