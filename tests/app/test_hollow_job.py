"""A job with a core: fill, mass, money, limits and tickets follow it, and what cannot be is refused."""

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from pourwright.app.checking import check_job
from pourwright.app.document.hollow import core_part, too_heavy
from pourwright.app.setup import Setup, set_up, site
from pourwright.app.shaping.piece import read_piece
from pourwright.cli.hollow_rows import hollow_rows
from pourwright.cli.words import Words
from pourwright.foundation.errors import UserError
from pourwright.jobs import load_job
from pourwright.pour.layout import lay_out
from tests.app.making import only_planned

NOW = datetime(2026, 12, 1, 12, 0, tzinfo=UTC)
JOB = """
format = 1
title = "Planter"
start = "2027-01-11 09:00"
[shape]
box = ["200 mm", "160 mm", "120 mm"]
[casting]
material = "epoxy-slow-deep"
[[band]]
to = "50 mm"
grade = "medium"
colour = "green"
[[band]]
to = "top"
neat = true
[fill]
film = "0 mm"
[prices]
currency = "EUR"
resin = "10 EUR/kg"
glass = "1 EUR/kg"
[shop]
temperature = "22 degC"
time_zone = "Europe/Berlin"
"""


def written(folder: Path, more: str = "", text: str = JOB) -> Path:
    job = folder / "job.toml"
    job.write_text(text + more, "utf8")
    return job


def set_up_with(folder: Path, more: str = "", text: str = JOB) -> Setup:
    job = load_job(written(folder, more, text))
    return set_up(job, read_piece(job))


def refusal(folder: Path, more: str, text: str = JOB) -> str:
    with pytest.raises(UserError) as refused:
        set_up_with(folder, more, text)
    return str(refused.value)


def told(setup: Setup) -> dict[str, Any]:
    part = core_part(setup)
    assert part is not None
    answer: dict[str, Any] = json.loads(part.model_dump_json())
    return answer


def test_bands_and_core_are_the_cavity_and_each_band_is_its_ring(tmp_path: Path) -> None:
    setup = set_up_with(tmp_path, '[hollow]\nwall = "25 mm"\n')
    assert setup.hollow is not None
    lower, upper = (band.volume for band in setup.fill.bands)
    assert lower + upper + setup.hollow.body.volume == pytest.approx(0.2 * 0.16 * 0.12, rel=1e-9)
    # a ring of 25 mm all round; under it a floor of 25 mm
    ring = 0.2 * 0.16 - 0.15 * 0.11
    assert upper == pytest.approx(ring * 0.07, rel=5e-3)
    # the lattice takes up to 0.5 % off the core's edges
    assert lower == pytest.approx(ring * 0.05 + 0.15 * 0.11 * 0.025, rel=1e-2)


def test_mass_and_money_fall_by_what_the_core_takes_the_place_of(tmp_path: Path) -> None:
    solid, hollow = set_up_with(tmp_path), set_up_with(tmp_path, '[hollow]\nwall = "25 mm"\n')
    part = told(hollow)
    assert part["solid_kg"] == pytest.approx(solid.piece_mass, rel=1e-9)
    assert hollow.hollow is not None
    assert part["hollow_kg"] == pytest.approx(hollow.fill.piece_mass + part["core_m3"] * 35.0, rel=1e-9)
    resin = solid.fill.resin_in_piece - hollow.fill.resin_in_piece
    glass = solid.fill.glass_mass - hollow.fill.glass_mass
    assert part["resin_saved_kg"] == pytest.approx(resin, rel=1e-9)
    assert part["money_saved"] == pytest.approx(10.0 * resin + glass, rel=1e-9)
    ((_, line), _) = hollow_rows(part, Words("metric"))
    assert line.startswith("to 25 mm: ")
    assert "less resin" in line
    assert "EUR less" in line


def test_the_heat_sees_core_and_room(tmp_path: Path) -> None:
    setup = set_up_with(tmp_path, '[hollow]\nwall = "25 mm"\n')
    assert setup.hollow is not None
    layout = lay_out(site(setup, NOW), 0.01, [0.12])
    held = (layout.cavity * layout.grid.cell_volumes).sum()
    assert held == pytest.approx(setup.room_solid.volume, rel=1e-6)
    core = layout.grid.cell_volumes[layout.core].sum()
    assert core == pytest.approx(setup.hollow.body.volume, rel=0.1)
    assert not (layout.face & layout.core).any()
    foam = setup.hollow.material
    middle = tuple(
        int(np.searchsorted(line, at)) - 1
        for line, at in zip(layout.grid.axes, (0.0, 0.0, 0.08), strict=True)
    )
    assert layout.shell_conductivity[middle] == pytest.approx(foam.conductivity.value, rel=1e-9)


