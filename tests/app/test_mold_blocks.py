"""Space blocks through the door a maker uses: what is told, printed, drawn, refused."""

import json
from datetime import UTC, datetime
from io import StringIO
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from rich.console import Console

from pourwright.app.molding.blocks import blocks_look
from pourwright.app.molding.blocks_files import blocks_files
from pourwright.app.molding.look import MoldLook, look_at_mold
from pourwright.app.molding.molding import mold_job
from pourwright.app.shaping.piece import read_piece
from pourwright.cli.mold_blocks_lines import blocks_lines
from pourwright.cli.words import Words
from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import SILENT
from pourwright.jobs import load_job
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.pages.mold_blocks import blocks_pages
from pourwright.sheets.wording import Wording

NOW = datetime(2026, 12, 1, 12, 0, tzinfo=UTC)
JOB = """
format = 1
title = "Spool"
units = "{units}"
[shape]
profile = [["100 mm", "0 mm"], ["40 mm", "120 mm"], ["100 mm", "240 mm"]]
[casting]
material = "epoxy-slow-deep"
[mold]
space_blocks = {blocks}
method = "{method}"
most_blocks = 6
{more}
[shop]
temperature = "22 degC"
"""
PRICES = '[prices]\ncurrency = "EUR"\nrubber = "20 EUR/kg"\nhour = "30 EUR/h"\nboard = "40 EUR/piece"\n'


def written(folder: Path, after: str = "", **changes: str) -> Path:
    given = {"units": "metric", "blocks": "true", "method": "hung", "more": ""} | changes
    job = folder / "job.toml"
    job.write_text(JOB.format(**given) + after, "utf8")
    return job


def look(folder: Path, after: str = "", **changes: str) -> MoldLook:
    job = load_job(written(folder, after, **changes))
    return look_at_mold(job, read_piece(job))


def told(made: MoldLook) -> dict[str, Any]:
    part = blocks_look(made, SILENT)
    assert part is not None
    answer: dict[str, Any] = json.loads(part.model_dump_json())
    return answer


def lines(part: dict[str, Any], units: str = "metric") -> str:
    paper = StringIO()
    console = Console(width=110, file=paper)
    for line in blocks_lines(part, Words(units)):
        console.print(line)
    return paper.getvalue()


@pytest.fixture(scope="module")
def priced(tmp_path_factory: pytest.TempPathFactory) -> MoldLook:
    return look(tmp_path_factory.mktemp("priced"), PRICES)


def test_money_is_rubber_less_sawing_and_board(priced: MoldLook) -> None:
    part = told(priced)
    volume = sum(block["volume_m3"] for block in part["blocks"])
    density = priced.mold.choices.rubber.density.value
    rubber = 20.0 * volume * density * 1.03
    work = 30.0 / 6 * len(part["blocks"])
    # 8 x 4 ft of board at 40, 15 % of it lost
    board = 40.0 * volume / 0.018 * 1.15 / 2.98
    assert part["saves_money"] == pytest.approx(rubber - work - board)
    assert part["missing"] == []
    assert part["rubber_kg"] == pytest.approx(sum(block["rubber_kg"] for block in part["blocks"]))
    assert part["worth_m3"] == pytest.approx(5.0 / (20.0 * density))
    assert volume <= part["bound_m3"]
    assert part["share"] == pytest.approx(volume / part["bound_m3"])


def test_without_prices_there_is_no_sum_and_the_missing_ones_are_named(tmp_path: Path) -> None:
    part = told(look(tmp_path))
    assert part["saves_money"] is None
    assert part["missing"] == ["prices.rubber", "prices.hour", "prices.board"]
    assert "no sum: the job does not give prices.rubber and prices.hour and prices.board" in " ".join(
        lines(part).split()
    )


def test_rubber_wood_and_master_fill_the_box_that_is_told(priced: MoldLook) -> None:
    x, y, z = priced.mold.inside
    wood = told(priced)["volume_m3"]
    assert priced.mold.rubber.volume + wood + priced.piece.solid.volume == pytest.approx(x * y * z, rel=1e-6)


