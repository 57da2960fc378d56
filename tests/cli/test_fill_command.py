"""The fill of a job on the command line: what it prints, writes and refuses."""

import json
from functools import partial
from pathlib import Path

import pytest
from click.testing import CliRunner

from pourwright.cli import main
from pourwright.cli.commands import pourwright
from pourwright.materials import load_materials
from tests.cli.asking import asked, refusal

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


told = partial(asked, "fill")


def test_bands_are_told_from_the_top_down(job: Path) -> None:
    said = told(str(job))
    assert said.exit_code == 0, said.output
    laid = said.stdout.partition("What goes in")[2].partition("Grades and voids")[0]
    rows = [line for line in laid.splitlines() if " mm to " in line]
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
        ("neat_cover =", 'overfill = "80 mm"\nneat_cover =', "too much"),
        ('"epoxy-slow-deep"', '"treacle"', "no casting material called 'treacle'"),
    ],
)
def test_what_cannot_be_filled_is_refused_in_one_line(
    job: Path, capsys: pytest.CaptureFixture[str], line: str, broken: str, told_of: str
) -> None:
    job.write_text(JOB.replace(line, broken))
    last = refusal(capsys, "fill", str(job))
    assert told_of in last
    assert "job.toml:" in last


def mineral_job(job: Path, material: str, fill: str = "") -> Path:
    """The same piece, mixed with water."""
    job.write_text(JOB.replace("epoxy-slow-deep", material).replace("[fill]", f"[fill]\n{fill}"))
    return job


def test_gypsum_has_no_bands(job: Path) -> None:
    answer = json.loads(told(str(mineral_job(job, "gypsum-casting")), "--json").stdout)
    assert answer["laid"] is None
    assert answer["batches"] is None
    assert any("bands are left out" in text for text in answer["warnings"])


def test_gypsum_says_what_it_weighs_and_what_must_dry_out(job: Path) -> None:
    """Box of 3 l, 60 of water to 100 of powder, 18.6 of them bound (E05)."""
    part = json.loads(told(str(mineral_job(job, "gypsum-casting")), "--json").stdout)["mineral"]
    assert part["water_kg"] == pytest.approx(0.6 * part["powder_kg"])
    assert part["mixed_kg"] == pytest.approx(0.003 * 1.05 * 1.6 / (1 / 2630 + 0.6 / 1000), rel=0.01)
    free = (0.6 - 0.18617) * part["powder_kg"] / 1.05
    assert part["drying"]["water_kg"] == pytest.approx(free, rel=0.01)
    assert part["drying"]["water_kg"] + part["dry_kg"] == pytest.approx(part["wet_kg"])
    assert part["pressure_kPa"] == pytest.approx(part["wet_density_kg_m3"] * 9.80665 * 0.1 / 1e3)
    said = told(str(job)).stdout
    assert "must dry out" in said
    assert "weigh it" in said
    assert "hand" in said
    assert max(map(len, said.splitlines())) <= 110


def test_concrete_with_glass_warns_of_its_alkali(job: Path) -> None:
    mineral_job(job, "concrete-fine", 'aggregate = 0.3\naggregate_grade = "fine"')
    answer = json.loads(told(str(job), "--json").stdout)
    part = answer["mineral"]
    assert part["aggregate_kg"] == pytest.approx(0.3 * 0.003 * 1.05 * 2500, rel=0.02)
    assert part["cement_kg"] + part["sand_kg"] == pytest.approx(part["powder_kg"])
    cautions = " ".join(answer["cautions"])
    for word in ("alkali", "licensed engineer", "caustic", "29 CFR 1910.1053", "50 µg/m³"):
        assert word in cautions
    assert "alkali" not in " ".join(
        json.loads(told(str(mineral_job(job, "concrete-fine")), "--json").stdout)["cautions"]
    )


