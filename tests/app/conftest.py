"""The example's plan, made once per session, and a small job that plans in seconds."""

import shutil
from pathlib import Path

import pytest

from pourwright.app import plan_job
from pourwright.app.planning import SPACING, PlanDocuments
from tests.app.making import NOW, one_at_a_time

EXAMPLES = Path(__file__).parents[2] / "examples"

SMALL = """
format = 1
title = "Paperweight"
start = "2027-01-11 09:00"
[shape]
box = ["80 mm", "60 mm", "50 mm"]
[casting]
material = "epoxy-slow-deep"
[[band]]
to = "30 mm"
grade = "medium"
colour = "green"
[[band]]
to = "top"
neat = true
[shop]
temperature = "22 degC"
time_zone = "Europe/Berlin"
"""


def copied(name: str, folder: Path) -> Path:
    """Copy an example, without results of an earlier run."""
    target = folder / name
    shutil.copytree(EXAMPLES / name, target, ignore=shutil.ignore_patterns("plan", "*.py"))
    return target / "job.toml"


def planned_once(
    name: str, folders: pytest.TempPathFactory, *, quick: bool = False, coarser: float = 1.0
) -> PlanDocuments:
    """Plan an example; a second test process waits and reads the kept heat runs."""
    with one_at_a_time(folders.getbasetemp().parent), pytest.MonkeyPatch.context() as patch:
        patch.setattr("pourwright.app.planning.SPACING", coarser * SPACING)
        return plan_job(copied(name, folders.mktemp(name)), now=NOW, quick=quick, processes=1)


@pytest.fixture(scope="session")
def stool(tmp_path_factory: pytest.TempPathFactory) -> PlanDocuments:
    """Of four pours, with the likeliest numbers only and on a coarse grid: it takes two minutes otherwise."""
    return planned_once("hourglass-stool", tmp_path_factory, quick=True, coarser=2.0)


@pytest.fixture(scope="session")
def lamp(tmp_path_factory: pytest.TempPathFactory) -> PlanDocuments:
    """Of one pour, with its chances."""
    return planned_once("table-lamp", tmp_path_factory)


@pytest.fixture
def small(tmp_path: Path) -> Path:
    job = tmp_path / "job.toml"
    job.write_text(SMALL, "utf8")
    return job
