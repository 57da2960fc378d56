"""Seams and water test of a job, through the door a maker uses."""

import json
import re
from datetime import UTC, datetime
from io import StringIO
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from rich.console import Console

from pourwright.app.molding import molding
from pourwright.app.molding.bodies import bodies_look
from pourwright.app.molding.look import MoldLook, look_at_mold
from pourwright.app.molding.seams import seams_look
from pourwright.app.molding.seams_files import _edges, seams_files
from pourwright.app.molding.seams_found import cast_liquid, seams_of
from pourwright.app.molding.water_test import water_look
from pourwright.app.shaping.piece import read_piece
from pourwright.cli.mold_seams_lines import seams_lines, water_lines
from pourwright.cli.words import Words
from pourwright.foundation.progress import SILENT
from pourwright.jobs import load_job
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.mold.seams.defaults import SEAMS
from pourwright.pour.thickening import thickening
from pourwright.sheets.pages.mold_seams import seams_pages, water_pages
from pourwright.sheets.wording import Wording

NOW = datetime(2026, 12, 1, 12, 0, tzinfo=UTC)
JOB = """
format = 1
title = "Vase"
units = "{units}"
[shape]
{shape}
[casting]
material = "{material}"
[shop]
temperature = "{shop}"
{more}
"""
WAISTED = (
    'profile = [["0 mm", "0 mm"], ["110 mm", "0 mm"], ["40 mm", "100 mm"], ["110 mm", "200 mm"], '
    '["0 mm", "200 mm"]]'
)
BOX = 'box = ["200 mm", "160 mm", "120 mm"]'


def looked(
    folder: Path,
    more: str = "",
    shape: str = WAISTED,
    material: str = "epoxy-slow-deep",
    units: str = "metric",
    shop: str = "20 degC",
) -> MoldLook:
    job = folder / "job.toml"
    job.write_text(JOB.format(units=units, shape=shape, material=material, shop=shop, more=more), "utf8")
    read = load_job(job)
    return look_at_mold(read, read_piece(read))


def told(part: Any) -> dict[str, Any]:
    answer: dict[str, Any] = json.loads(part.model_dump_json())
    return answer


def printed(lines: Any) -> str:
    paper = StringIO()
    console = Console(width=150, color_system=None, file=paper)
    for line in lines:
        console.print(line)
    return paper.getvalue()


@pytest.fixture(scope="module")
def vase(tmp_path_factory: pytest.TempPathFactory) -> MoldLook:
    return looked(tmp_path_factory.mktemp("vase"))


@pytest.fixture
def sheet(vase: MoldLook, monkeypatch: pytest.MonkeyPatch) -> MoldSheet:
    looks = {"bodies": bodies_look, "seams": seams_look, "water_test": water_look}
    monkeypatch.setattr(molding, "LOOKS", looks)
    return molding.mold_sheet(vase, NOW)


def test_rubber_reaches_the_box_and_resin_the_cut(vase: MoldLook) -> None:
    rubber, resin = told(seams_look(vase, SILENT))["liquids"]
    assert {seam["kind"] for seam in rubber["seams"]} == {"foot", "corners"}
    assert {seam["kind"] for seam in resin["seams"]} == {"cut"}
    assert resin["presses_kg_m3"] == vase.casting.density.value
    there = [seam for each in (rubber, resin) for seam in each["seams"]]
    assert [seam["number"] for seam in sorted(there, key=lambda seam: -seam["lost_kg"])] == [1, 2, 3]


def test_resin_may_flow_until_it_gels_in_this_shop(vase: MoldLook) -> None:
    liquid = cast_liquid(vase)
    assert liquid.fluidity == thickening(vase.casting, 293.15).until_gel
    cut = next(joint for joint in seams_of(vase).joints if joint.kind == "cut")
    # h^3 rho g / 12 times depth over way out, summed along the cut
    expected = 1e-12 * liquid.density * 9.80665 / 12.0 * cut.drive() * liquid.fluidity * liquid.density
    part = told(seams_look(vase, SILENT))["liquids"][1]["seams"][0]
    assert part["lost_paper_kg"] == pytest.approx(expected, rel=1e-9)