def test_the_page_of_concrete_is_written_in_inches_too(job: Path, tmp_path: Path) -> None:
    mineral_job(job, "concrete-fine", "aggregate = 0.2")
    job.write_text(job.read_text().replace("format = 1", 'format = 1\nunits = "us"'))
    said = told(str(job), "--out", str(tmp_path / "fill"))
    assert said.exit_code == 0, said.output
    assert " lb" in said.stdout
    assert (tmp_path / "fill" / "fill.pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize(
    ("fill", "told_of"),
    [
        ("water_ratio = 0.1", "0.2 to 2"),
        ("water_ratio = 2.5", "0.2 to 2"),
        ("aggregate = 0.7", "leave no room"),
        ('aggregate = 0.3\naggregate_grade = "gravel"', "no grade called 'gravel'"),
        ("aggregate = 0.3", "jams in the narrowest place"),
    ],
)
def test_what_cannot_be_mixed_is_refused_with_its_line(
    job: Path, capsys: pytest.CaptureFixture[str], fill: str, told_of: str
) -> None:
    mineral_job(job, "gypsum-casting", fill)
    if "narrowest" in told_of:
        job.write_text(job.read_text().replace('"150 mm"', '"25 mm"'))
    last = refusal(capsys, "fill", str(job))
    assert told_of in last
    assert "job.toml:" in last


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
    last = refusal(capsys, "fill", str(job))
    assert told_of in last
    assert "job.toml:" in last


def test_both_ways_stand_side_by_side_and_are_drawn(job: Path, tmp_path: Path) -> None:
    said = told(str(job), "--out", str(tmp_path / "fill"))
    assert "resin over dry glass" in said.stdout
    assert "glass stirred in first" in said.stdout
    assert "Better" in said.stdout
    drawing = (tmp_path / "fill" / "drawings" / "filling.svg").read_text()
    assert "too thick to run" in drawing
    assert max(map(len, said.stdout.splitlines())) <= 110


def test_both_ways_speak_the_units_of_the_shop(job: Path) -> None:
    job.write_text(JOB.replace("format = 1\n", 'format = 1\nunits = "us"\n'))
    lines = told(str(job)).stdout.splitlines()
    sinks = next(line for line in lines if line.startswith("upper border"))
    assert sinks.rstrip().endswith(" in")


def test_neat_resin_alone_has_no_two_ways(job: Path) -> None:
    glass = JOB[JOB.index('grade = "coarse"') : JOB.index("[fill]")]
    job.write_text(JOB.replace(glass, "neat = true\n"))
    answer = json.loads(told(str(job), "--json").stdout)
    assert answer["filling"] is None


def test_the_open_face_sinks_by_what_its_liquid_loses(job: Path) -> None:
    """Most: the family's greatest shrinkage up to gel of 50 mm of bed and 10 mm of cover."""
    answer = json.loads(told(str(job), "--json").stdout)
    part, band = answer["shrinks"], answer["laid"]["bands"][1]
    resin = load_materials().resin["epoxy-slow-deep"]
    liquid = 0.050 * band["void_fraction"] + 0.010
    most = resin.cure_shrinkage.high * resin.cure.gel_conversion.value * liquid
    assert part["sink_most_m"] == pytest.approx(most, rel=1e-9)
    assert part["sink_least_m"] < part["sink_m"] < most < part["sink_all_m"]
    assert [each["poured"] for each in part["bands"]] == ["neat", "bed", "neat"]
    neat, bed = part["bands"][:2]
    assert bed["by_volume"] == pytest.approx(neat["by_volume"] * band["void_fraction"], rel=1e-9)
    assert bed["by_length"] < neat["by_length"]
    assert neat["gaps_high"] == 0.0 < bed["gaps"]


def test_overfill_is_mixed_only_where_the_job_says_so(job: Path) -> None:
    """3 mm over 0.2 x 0.15 m, with 5 % of allowance and 2 % that stay in the pail."""
    plain = json.loads(told(str(job), "--json").stdout)
    assert plain["shrinks"]["overfill_m"] == 0.0 < plain["shrinks"]["wanted_m"]
    job.write_text(JOB.replace("[fill]", '[fill]\noverfill = "3 mm"'))
    over = json.loads(told(str(job), "--json").stdout)
    density = load_materials().resin["epoxy-slow-deep"].density.value
    more = over["laid"]["resin_kg"] - plain["laid"]["resin_kg"]
    assert more == pytest.approx(0.2 * 0.15 * 0.003 * density * 1.05 / 0.98, rel=1e-9)
    assert over["shrinks"]["overfill_kg"] == pytest.approx(over["laid"]["resin"]["overfill_kg"])
    assert over["batches"]["bands"][-1]["resin_kg"] > plain["batches"]["bands"][-1]["resin_kg"]
    assert "3.0 mm mixed" in told(str(job)).stdout


