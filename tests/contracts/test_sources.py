"""A number never travels without its source, and no source stands there for nothing."""

import dataclasses
import re
import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

from pourwright.foundation.sources import Kind, Sourced, load_sources
from tests.contracts.house import PACKAGE, SOURCES, modules, name_of

RECORDS = sorted((PACKAGE / "data").rglob("*.toml"))
LIST = PACKAGE / "data" / "sources.toml"


def inside(value: Any) -> Iterator[Sourced]:
    """Every sourced number in a value, through mappings, sequences and records."""
    if isinstance(value, Sourced):
        yield value
    elif isinstance(value, Mapping):
        yield from (each for below in value.values() for each in inside(below))
    elif isinstance(value, tuple | list):
        yield from (each for below in value for each in inside(below))
    elif dataclasses.is_dataclass(value) and not isinstance(value, type):
        yield from (
            each for field in dataclasses.fields(value) for each in inside(getattr(value, field.name))
        )


def tables(value: Any, path: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every table of a record file that states a source."""
    if isinstance(value, dict):
        if "source" in value:
            yield path, value
        for key, below in value.items():
            yield from tables(below, f"{path}.{key}")


def test_every_sourced_number_of_the_code_resolves() -> None:
    known = load_sources()
    numbers = [
        (f"{module.__name__}.{name}", number)
        for module in modules()
        for name, value in sorted(vars(module).items())
        for number in inside(value)
    ]
    assert len(numbers) > 10
    assert [where for where, number in numbers if number.source not in known] == []


def test_every_record_names_a_source_and_a_kind_that_exist() -> None:
    found = [
        each
        for path in RECORDS
        if path != LIST
        for each in tables(tomllib.loads(path.read_text("utf8")), name_of(path))
    ]
    assert len(found) > 100
    kinds = {str(kind) for kind in Kind}
    lost = [
        path for path, table in found if table["source"] not in load_sources() or table["kind"] not in kinds
    ]
    assert lost == []


def test_every_source_is_used() -> None:
    texts = [path.read_text("utf8") for path in [*SOURCES, *RECORDS] if path != LIST]
    named = set(re.findall(r"[\"'\[]([a-z0-9]+(?:-[a-z0-9]+)*)[\"'\]]", "\n".join(texts)))
    assert set(load_sources()) - named == set()
