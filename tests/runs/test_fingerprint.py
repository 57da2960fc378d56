"""The same inputs have the same fingerprint, others have another."""

import dataclasses
import hashlib
import io
import shutil
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from enum import Enum, StrEnum
from fractions import Fraction
from importlib import import_module
from importlib.metadata import version
from pathlib import Path, PurePosixPath
from types import MappingProxyType
from typing import Any, NamedTuple
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from hypothesis.extra import numpy as arrays

import pourwright
from pourwright.runs import code_digest, fingerprint
from pourwright.runs.fingerprint import _sources


@dataclass(frozen=True)
class Point:
    x: object
    y: object = 0


@dataclass(frozen=True)
class Spot:
    x: object
    y: object = 0


@dataclass
class Loose:
    x: int


class Pair(NamedTuple):
    x: object
    y: object


class Word(StrEnum):
    ONE = "one"


class Count(Enum):
    ONE = 1


PLAIN = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(),
    st.binary(),
    st.fractions(),
    st.dates(),
    st.timedeltas(),
    st.datetimes(timezones=st.sampled_from([None, UTC, ZoneInfo("Europe/Rome")])),
    arrays.arrays(st.sampled_from([np.float64, np.int64, np.bool_]), arrays.array_shapes(max_side=3)),
)
VALUES = st.recursive(
    PLAIN,
    lambda below: st.one_of(
        st.lists(below, max_size=3),
        st.lists(below, max_size=3).map(tuple),
        st.dictionaries(st.text(max_size=3), below, max_size=3),
        st.builds(Point, below, below),
        st.builds(Pair, below, below),
    ),
    max_leaves=8,
)


def rebuilt(value: Any) -> Any:
    """The same value made of other objects, mappings in another order."""
    if isinstance(value, np.ndarray):
        return np.asfortranarray(value).copy(order="K")
    if isinstance(value, Mapping):
        return {key: rebuilt(value[key]) for key in reversed(list(value))}
    if isinstance(value, Pair):
        return Pair(*map(rebuilt, value))
    if isinstance(value, list | tuple):
        return type(value)(map(rebuilt, value))
    if isinstance(value, Point):
        return Point(rebuilt(value.x), rebuilt(value.y))
    return value


def written(value: Any) -> str:
    """An independent, exact account of a value, to tell whether two are the same."""
    if isinstance(value, np.ndarray):
        return f"array {value.dtype} {value.shape} {value.tobytes()!r}"
    if isinstance(value, Mapping):
        return "{" + ",".join(f"{key!r}:{written(each)}" for key, each in sorted(value.items())) + "}"
    if isinstance(value, Point):
        return f"Point<{written(value.x)}|{written(value.y)}>"
    if isinstance(value, list | tuple):
        return type(value).__name__ + "<" + "|".join(map(written, value)) + ">"
    return f"{type(value).__name__} {value!r}"


@settings(max_examples=150, deadline=None, derandomize=True)
@given(VALUES)
def test_the_same_made_anew_has_the_same_fingerprint(value: object) -> None:
    assert fingerprint(rebuilt(value)) == fingerprint(value)


@settings(max_examples=300, deadline=None, derandomize=True)
@given(VALUES, VALUES)
def test_two_values_share_a_fingerprint_only_if_they_are_the_same(one: object, other: object) -> None:
    assert (fingerprint(one) == fingerprint(other)) == (written(one) == written(other))


DIFFERENT: list[object] = [
    0, 0.0, -0.0, False, None, "", b"", "0", (), [], {}, frozenset(), (0,), [0], ((), ()), (((),),), {0: 0},
    {"0": 0}, frozenset({0}), Fraction(0), Fraction(1, 2), 0.5, np.nextafter(0.5, 1.0), float("nan"),
    np.zeros(0), np.zeros(1), np.zeros((1, 1)), np.zeros(1, dtype=np.float32), np.zeros(1, dtype=np.int64),
    Point(0), Spot(0), Pair(0, 0), (0, 0), Point(0, 1), Point(1, 0), Word.ONE, Count.ONE, "one", 1, "ab",
    ("a", "b"), ("ab", ""), ("", "ab"), PurePosixPath("a/b"), "a/b", date(2026, 1, 1), datetime(2026, 1, 1),
    time(9), timedelta(1),
    datetime(2026, 1, 1, tzinfo=UTC), datetime(2026, 1, 1, tzinfo=ZoneInfo("UTC")),
    datetime(2026, 10, 25, 2, 30, tzinfo=ZoneInfo("Europe/Rome")),
    datetime(2026, 10, 25, 2, 30, tzinfo=ZoneInfo("Europe/Rome"), fold=1), ZoneInfo("Europe/Rome"),
    "Europe/Rome",
]  # fmt: skip