def test_gap_allowance_and_depth_of_the_job_are_kept(tmp_path: Path, vase: MoldLook) -> None:
    more = '[mold]\nseam_gap = "0.4 mm"\n[limits]\nleak = "50 ml"\nliquid_depth = "50 mm"\n'
    part, before = told(seams_look(looked(tmp_path, more), SILENT)), told(seams_look(vase, SILENT))
    for leaks in part["liquids"]:
        assert leaks["may_lose_kg"] == pytest.approx(50e-6 * leaks["presses_kg_m3"])
        assert {seam["gap_m"] for seam in leaks["seams"]} == {0.0004}
    rubber, resin = part["liquids"]
    # eight times the leak for twice the gap
    usual = before["liquids"][0]["lost_kg"]
    assert rubber["lost_kg"] == pytest.approx(8.0 * usual, rel=1e-9)
    assert resin["layer_m"] == 0.05
    assert resin["seams"][0]["head_m"] == pytest.approx(0.05)
    assert any("first close the foot of the box" in text for text in part["warnings"])


def test_a_leak_that_may_be_all_there_is_leaves_nothing_to_mind(tmp_path: Path) -> None:
    look = looked(tmp_path, '[limits]\nleak = "50 kg"\n')
    part = told(seams_look(look, SILENT))
    assert [leaks["widest_gap_m"] for leaks in part["liquids"]] == [None, None]
    assert all("nothing to mind" in leaks["words"] for leaks in part["liquids"])
    assert part["warnings"] == []
    assert told(water_look(look, SILENT))["falls"] == []


def test_a_whole_block_of_rubber_has_no_seam_for_the_resin(tmp_path: Path) -> None:
    look = looked(tmp_path, shape=BOX)
    resin = told(seams_look(look, SILENT))["liquids"][1]
    assert resin["seams"] == []
    assert resin["lost_kg"] == 0.0
    assert resin["widest_gap_m"] is None
    test = told(water_look(look, SILENT))
    assert test["falls"] == []
    assert any("must not fall at all" in text for text in test["reading"])


def test_a_rod_that_holds_a_core_is_told_and_not_summed(tmp_path: Path) -> None:
    look = looked(tmp_path, '[hollow]\nwall = "40 mm"\n', shape=BOX)
    resin = told(seams_look(look, SILENT))["liquids"][1]
    (rod,) = resin["seams"]
    assert (rod["kind"], rod["supposed"]) == ("rod", True)
    assert rod["lost_kg"] > 0.0
    assert resin["lost_kg"] == 0.0
    # around the core there is less to pour
    assert resin["poured_kg"] < 0.9 * look.piece.solid.volume * 1090.0


@pytest.mark.parametrize(
    ("way", "cast", "rubber"),
    [("two-part", {"line"}, {"corners", "bed"}), ("skin", {"skin cut", "shell"}, set())],
)
def test_halves_and_skins_leak_along_their_own_lines(
    tmp_path: Path, way: str, cast: set[str], rubber: set[str]
) -> None:
    look = looked(tmp_path, f'[mold]\nway = "{way}"\n', material="concrete-fine")
    liquids = told(seams_look(look, SILENT))["liquids"]
    assert {seam["kind"] for seam in liquids[-1]["seams"]} == cast
    assert {seam["kind"] for leaks in liquids[:-1] for seam in leaks["seams"]} == rubber


def test_of_concrete_only_its_water_gets_out_until_a_gap_lets_the_slurry_run(tmp_path: Path) -> None:
    calm = looked(tmp_path, material="concrete-fine")
    leaks = told(seams_look(calm, SILENT))["liquids"][1]
    slurry = calm.piece.solid.volume * 2300.0
    # 0.11 of water to 1 of powder, 2 % of the water
    assert leaks["lost_kg"] <= 0.02 * slurry * 0.11 / 1.11 * (1 + 1e-9)
    assert told(seams_look(calm, SILENT))["warnings"] == []
    running = looked(tmp_path, '[mold]\nseam_gap = "1 mm"\n', material="concrete-fine")
    assert any("runs out of a gap" in text for text in told(seams_look(running, SILENT))["warnings"])


