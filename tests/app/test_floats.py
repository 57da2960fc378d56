"""What floats, through the door a maker uses: job keys, words, drawing, page, what is refused."""

from datetime import UTC, datetime
from io import StringIO
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from rich.console import Console

from pourwright.app.document import job_info
from pourwright.app.molding import molding
from pourwright.app.molding.floats import floats_look
from pourwright.app.molding.look import MoldLook, look_at_mold
from pourwright.app.shaping.piece import read_piece
from pourwright.cli.mold_floats_lines import floats_lines
from pourwright.cli.words import Words
from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import SILENT
from pourwright.jobs import load_job
from pourwright.jobs.mold_floats import Floats
from pourwright.sheets.mold_floats_drawing import HEIGHT, WIDTH, draw_floats
from pourwright.sheets.pages.mold_floats import floats_pages
from pourwright.sheets.wording import Wording

G = 9.80665
SLAB = 'box = ["600 mm", "300 mm", "120 mm"]'
ONION = (
    'up = "-z"\nprofile = [["0 mm", "0 mm"], ["60 mm", "0 mm"], ["160 mm", "60 mm"], ["160 mm", "120 mm"], '
    '["25 mm", "170 mm"], ["25 mm", "420 mm"], ["0 mm", "420 mm"]]'
)
JOB = """format = 1
title = "Slab"
{more}
[shape]
{shape}
[casting]
material = "epoxy-slow-deep"
[mold]
{mold}
[master]
{master}
[shop]
temperature = "22 degC"
"""


def looked(folder: Path, mold: str = "", shape: str = SLAB, master: str = "", more: str = "") -> MoldLook:
    path = folder / "job.toml"
    path.write_text(JOB.format(mold=mold, shape=shape, master=master, more=more), "utf8")
    job = load_job(path)
    return look_at_mold(job, read_piece(job))


def told(folder: Path, mold: str = "", shape: str = SLAB, master: str = "", more: str = "") -> Floats:
    found = floats_look(looked(folder, mold, shape, master, more), SILENT)
    assert found is not None
    return found


def lines(part: Floats, units: str = "metric") -> str:
    console = Console(width=110, record=True, file=StringIO())
    for each in floats_lines(part.model_dump(mode="json"), Words(units)):
        console.print(each)
    return console.export_text()


def test_an_mdf_slab_floats_and_is_told_so(tmp_path: Path) -> None:
    part = told(tmp_path)
    volume = 0.6 * 0.3 * 0.12
    assert part.master_kg == pytest.approx(750.0 * volume, rel=1e-9)
    # 3/4 in of rubber below, then as deep as wood of its density floats
    sinks_in = 0.12 * part.master_kg * G / part.lift_N
    assert part.floats_from_m == pytest.approx(0.75 * 0.0254 + sinks_in, rel=1e-9)
    assert part.floats_from_standing_m == pytest.approx(sinks_in, rel=1e-9)
    assert part.weight_needed_kg == pytest.approx(1.5 * part.net_N / G, rel=1e-9)
    assert part.warnings == []
    said = " ".join(lines(part).split())
    assert "16.2 kg" in said
    assert "within 1.0 mm" in said


def test_the_worst_level_of_a_piece_wide_low_down_is_half_way(tmp_path: Path) -> None:
    part = told(tmp_path, 'method = "screwed"', ONION, 'density = "300 kg/m3"')
    # between 120 and 170 mm the radius falls from 160 to 25 mm: 60 mm, as the foot, at 100/135 of that
    assert part.tight_level_m == pytest.approx(0.12 + 0.05 * 100 / 135, abs=2e-4)
    assert part.tight_N > part.master_kg * G
    assert part.worst_level_m == pytest.approx(0.42, rel=1e-6)
    assert part.tight_standing_m == pytest.approx(part.tight_level_m, abs=1e-9)
    assert any("157 mm up" in text and "presses it down again" in text for text in part.words)
    assert part.bars is None
    assert any("screws are counted for that" in text for text in part.words)


def test_screws_in_foam_are_not_counted_on(tmp_path: Path) -> None:
    part = told(tmp_path, 'method = "screwed"', ONION, 'density = "35 kg/m3"')
    assert part.screws is None
    assert not any("screws are counted" in text for text in part.words)
    assert any("No screw can be counted on" in text for text in part.warnings)


def test_a_master_that_sinks_is_told_so(tmp_path: Path) -> None:
    hung = told(tmp_path, master='density = "2000 kg/m3"')
    assert (hung.floats_from_m, hung.weight_needed_kg) == (None, 0.0)
    assert "it sinks" in lines(hung)
    screwed = told(tmp_path, 'method = "screwed"', master='density = "2000 kg/m3"')
    assert any("stays down by its own weight" in text for text in screwed.words)
    # no relation of wood holds for it
    assert screwed.screws is None
    assert any("No screw can be counted on" in text for text in screwed.warnings)


