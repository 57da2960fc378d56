"""Jobs with cheap answers."""

import shutil
from pathlib import Path

import pytest

from pourwright.app.answering.desk import Desk
from pourwright.runs import Cache

EXAMPLES = Path(__file__).parents[3] / "examples"

CYLINDER = """
format = 1
title = "Column"
[shape]
profile = [["60 mm", "0 mm"], ["60 mm", "400 mm"]]
[casting]
material = "epoxy-slow-deep"
[[band]]
to = "100 mm"
grade = "medium"
colour = "green"
[[band]]
to = "top"
neat = true
[shop]
temperature = "22 degC"
[prices]
currency = "EUR"
resin = "10 EUR/kg"
rubber = "20 EUR/kg"
glass = "1 EUR/kg"
"""


def folder_of(text: str, folder: Path) -> Path:
    """Write a job."""
    folder.mkdir(exist_ok=True)
    (folder / "job.toml").write_text(text, "utf8")
    return folder


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return Desk(Cache(tmp_path / "kept"))


@pytest.fixture
def column(tmp_path: Path) -> Path:
    return folder_of(CYLINDER, tmp_path / "column")


@pytest.fixture
def lamp(tmp_path: Path) -> Path:
    return Path(shutil.copytree(EXAMPLES / "table-lamp", tmp_path / "lamp"))


@pytest.fixture
def stool(tmp_path: Path) -> Path:
    return Path(shutil.copytree(EXAMPLES / "hourglass-stool", tmp_path / "stool"))
