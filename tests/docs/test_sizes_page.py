"""The page on sizes: its job gives the ledger it shows, and its sums by hand are right."""

import io
import re
from pathlib import Path

from rich.console import Console

from pourwright.app.document.sizes import sizes_of
from pourwright.app.shaping.piece import read_piece
from pourwright.app.shaping.sizes.defaults import DEFAULTS
from pourwright.cli.size_tables import ledger_lines
from pourwright.cli.words import Words
from pourwright.jobs import load_job
from pourwright.materials import load_materials
from pourwright.physics.filled_contraction import filled_contraction
from pourwright.physics.wall_layer import MIDDLE
from tests.contracts.house import ROOT

PAGE = (ROOT / "docs" / "sizes.md").read_text("utf8")


def told_ledger(folder: Path) -> str:
    """What the terminal prints of the page's own job, but for what it rests on."""
    (job_text,) = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)
    job = folder / "job.toml"
    job.write_text(job_text, "utf8")
    read = load_job(job)
    sizes = sizes_of(read_piece(read), read)
    assert sizes is not None
    paper = Console(file=io.StringIO(), width=110)
    for line in ledger_lines(sizes.model_dump(mode="json"), Words("metric")):
        paper.print(line)
    text = paper.file.getvalue()  # type: ignore[attr-defined]
    lines = [line.rstrip() for line in text.partition("Rests on")[0].strip().splitlines()]
    return "\n".join(lines)


def test_the_job_of_the_page_gives_its_ledger(tmp_path: Path) -> None:
    (shown,) = re.findall(r"```text\n(.*?)\n```", PAGE, re.DOTALL)
    assert told_ledger(tmp_path) == shown


def test_the_sums_by_hand() -> None:
    resin = load_materials().resin["epoxy-slow-deep"]
    cured = resin.cure_shrinkage.value / 3 * (0.92 - 0.577)
    cooled = resin.solid.expansion_glass.value * 20
    assert f"{100 * cured:.2f} % + {100 * cooled:.2f} %" in PAGE
    assert f"{440 * (cured + cooled):.1f} mm over the height" in PAGE
    assert "440 mm of 0.1 % is 0.44 mm" in PAGE


def test_the_numbers_of_the_page_are_those_of_the_records() -> None:
    rubber = load_materials().rubber["silicone-platinum-a25"]
    low, high = rubber.expansion.low or 0.0, rubber.expansion.high or 0.0
    assert f"{1e6 * rubber.expansion.value:.0f}e-6 /K ({1e6 * low:.0f} to {1e6 * high:.0f})" in PAGE
    assert f"{MIDDLE:g} (1 - (1 - 2 d/D)²)" in PAGE
    shares = [
        filled_contraction(1.0 * 0.004, 0.0, 0.55, 2.6e9, 0.37, 70e9, 0.2, touching) / 0.004
        for touching in (1.0, 0.0)
    ]
    assert f"{100 * shares[0]:.0f} to {100 * shares[1]:.0f} %" in PAGE
    assert DEFAULTS["warm_share"].value == 0.75
    assert "three quarters on average (a half to all of it)" in PAGE