def test_a_point_on_the_board_is_told(tmp_path: Path) -> None:
    ball = told(tmp_path, 'method = "screwed"', 'sphere = { diameter = "200 mm" }')
    assert any("stands on a point" in text for text in ball.words)


def test_bars_that_are_too_weak_name_some_that_would_do(tmp_path: Path) -> None:
    part = told(tmp_path, 'bar = ["15 mm", "15 mm"]')
    assert part.bars is not None
    assert not part.bars.holds
    (said,) = [text for text in part.warnings if "too weak" in text]
    count, (across, up) = part.bars.instead_count, part.bars.instead_section_m or (0.0, 0.0)
    assert f"{count} of {1e3 * across:g} mm across and {1e3 * up:g} mm up" in said
    better = told(tmp_path, f'bars = {count}\nbar = ["{1e3 * across:g} mm", "{1e3 * up:g} mm"]')
    assert better.bars is not None
    assert better.bars.holds
    assert better.bars.instead_count is None


def test_more_bars_than_the_open_face_takes(tmp_path: Path) -> None:
    tub = 'cone = { bottom_diameter = "200 mm", top_diameter = "100 mm", height = "150 mm" }'
    part = told(tmp_path, "bars = 4", tub)
    assert any("takes 2 of the 4 bars" in text for text in part.warnings)


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ('bar = ["0 mm", "70 mm"]', "a bar of 0 mm in mold.bar"),
        ('bar = ["45 mm"]', "mold.bar has 1 sizes"),
        ("bars = 0", "bars"),
        ('bar_board = "balsa"', "no board called 'balsa'"),
    ],
)
def test_bars_that_are_none_are_refused_with_their_line(tmp_path: Path, keys: str, says: str) -> None:
    with pytest.raises(UserError) as refused:
        told(tmp_path, keys)
    assert says in str(refused.value)
    assert "job.toml:9" in str(refused.value)


def test_nothing_floats_that_is_brushed_or_bedded(tmp_path: Path) -> None:
    assert floats_look(looked(tmp_path, 'way = "two-part"'), SILENT) is None


def test_space_blocks_have_their_letters_and_screws(tmp_path: Path) -> None:
    part = told(
        tmp_path,
        'space_blocks = true\nblock_stock = ["18 mm"]\nmost_blocks = 4\nleast_block = "54 mm"',
        'cone = { bottom_diameter = "300 mm", top_diameter = "160 mm", height = "250 mm" }',
    )
    assert [block.letter for block in part.blocks] == list("ABCD")
    for block in part.blocks:
        assert block.net_N > 0
        assert block.screws >= 2
        assert 0 < block.screws_used < 1
        # half of what stands off the panel is the lever
        assert block.moment_Nm == pytest.approx(block.push_N * block.off_panel_m / 2, rel=1e-9)
    assert "pulls its screws" in lines(part)


def test_inches_have_numbered_screws_and_pounds(tmp_path: Path) -> None:
    part = told(tmp_path, 'method = "screwed"', more='units = "us"')
    assert part.screws is not None
    assert part.screws.size.startswith("No. 8 x ")
    said = lines(part, "us")
    assert " lb" in said
    assert "mm" not in said


@pytest.mark.parametrize("units", ["metric", "us"])
def test_the_drawing_marks_the_worst_level_in_both_readings(tmp_path: Path, units: str) -> None:
    look = looked(tmp_path, 'method = "screwed"', ONION, more=f'units = "{units}"')
    part = floats_look(look, SILENT)
    assert part is not None
    svg = draw_floats("Onion", part, Wording(job_info(look.job)))
    root = ET.fromstring(svg)
    words = [each.text or "" for each in root.iter("{http://www.w3.org/2000/svg}text")]
    assert any(text.startswith("worst: ") for text in words)
    assert any(text.startswith("tight: ") for text in words)
    assert any("as it stands" in text for text in words)
    for each in root.iter("{http://www.w3.org/2000/svg}circle"):
        assert 0 < float(each.attrib["cx"]) < WIDTH
        assert 0 < float(each.attrib["cy"]) < HEIGHT


def test_the_page_shows_the_drawing_and_what_holds(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(molding, "LOOKS", {"floats": floats_look})
    sheet = molding.mold_sheet(looked(tmp_path), datetime(2026, 12, 1, tzinfo=UTC))
    (page,) = floats_pages(sheet, Wording(sheet.job))
    blocks = page["blocks"]
    assert isinstance(blocks, list)
    assert blocks[0]["drawing"] == "drawings/floats.svg"
    (table,) = [block["table"] for block in blocks if "table" in block]
    assert [row[-1] for row in table["rows"]] == ["holds", "holds"]
