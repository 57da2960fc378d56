"""The page on thin and sharp places shows what the command tells of that body."""

import re
from pathlib import Path

from click.testing import CliRunner

from pourwright.cli.commands import pourwright
from pourwright.geometry.files.writers import stl_bytes
from tests.geometry.thin_bodies import finned

PAGE = Path(__file__).parents[2] / "docs" / "thin-and-sharp.md"


def test_the_lines_on_the_page_are_those_of_the_command(tmp_path: Path) -> None:
    part = tmp_path / "part.stl"
    part.write_bytes(stl_bytes(finned()))
    told = CliRunner().invoke(pourwright, ["shape", str(part), "--unit", "mm"])
    assert told.exit_code == 0, told.output
    answer = " ".join(told.output.split())
    shown = PAGE.read_text("utf8").split("```")[1]
    # two dots stand for what is left out
    pieces = [piece for line in re.split(r"\n(?=\d)", shown) for piece in line.split("..")]
    assert len(pieces) > 5
    for piece in pieces:
        assert " ".join(piece.split()).strip(" ,:") in answer
