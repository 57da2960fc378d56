"""Streams that a shell has closed, piped into a short reader or filled up."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from pourwright.cli import main

BOX = """format = 1
[shape]
box = ["100 mm", "80 mm", "60 mm"]
[casting]
material = "epoxy-slow-deep"
[shop]
temperature = "22 degC"
"""
PROGRAM = f"'{sys.executable}' -c 'from pourwright.cli import main; main()'"


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a job and a book, which is quickly read."""
    folder = tmp_path_factory.mktemp("shop")
    # a folder with a job in it is the job's: its shop, and so its book, would be the folder above
    (folder / "box").mkdir()
    (folder / "box" / "job.toml").write_text(BOX)
    with pytest.raises(SystemExit) as left:
        main(["book", "add", "resin", "epoxy-slow-deep", "10 kg", "--shop", str(folder)])
    assert left.value.code == 0
    return folder


@pytest.fixture
def shell(shop: Path):
    """Run a line of a shell in that folder."""

    def run(line: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            ["bash", "-o", "pipefail", "-c", re.sub(r"\bpourwright (?=book|check|new)", f"{PROGRAM} ", line)],
            cwd=shop,
            capture_output=True,
            text=True,
            check=False,
        )

    return run


# lines and JSON are written at one place: JSON is tried where a reader stops early and where there is none
@pytest.mark.parametrize(
    ("command", "end"),
    [
        ("book stock", "| head -c 5"),
        ("book stock", "| true"),
        ("book stock", ">&-"),
        # tells at which stage it is, to nobody
        ("check box/job.toml", "2>&- >/dev/null"),
        ("book stock --json", "| head -c 5"),
        ("book stock --json", ">&-"),
    ],
)
def test_a_reader_that_has_enough_is_no_failure(shell, command, end):
    ran = shell(f"pourwright {command} {end}")
    assert ran.returncode == 0
    assert "Error" not in ran.stderr
    assert "Traceback" not in ran.stderr


@pytest.mark.parametrize("option", ["", "--json"])
def test_an_output_that_takes_nothing_more_is_told(shell, option):
    ran = shell(f"pourwright book stock {option} >/dev/full")
    assert ran.returncode == 2
    assert ran.stderr.splitlines()[-1] == "output: No space left on device; do: make room and try again"


def test_nobody_to_ask_is_told(shell):
    ran = shell("pourwright new block --shape box <&-")
    assert ran.returncode == 2
    assert ran.stderr.startswith("--size: one of the five questions has no answer")


def test_letters_a_terminal_lacks_are_replaced(shell):
    code = "from pourwright.cli.main import _lend_streams; _lend_streams(); print('65 \u00b0C')"
    ran = shell(f"PYTHONIOENCODING=ascii '{sys.executable}' -c \"import sys; {code}\"")
    assert ran.stdout == "65 ?C\n"
