"""A folder of answers is replaced as a whole, and what the maker laid beside them stays."""

from pathlib import Path

import pytest

from pourwright.app.own_folder import OwnFolder
from pourwright.foundation.errors import UserError

PAPERS = OwnFolder("papers", "papers.json", "papers/", ("drawings/pour-??.svg",))
MARK = b'{"schema": "papers/1.0"}'


def test_what_an_older_answer_had_more_of_goes(tmp_path: Path) -> None:
    folder = tmp_path / "out"
    pours = {f"drawings/pour-{number:02d}.svg": b"<svg/>" for number in (1, 2, 3)}
    PAPERS.write(folder, {"papers.json": MARK, **pours})
    PAPERS.write(folder, {"papers.json": MARK, "drawings/pour-01.svg": b"<svg/>"})
    assert sorted(path.name for path in folder.rglob("*.*")) == ["papers.json", "pour-01.svg"]


def test_what_the_maker_laid_beside_it_stays(tmp_path: Path) -> None:
    folder = tmp_path / "out"
    PAPERS.write(folder, {"papers.json": MARK})
    (folder / "drawings").mkdir()
    (folder / "drawings" / "my sketch.svg").write_text("mine")
    PAPERS.write(folder, {"papers.json": MARK, "drawings/pour-01.svg": b"<svg/>"})
    assert (folder / "drawings" / "my sketch.svg").read_text() == "mine"


def test_a_folder_of_other_things_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "notes.txt").write_text("mine")
    with pytest.raises(UserError, match="holds other things"):
        PAPERS.write(tmp_path / "out", {"papers.json": MARK})
    assert (tmp_path / "out" / "notes.txt").read_text() == "mine"