def test_a_wooden_core_that_stays_is_weighed_and_one_that_comes_out_is_not(tmp_path: Path) -> None:
    lines = '[hollow]\nwall = "25 mm"\ncore = "pine"\nstays = {}\n'
    stays, leaves = (set_up_with(tmp_path, lines.format(each)) for each in ("true", "false"))
    assert stays.hollow is not None
    assert stays.piece_mass - leaves.piece_mass == pytest.approx(500.0 * stays.hollow.body.volume, rel=1e-9)
    assert stays.in_mold == pytest.approx(leaves.in_mold, rel=1e-12)


def test_a_piece_over_its_limit_names_the_wall_that_mends_it(tmp_path: Path) -> None:
    (text,) = too_heavy(set_up_with(tmp_path, '[limits]\nweight = "3 kg"\n'))
    assert "hollow to" in text
    assert "it would weigh" in text
    assert not too_heavy(set_up_with(tmp_path, '[hollow]\nwall = "20 mm"\n[limits]\nweight = "3 kg"\n'))
    report = check_job(written(tmp_path, '[limits]\nweight = "3 kg"\n'))
    assert any("limits.weight" in found.text for found in report.findings)


def test_check_of_gypsum_mixes_for_what_is_around_the_core(tmp_path: Path) -> None:
    text = JOB.replace("epoxy-slow-deep", "gypsum-casting")
    solid, hollow = (
        check_job(written(tmp_path, more, text)).piece for more in ("", '[hollow]\nwall = "20 mm"\n')
    )
    core = 0.16 * 0.12 * 0.10
    left = 1.0 - core / (0.2 * 0.16 * 0.12)
    # the foam stays in; the lattice takes up to 0.5 % off the core
    assert hollow.mass_kg == pytest.approx(left * solid.mass_kg + 35.0 * core, rel=5e-3)


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ('[hollow]\nwall = "90 mm"\n', ("leaves no room for a core", "clearly less than")),
        ('[hollow]\nwall = "25 mm"\ncore = "straw"\n', ("no material of a core", "xps-foam", "pine")),
        ('[hollow]\nwall = "4 mm"\n', ("too narrow for grains", "3 grains")),
        ('[hollow]\nwall = "1 mm"\n', ("hollow.wall", "3.0 mm")),
        ('[hollow]\nwall = "25 mm"\ntop = "shut"\n', ("hollow.top",)),
        ('[hollow]\ncore = "pine"\n', ("hollow",)),
    ],
)
def test_what_cannot_be_is_refused_with_its_line(tmp_path: Path, more: str, words: tuple[str, ...]) -> None:
    text = refusal(tmp_path, more)
    assert "job.toml:" in text
    assert all(word in text for word in words)


def test_a_stiff_core_wider_below_than_above_cannot_come_out(tmp_path: Path) -> None:
    text = JOB.replace('box = ["200 mm", "160 mm", "120 mm"]', _CONE)
    lines = '[hollow]\nwall = "20 mm"\ncore = "pine"\nstays = false\n'
    assert "wider below than above" in refusal(tmp_path, lines, text)
    assert set_up_with(tmp_path, lines.replace("pine", "xps-foam"), text).hollow is not None


_CONE = 'profile = [["100 mm", "0 mm"], ["70 mm", "120 mm"]]'


def test_a_small_hollow_plan_is_whole(tmp_path: Path) -> None:
    text = JOB.replace('["200 mm", "160 mm", "120 mm"]', '["80 mm", "60 mm", "50 mm"]').replace(
        '"50 mm"\ngrade', '"30 mm"\ngrade'
    )
    job = written(tmp_path, '[hollow]\nwall = "20 mm"\n', text)
    plan = only_planned(job)
    assert plan.hollow is not None
    poured = sum(pour.volume_m3 for pour in plan.pours)
    assert poured == pytest.approx(plan.piece.volume_m3, rel=1e-6)
    assert plan.piece.volume_m3 + plan.hollow.core_m3 == pytest.approx(0.08 * 0.06 * 0.05, rel=1e-9)
    # foam softens before the resin's own limit
    assert {pour.peak_limit_degC for pour in plan.pours} <= {plan.hollow.peak_limit_degC, 65.0}
    assert plan.section.core
    assert any("xps-foam" in source.used_for or "core" in source.used_for for source in plan.sources)


def test_a_wall_that_the_grains_do_not_pass_mends_no_weight(tmp_path: Path) -> None:
    # 1.9 kg would need some 12 mm, but three grains of 6.3 mm are 19 mm
    (text,) = too_heavy(set_up_with(tmp_path, '[limits]\nweight = "1.9 kg"\n'))
    assert "no wall that its grains pass" in text
