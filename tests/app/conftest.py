"""The example's plan, made once per session, and a small job that plans in seconds."""

import shutil
from datetime import UTC, datetime
from pathlib import Path

import pytest

from pourwright.app import plan_job
from pourwright.app.planning import PlanDocuments
from tests.app.making import one_at_a_time

EXAMPLES = Path(__file__).parents[2] / "examples"
NOW = datetime(2026, 12, 1, 12, 0, tzinfo=UTC)

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


def planned_once(name: str, folders: pytest.TempPathFactory) -> PlanDocuments:
    """Plan an example; a second test process waits and reads the kept heat runs."""
    with one_at_a_time(folders.getbasetemp().parent):
        return plan_job(copied(name, folders.mktemp(name)), now=NOW)


@pytest.fixture(scope="session")
def stool(tmp_path_factory: pytest.TempPathFactory) -> PlanDocuments:
    return planned_once("hourglass-stool", tmp_path_factory)


@pytest.fixture(scope="session")
def lamp(tmp_path_factory: pytest.TempPathFactory) -> PlanDocuments:
    return planned_once("table-lamp", tmp_path_factory)


@pytest.fixture
def small(tmp_path: Path) -> Path:
    job = tmp_path / "job.toml"
    job.write_text(SMALL, "utf8")
    return job