def test_overfill_that_sinks_below_the_face_is_told(job: Path) -> None:
    job.write_text(JOB.replace("[fill]", '[fill]\noverfill = "0.1 mm"'))
    warned = " ".join(json.loads(told(str(job), "--json").stdout)["warnings"])
    assert "the open face ends hollow" in warned


STATED = JOB.replace("void_fraction = 0.45\n", "")


def test_voids_are_told_with_what_would_close_them(job: Path) -> None:
    job.write_text(STATED)
    part = json.loads(told(str(job), "--json").stdout)["voids"]
    (band,) = part["bands"]
    assert band["bucket"] == 0.45
    assert band["mold_low"] < band["mold"] < band["mold_high"]
    whats = [closer["what"] for closer in part["closer"]]
    assert any("tapped" in what for what in whats)
    mixed = next(closer for closer in part["closer"] if "mixed before" in closer["what"])
    # two and more grades together leave 0.28 to 0.45, common practice
    assert 0.28 < mixed["voids"] < 0.45
    assert mixed["resin_saved_kg"] > 0 < mixed["glass_more_kg"]
    assert "bucket_test" in " ".join(part["words"])


def test_a_mixture_of_what_lies_ready_takes_no_grade_that_does_not(job: Path) -> None:
    stock = (
        'stock = [{ grade = "coarse", colour = "green", mass = "9 kg" }, { grade = "fine", mass = "1 kg" }]'
    )
    job.write_text(STATED.replace("[fill]", f"[fill]\n{stock}"))
    part = json.loads(told(str(job), "--json").stdout)["voids"]
    mixed = [closer["what"] for closer in part["closer"] if "mixed before" in closer["what"]]
    assert mixed
    assert "medium" not in mixed[0]


def test_a_bucket_that_lies_closer_than_balls_is_asked_about(job: Path) -> None:
    job.write_text(STATED.replace('colour = "green"', 'bucket_test = { mass = "8.5 kg", volume = "5 l" }'))
    assert "less than equal balls" in told(str(job)).stdout.replace("\n", " ")


@pytest.mark.parametrize(
    ("stock", "told_of"),
    [
        ('{ grade = "gravel", mass = "9 kg" }', "no grade called 'gravel'"),
        ('{ grade = "fine", mass = "0 kg" }', "a stock of 0 kg"),
    ],
)
def test_a_stock_that_is_none_is_refused(
    job: Path, capsys: pytest.CaptureFixture[str], stock: str, told_of: str
) -> None:
    job.write_text(STATED.replace("[fill]", f"[fill]\nstock = [{stock}]"))
    assert told_of in refusal(capsys, "fill", str(job))


def test_hardeners_in_the_air_are_minded_for_an_epoxy_alone(job: Path) -> None:
    assert "diethylenetriamine" in told(str(job)).stdout
    job.write_text(JOB.replace("epoxy-slow-deep", "gypsum-casting"))
    assert "diethylenetriamine" not in told(str(job)).stdout


@pytest.mark.parametrize(("thick", "goes_in"), [("10 mm", False), ("13 mm", True)])
def test_grains_that_do_not_get_in_are_refused_with_the_place(
    job: Path, capsys: pytest.CaptureFixture[str], thick: str, goes_in: bool
) -> None:
    """Coarse glass passes 12.5 mm: a plate of 10 mm takes none of it."""
    job.write_text(STATED.replace('"150 mm"', f'"{thick}"'))
    with pytest.raises(SystemExit) as left:
        main(["fill", str(job)])
    assert left.value.code == (0 if goes_in else 2)
    if not goes_in:
        last = capsys.readouterr().err.splitlines()[-1]
        assert "does not get down into band 2" in last
        assert "band[2].grade" in last


def test_grains_that_do_not_get_in_stop_a_check_and_a_plan(
    job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job.write_text(STATED.replace('"150 mm"', '"10 mm"'))
    checked = CliRunner().invoke(pourwright, ["check", str(job)])
    assert checked.exit_code == 1
    assert "does not get down into band 2" in " ".join(checked.stdout.split())
    assert "does not get down into band 2" in refusal(capsys, "plan", str(job))
