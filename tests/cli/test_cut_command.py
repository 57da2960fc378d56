"""What is sawn, on the command line: printed, as JSON, for one offcut, and refused in one line."""

import json
import re
from functools import partial
from pathlib import Path

import pytest

from tests.cli.asking import asked, refusal

JOB = """format = 1
title = "Plinth"
[shape]
box = ["300 mm", "200 mm", "54 mm"]
[casting]
material = "epoxy-slow-deep"
[mold]
method = "screwed"
wall = "20 mm"
base = "20 mm"
[shop]
temperature = "22 degC"
"""
told = partial(asked, "cut")


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB)
    return path


def test_master_list_cuts_and_steps_come_in_the_order_of_the_work(job: Path) -> None:
    """54 mm are three boards of 18 mm."""
    said = told(str(job))
    assert said.exit_code == 0
    places = [said.stdout.index(words) for words in ("Master", "Cut list", "1  10 mm from", "Putting it")]
    assert places == sorted(places)
    assert "master 3" in said.stdout
    assert "master 4" not in said.stdout


def test_an_offcut_is_answered_with_its_parts_and_what_is_left(job: Path) -> None:
    said = told(str(job), "--offcut", "440 mm x 300 mm", "--json")
    answer = json.loads(said.stdout)
    (sheet,) = answer["plan"]["sheets"]
    assert (sheet["length_m"], sheet["width_m"]) == pytest.approx((0.44, 0.3))
    assert sheet["parts"]
    every = {part["mark"] for part in json.loads(told(str(job), "--json").stdout)["list"]["parts"]}
    assert {part["mark"] for part in sheet["parts"]} | set(answer["over"]) == every
    printed = told(str(job), "--offcut", "440 mm x 300 mm").stdout
    assert all(part["mark"] in printed for part in sheet["parts"])


def test_an_offcut_smaller_than_every_part_says_so(job: Path) -> None:
    assert "None of the" in told(str(job), "--offcut", "60 mm x 60 mm").stdout


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--offcut", "440 mm"), "--offcut: '440 mm' is no length and width"),
        (("--offcut", "440 x 300"), "--offcut: .*unit"),
        (("--offcut", "-440 mm x 300 mm"), "a length of -440 mm"),
        (("--offcut", "440 mm x 300 mm", "--board", "oak"), "no part of board 'oak'; allowed: mdf"),
        (("--board", "mdf"), "add --offcut"),
        (("--offcut", "440 mm x 300 mm", "--out", "cut"), "no folder of its own"),
        (("--variant", "none"), "variant"),
    ],
)
def test_what_will_not_do_is_one_line(
    job: Path, capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], words: str
) -> None:
    said = refusal(capsys, "cut", str(job), *arguments)
    assert re.search(words, said), said
    assert not (job.parent / "cut").exists()
