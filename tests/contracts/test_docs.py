"""Whatever the maker can type stands in the manual, and the manual promises nothing that is not there."""

import re
from collections.abc import Iterator
from typing import Any, get_args

import click
import pytest
from pydantic import BaseModel

from pourwright.cli.commands import pourwright
from pourwright.foundation.quantities import UNITS
from pourwright.jobs.job import Job
from tests.contracts.house import ROOT

DOCS = ROOT / "docs"
PAGES = sorted(DOCS.rglob("*.md"))
MANUAL = "\n".join(page.read_text("utf8") for page in PAGES)
_MARKED = set(re.findall(r"`([^`\n]+)`", MANUAL))


def commands(group: click.Group, name: str) -> Iterator[tuple[str, click.Command]]:
    """Every command with the words that start it."""
    for each, command in sorted(group.commands.items()):
        yield f"{name} {each}", command
        if isinstance(command, click.Group):
            yield from commands(command, f"{name} {each}")


def models_in(annotation: Any) -> Iterator[type[BaseModel]]:
    """The models an annotation mentions, through lists and unions."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for each in get_args(annotation):
        yield from models_in(each)


def keys(model: type[BaseModel], above: str = "") -> Iterator[str]:
    """Every key of the job file as a dotted path, without positions in lists."""
    for name, info in model.model_fields.items():
        path = f"{above}{info.alias or name}"
        yield path
        for below in models_in(info.annotation):
            yield from keys(below, f"{path}.")


def told_keys() -> Iterator[str]:
    """Keys that a table of the manual explains, with the section its heading names."""
    section = ""
    for line in MANUAL.splitlines():
        if heading := re.match(r"#+ (?:.*`\[+([\w.]+)\]+`)?", line):
            section = f"{heading[1]}." if heading[1] else ""
        elif row := re.match(r"\| `([\w.]+)` \| \S", line):
            yield row[1] if row[1].startswith(section) else section + row[1]


COMMANDS = dict(commands(pourwright, "pourwright"))


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_and_option_is_in_the_manual(name: str) -> None:
    options = [opt for each in COMMANDS[name].params if isinstance(each, click.Option) for opt in each.opts]
    missing = [
        opt for opt in options if opt.startswith("--") and opt not in " ".join(_MARKED) and opt not in MANUAL
    ]
    assert name in MANUAL
    assert not missing


def test_every_key_of_the_job_file_is_in_the_manual() -> None:
    paths = list(keys(Job))
    assert len(paths) > 60
    assert set(paths) - set(told_keys()) == set()


def test_the_manual_explains_no_key_that_does_not_exist() -> None:
    sections = {path.rpartition(".")[0] for path in keys(Job)}
    told = {path for path in told_keys() if path.rpartition(".")[0] in sections - {""}}
    assert told - set(keys(Job)) == set()


def test_every_unit_is_in_the_manual() -> None:
    names = {name for units in UNITS.values() for name in units if name}
    assert names - {each for mark in _MARKED for each in (mark, mark.partition(" ")[2])} == set()


def test_the_manual_shows_no_command_that_does_not_exist() -> None:
    known = {name.split()[1] for name in COMMANDS}
    shown = set(re.findall(r"^\s*(?:\$ )?pourwright ([a-z][\w-]*)", MANUAL + _readme(), re.MULTILINE))
    assert shown
    assert shown <= known


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(DOCS).as_posix())
def test_every_page_is_reached_from_the_index(page: Any) -> None:
    name = page.relative_to(DOCS).as_posix()
    index = (DOCS / "index.md").read_text("utf8")
    folder = page.parent.relative_to(DOCS).as_posix()
    assert name == "index.md" or f"]({name})" in index or f"]({folder})" in index


@pytest.mark.parametrize("page", [*PAGES, *sorted(ROOT.glob("*.md"))], ids=lambda page: page.name)
def test_links_lead_somewhere(page: Any) -> None:
    targets = re.findall(r"\]\((?!https?:|#|mailto:)([^)#\s]+)", page.read_text("utf8"))
    assert [each for each in targets if not (page.parent / each).exists()] == []


def _readme() -> str:
    return (ROOT / "README.md").read_text("utf8")
