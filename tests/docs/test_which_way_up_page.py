"""The page on ways up: its sessions run as shown, and its numbers are those that are used."""

import re
import shlex
import shutil
import tomllib
from pathlib import Path

import pytest

from pourwright.app.defaults import DEFAULTS
from pourwright.app.shaping.way_defaults import WAYS
from pourwright.cli import main
from tests.contracts.house import ROOT

PAGE = (ROOT / "docs" / "which-way-up.md").read_text("utf8")
SESSIONS = re.findall(r"^```console\n\$ (.*?)\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
TOMLS = re.findall(r"^```toml\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)


def plain(line: str) -> str:
    return " ".join(line.split())


@pytest.mark.parametrize(("command", "shown"), SESSIONS, ids=[command[:24] for command, _ in SESSIONS])
def test_sessions_print_what_is_shown(
    command: str,
    shown: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    shutil.copytree(ROOT / "examples", tmp_path / "examples", ignore=shutil.ignore_patterns("plan"))
    (tmp_path / "bowl").mkdir()
    (tmp_path / "bowl" / "job.toml").write_text(TOMLS[0], "utf8")
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SystemExit) as left:
        main(shlex.split(command)[1:])
    out, err = capsys.readouterr()
    assert left.value.code == 0, err
    printed = {plain(line) for line in out.splitlines()}
    assert [line for line in map(plain, shown.splitlines()) if line not in printed] == []


def test_numbers_of_the_page_are_those_in_use() -> None:
    assert len(SESSIONS) == 2
    assert f"under {100 * DEFAULTS['least_mouth'].value:g} % is no mouth" in PAGE
    assert WAYS["small_pocket"].value == 0.001
    assert f"within {100 * WAYS['near_undercut'].value:g} points" in PAGE
    assert f"{WAYS['stretch_margin'].low:g} to {WAYS['stretch_margin'].high:g} times" in PAGE
    assert round(WAYS["steepest_tilt"].value * 57.2958) == 20
    assert "where 20 degrees are enough" in PAGE


def test_the_lines_for_a_piece_askew_are_a_job() -> None:
    assert tomllib.loads(TOMLS[1])["shape"]["up"] == [0.0, 0.5, 1.0]
