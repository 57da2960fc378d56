"""Whoever follows the tutorial gets what it shows: its commands run, in order, in an empty folder."""

import re
import shlex
import shutil
from pathlib import Path

import pytest

from pourwright.cli import main

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "tutorial.md"
BLOCKS = re.findall(r"^```console\n(.*?)^```$", PAGE.read_text("utf8"), re.MULTILINE | re.DOTALL)


def words_of(line: str) -> list[str]:
    """A line's arguments, as the shell splits them."""
    return shlex.split(line)


def plain(line: str) -> str:
    """A line with its columns one blank apart."""
    return " ".join(line.split())


def runs(block: str) -> list[tuple[str, list[str]]]:
    """Each command of a block with the lines shown below it."""
    parts = re.split(r"^\$ ", block.replace("\\\n", " "), flags=re.MULTILINE)[1:]
    return [
        (part.splitlines()[0], [line for line in part.splitlines()[1:] if line.strip()]) for part in parts
    ]


def change(folder: Path) -> None:
    """Make the change that the page tells the reader to make."""
    job = folder / "plinth" / "job.toml"
    before, after = re.search(
        r"^```diff\n- (.*)\n\+ (.*)\n```$", PAGE.read_text("utf8"), re.MULTILINE
    ).groups()  # type: ignore[union-attr]
    text = job.read_text("utf8")
    assert before in text
    job.write_text(text.replace(before, after), "utf8")


def test_every_step_does_what_the_page_shows(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.copytree(ROOT / "examples", tmp_path / "examples", ignore=shutil.ignore_patterns("plan"))
    monkeypatch.chdir(tmp_path)
    steps = [step for block in BLOCKS for step in runs(block)]
    assert len(steps) >= 4
    for command, shown in steps:
        if "--out warmer" in command:
            change(tmp_path)
        program, *arguments = words_of(command)
        assert program == "pourwright"
        with pytest.raises(SystemExit) as left:
            main(arguments)
        out, err = capsys.readouterr()
        assert left.value.code == 0, err
        printed = {plain(line) for line in out.splitlines()}
        assert [line for line in map(plain, shown) if line not in printed] == [], command