def test_marks_stand_where_the_water_does(vase: MoldLook) -> None:
    test, levels = told(water_look(vase, SILENT)), vase.piece.levels
    assert test["water_m3"] == pytest.approx(vase.piece.solid.volume, rel=1e-9)
    for mark in test["marks"]:
        assert levels.volume(mark["height_m"]) == pytest.approx(mark["water_m3"], rel=1e-9)
        assert mark["dip_m"] + mark["height_m"] == pytest.approx(vase.mold.rim)
    # 998.2 kg/m3 at 20 degC
    assert test["water_kg"] == pytest.approx(998.2 * test["water_m3"], rel=1e-4)
    assert test["mold_kg"] == pytest.approx(vase.mold.empty_mass + test["water_kg"])


def test_plain_water_stays_out_of_what_the_resin_finds(vase: MoldLook) -> None:
    test = told(water_look(vase, SILENT))
    # 2 x 0.0728 x 0.2924 / (1000 x 9.80665 x depth)
    assert test["kept_out_top_m"] == pytest.approx(86.8e-6, rel=2e-3)
    assert test["kept_out_floor_m"] == pytest.approx(21.7e-6, rel=2e-3)
    assert any("washing-up" in step for step in test["steps"])
    assert test["dry_needed"]


def test_a_marked_test_in_quarts_and_inches(tmp_path: Path) -> None:
    look = looked(tmp_path, units="us", shop="70 degF")
    test = told(water_look(look, SILENT))
    assert test["step_m3"] / 0.946352946e-3 in {0.05, 0.1, 0.25, 0.5, 1.0}
    told_ = printed(water_lines(test, Words("us")))
    assert " in" in told_
    assert " mm" not in told_


def test_terminal_and_page_tell_the_same_seams(sheet: MoldSheet) -> None:
    assert sheet.water_test is not None
    words = Wording(sheet.job)
    page, water = next(seams_pages(sheet, words)), next(water_pages(sheet, words))
    text = printed(seams_lines(told(sheet.seams), Words("metric")))
    rows = [row for block in page["blocks"] if "table" in block for row in block["table"]["rows"]]
    assert len(rows) == 3
    for row in rows:
        for cell in row[1:]:
            assert cell in text
    table = next(block["table"] for block in water["blocks"] if "table" in block)
    assert len(table["rows"]) == len(sheet.water_test.marks)
    assert table["heads"][-2:] == ["dip I read", "after 1 h"]
    # to be filled in by hand
    assert {(row[-2], row[-1]) for row in table["rows"]} == {("", "")}


def test_every_seam_of_the_picture_has_its_number_and_its_bar(vase: MoldLook, sheet: MoldSheet) -> None:
    assert sheet.seams is not None
    (name, content), (picture, dots) = seams_files(vase, sheet)
    svg = content.decode()
    assert (name, picture) == ("drawings/seams.svg", "drawings/seams.png")
    assert dots.startswith(b"\x89PNG")
    for seam in (seam for leaks in sheet.seams.liquids for seam in leaks.seams):
        assert seam.name in svg
        assert re.search(rf">{seam.number}</text>", svg)
    assert svg.count("may be lost") == len(sheet.seams.liquids)


def test_the_manual_tells_the_defaults() -> None:
    page = (Path(__file__).parents[2] / "docs" / "seams-and-water-test.md").read_text("utf8")
    for name in ("paper", "gap_box", "gap_cut", "gap_line"):
        assert f"{1000 * SEAMS[name].value:g} mm" in page
    assert f"{100 * SEAMS['leak_share'].value:g} %" in page
    assert all(key in page for key in ("`seam_gap`", "`leak`", "`liquid_depth`"))


def test_the_cut_through_a_straight_wall_is_drawn_from_where_it_ends() -> None:
    """One edge of a cone reaches from the floor to the mouth: it is drawn from the end of the cut up."""
    line = np.array([[0.10, 0.0], [0.05, 0.2], [-0.05, 0.2], [-0.10, 0.0]])
    ((low, high),) = _edges(line, 0.05, 1.0)
    assert low == pytest.approx((0.10 - 0.05 / 4, 0.05))
    assert high == pytest.approx((0.05, 0.2))


def test_no_figure_is_cut_off_in_inches(tmp_path: Path) -> None:
    """A waist in inches has the longest figures; a terminal of 110 letters holds them all."""
    seams = told(seams_look(looked(tmp_path, units="us", shop="70 degF"), SILENT))
    paper = StringIO()
    console = Console(width=110, color_system=None, file=paper)
    for line in seams_lines(seams, Words("us")):
        console.print(line)
    assert "…" not in paper.getvalue()
