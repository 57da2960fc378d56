"""The heat of setting on the command line, and shops too cold or damp for gypsum and concrete."""

import json
from pathlib import Path

import pytest

from tests.cli.asking import refusal
from tests.cli.test_fill_command import JOB, mineral_job, told


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB)
    return path


def test_heat_of_setting_is_run_when_it_is_asked_for(job: Path, tmp_path: Path) -> None:
    mineral_job(job, "concrete-fine")
    out = tmp_path / "fill"
    said = told(str(job), "--heat", "--out", str(out))
    assert said.exit_code == 0, said.output
    assert "How hot it gets" in said.stdout
    assert "how hot it gets, below" in said.stdout
    assert "Core to face" in said.stdout
    assert max(map(len, said.stdout.splitlines())) <= 110
    sheet = json.loads((out / "fill.json").read_text())
    part = sheet["setting_heat"]
    # a slab of 100 mm loses most of its heat as it comes
    assert part["poured_degC"] < part["peak_degC"] < part["poured_degC"] + 0.6 * part["adiabatic_rise_K"]
    assert part["energy_error"] < 1e-9
    assert part["open_h"] == max(part["hard_h"], part["even_h"])
    assert "<svg" in (out / "drawings" / "setting-heat.svg").read_text()
    assert json.loads(told(str(job), "--json").stdout)["setting_heat"] is None
    told(str(job), "--out", str(out))
    assert not (out / "drawings" / "setting-heat.svg").exists()


def test_heat_of_setting_is_not_for_a_resin(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "pourwright plan" in refusal(capsys, "fill", str(job), "--heat")


@pytest.mark.parametrize("material", ["gypsum-casting", "concrete-fine"])
def test_a_shop_in_frost_or_full_of_damp_is_told(job: Path, material: str) -> None:
    mineral_job(job, material)
    job.write_text(job.read_text().replace('"22 degC"', '"-20 degC"\nhumidity = 1.0'))
    answer = json.loads(told(str(job), "--json").stdout)
    assert any("too cold" in text for text in answer["warnings"])
    assert answer["mineral"]["drying"]["soonest_days"] is None
    assert answer["mineral"]["drying"]["reason"]


OWN = "".join(
    f'{name} = {{ value = {value}, unit = "{unit}", kind = "measured here", source = "common-practice" }}\n'
    for name, value, unit in (
        ("water_ratio", 0.7, ""),
        ("wet_density", 1570.0, "kg/m3"),
        ("density", 1100.0, "kg/m3"),
        ("heat_capacity", 1000.0, "J/(kg K)"),
        ("conductivity", 0.43, "W/(m K)"),
    )
)
"""A record that says nothing of what sets in it."""


def test_a_record_without_a_binder_tells_masses_alone(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (job.parent / "shop.toml").touch()
    (job.parent / "materials").mkdir()
    (job.parent / "materials" / "mineral.toml").write_text(f'[mine]\nname = "Mine"\n{OWN}')
    part = json.loads(told(str(mineral_job(job, "mine")), "--json").stdout)["mineral"]
    assert part["wet_kg"] == pytest.approx(0.003 * 1570.0)
    assert part["drying"]["water_kg"] == pytest.approx(0.003 * 470.0)
    assert part["demold_h"] is None is part["adiabatic_rise_K"]
    assert "binder" in part["heat_reason"]
    assert "binder" in part["drying"]["reason"]
    assert "half_heat_time" in refusal(capsys, "fill", str(job), "--heat")