@pytest.mark.parametrize(("units", "screw"), [("metric", "4 mm"), ("us", "No. 8")])
def test_the_terminal_shows_a_row_for_each_block(tmp_path: Path, units: str, screw: str) -> None:
    part = told(look(tmp_path, units=units))
    shown = lines(part, units)
    letters = {f"{block['letter']} " for block in part["blocks"]}
    rows = [line for line in shown.splitlines() if line[:2] in letters]
    assert len(rows) == len(part["blocks"]) > 2
    assert screw in shown
    assert f"No arrangement of {len(rows)} blocks can hold more than" in " ".join(shown.split())


def test_page_and_drawing_hold_every_block(tmp_path: Path) -> None:
    sheet: MoldSheet = mold_job(written(tmp_path, PRICES, method="screwed"), now=NOW).sheet
    assert sheet.blocks is not None
    (page,) = blocks_pages(sheet, Wording(sheet.job))
    tables = [each["table"] for each in page["blocks"] if "table" in each]  # type: ignore[attr-defined]
    assert [len(each["rows"]) for each in tables] == [len(sheet.blocks.blocks)] * 2
    ((name, svg), _) = blocks_files(look(tmp_path, PRICES), sheet)
    assert name == "drawings/space-blocks.svg"
    texts = [text for text in ET.fromstring(svg).iter() if text.tag.endswith("text")]
    written_out = [text.text or "" for text in texts]
    assert {block.letter for block in sheet.blocks.blocks} <= set(written_out)
    for panel in sheet.blocks.panels:
        assert panel.name in written_out
    for text in texts:
        length = 0.602 * float(text.get("font-size", "0")) * len(text.text or "")
        start = (
            float(text.get("x", "0"))
            - {"start": 0, "middle": 0.5, "end": 1}[text.get("text-anchor", "start")] * length
        )
        assert start >= -0.5
        assert start + length <= 510.5


def test_a_job_without_them_is_told_by_the_table_of_ways_only(tmp_path: Path) -> None:
    made = look(tmp_path, blocks="false")
    assert blocks_look(made, SILENT) is None


def test_a_wall_so_thick_that_nothing_fits_says_so_in_one_line(tmp_path: Path) -> None:
    job = written(tmp_path, more='wall = "60 mm"')
    text = job.read_text("utf8")
    (profile,) = [line for line in text.splitlines() if line.startswith("profile")]
    job.write_text(text.replace(profile, 'box = ["100 mm", "100 mm", "80 mm"]'), "utf8")
    read = load_job(job)
    part = told(look_at_mold(read, read_piece(read)))
    assert part["blocks"] == []
    assert part["share"] is None
    (line,) = part["words"]
    assert line.startswith("No space block fits: with 60 mm of rubber around the piece")
    assert line in " ".join(lines(part).split())


def test_work_so_dear_that_no_block_is_worth_it_says_so(tmp_path: Path) -> None:
    part = told(look(tmp_path, PRICES.replace("30 EUR/h", "9000 EUR/h")))
    assert part["blocks"] == []
    assert part["words"][0].startswith("No space block is worth its sawing")


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ('block_stock = ["0 mm"]', "a board of 0 mm in mold.block_stock"),
        ("block_stock = []", "mold.block_stock names no board"),
        ('least_block = "0 mm"', "is nothing to work with"),
        ('least_block = "400 mm"', "mold.least_block is 400 mm"),
        ('block_board = "teak"', "teak"),
    ],
)
def test_stock_and_sides_that_cannot_be_are_refused_with_their_line(
    tmp_path: Path, more: str, says: str
) -> None:
    with pytest.raises(UserError) as refusal:
        look(tmp_path, more=more)
    assert says in str(refusal.value)
    # the eleventh line after the empty first one
    assert f"job.toml:{JOB.splitlines().index('{more}') + 1} mold.{more.split(maxsplit=1)[0]}" in str(
        refusal.value
    )