def test_what_is_different_has_another_fingerprint() -> None:
    assert len({fingerprint(each) for each in DIFFERENT}) == len(DIFFERENT)


def test_what_computes_the_same_has_the_same() -> None:
    assert fingerprint(np.float64(0.5)) == fingerprint(0.5)
    assert fingerprint(np.int64(5)) == fingerprint(5)
    assert fingerprint(MappingProxyType({"a": 1})) == fingerprint({"a": 1})
    assert fingerprint(np.arange(6.0).reshape(2, 3).T) == fingerprint(
        np.ascontiguousarray(np.arange(6.0).reshape(2, 3).T)
    )


def unknown() -> Iterator[tuple[object, str]]:
    yield {"way": [print]}, "value['way'][0]"
    yield Point((0, Point(lambda: 0))), "value.x[1].x"
    yield (io.StringIO(),), "value[0]"
    yield Loose(1), "value"
    yield Point(np.array([print], dtype=object)), "value.x"
    yield {object(): 1}, "value key"
    yield Point, "value"


@pytest.mark.parametrize(
    ("value", "place"), list(unknown()), ids=lambda each: each if isinstance(each, str) else ""
)
def test_what_it_does_not_know_is_refused_with_its_place(value: object, place: str) -> None:
    with pytest.raises(TypeError) as refused:
        fingerprint(value)
    assert str(refused.value).endswith(f" at {place}")


def test_a_field_is_not_forgotten() -> None:
    base = Point(1.0, "a")
    changes = [dataclasses.replace(base, x=2.0), dataclasses.replace(base, y="b")]
    assert len({fingerprint(each) for each in [base, *changes]}) == 3


@pytest.fixture
def moved(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A copy of the package's sources that may be edited."""
    package = Path(pourwright.__file__).parent
    copy = tmp_path / "pourwright"
    shutil.copytree(package, copy, ignore=shutil.ignore_patterns("__pycache__"))
    monkeypatch.setattr(pourwright, "__file__", str(copy / "__init__.py"))
    code_digest.cache_clear()
    yield copy
    code_digest.cache_clear()


@pytest.mark.parametrize("name", ["solver/run.py", "planner/decide.py", "data/sources.toml", "pour/site.py"])
def test_an_edit_of_what_computes_leaves_nothing_stale(moved: Path, name: str) -> None:
    before = fingerprint(1)
    with (moved / name).open("a") as file:
        file.write("\n")
    code_digest.cache_clear()
    assert fingerprint(1) != before


def test_an_edit_of_the_paper_keeps_results(moved: Path) -> None:
    before = fingerprint(1)
    (moved / "sheets" / "svg.py").write_text("")
    code_digest.cache_clear()
    assert fingerprint(1) == before


@pytest.mark.parametrize("name", ["numpy", "numba", "scipy"])
def test_another_library_leaves_nothing_stale(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    before = fingerprint(1)
    code_digest.cache_clear()
    module = import_module("pourwright.runs.fingerprint")
    monkeypatch.setattr(module, "version", lambda one: "0.0" if one == name else version(one))
    after = fingerprint(1)
    code_digest.cache_clear()
    assert after != before


def test_every_room_that_computes_is_read() -> None:
    package = Path(pourwright.__file__).parent
    read = {path.relative_to(package).parts[0] for path in _sources(package)}
    rooms = {path.parent.name for path in package.glob("*/__init__.py")} | {"data"}
    assert rooms - read == rooms & {
        "cli",
        "jobs",
        "runs",
        "sheets",
        "web",
        "records",
        "look",
        "line",
        "costing",
    }
    assert len(hashlib.sha256(code_digest().encode()).hexdigest()) == len(code_digest())
