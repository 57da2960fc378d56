"""A shop with two small jobs, invented, and caches of its own."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from pourwright.app.working.works import Works
from tests.app.working.work_chores import KINDS

TINY = """
format = 1
title = "Paperweight"
invented = true
start = "2027-01-11 09:00"
[shape]
box = ["60 mm", "60 mm", "40 mm"]
[casting]
material = "epoxy-slow-deep"
[shop]
temperature = "22 degC"
time_zone = "Europe/Berlin"
"""


@pytest.fixture(autouse=True)
def own_caches(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))
    return tmp_path / "caches"


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return a_job(tmp_path, "one")


@pytest.fixture
def other(tmp_path: Path) -> Path:
    return a_job(tmp_path, "two")


def a_job(folder: Path, name: str) -> Path:
    file = folder / name / "job.toml"
    file.parent.mkdir()
    file.write_text(TINY, "utf8")
    return file


@pytest.fixture
def works() -> Iterator[Works]:
    made = Works(KINDS)
    yield made
    made.close()
