"""The page on space blocks shows what the command tells of its vase, and names the numbers that are used."""

from io import StringIO
from pathlib import Path

import pytest
from rich.console import Console

from pourwright.app.molding.blocks import blocks_look
from pourwright.app.molding.look import look_at_mold
from pourwright.app.shaping.piece import read_piece
from pourwright.cli.mold_blocks_lines import blocks_lines
from pourwright.cli.words import Words
from pourwright.foundation.progress import SILENT
from pourwright.jobs import load_job
from pourwright.mold import DEFAULTS
from pourwright.mold.blocks.defaults import BLOCKS
from pourwright.mold.ways.defaults import AMOUNTS
from tests.contracts.house import ROOT

PAGE = (ROOT / "docs" / "space-blocks.md").read_text("utf8")


def test_the_session_is_what_is_told(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(PAGE.split("```toml\n")[1].split("```")[0], "utf8")
    job = load_job(path)
    part = blocks_look(look_at_mold(job, read_piece(job)), SILENT)
    assert part is not None
    paper = StringIO()
    console = Console(width=110, file=paper)
    for line in blocks_lines(part.model_dump(mode="json"), Words("metric")):
        console.print(line)
    told = "\n".join(line.rstrip() for line in paper.getvalue().splitlines())
    shown = PAGE.split("$ pourwright mold job.toml\n")[1].split("```")[0]
    assert shown.strip() == told.strip()


@pytest.mark.parametrize(
    "words",
    [
        f"less than {1e3 * DEFAULTS['least_displaced'].value:g} litres",
        f"one for every {1e3 * BLOCKS['screw_spacing'].value:.0f} mm",
        f"{1e3 * BLOCKS['screw_grip'].value:.0f} mm of thread in the block",
        f"never nearer than {1e3 * BLOCKS['screw_cover'].value:.0f} mm",
        f"{100 * AMOUNTS['waste'].value:.0f} % for saw cuts",
    ],
)
def test_numbers_on_the_page_are_those_that_are_used(words: str) -> None:
    assert words in " ".join(PAGE.split())
