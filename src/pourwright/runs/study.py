"""A study: many items, each result kept as it arrives; an interrupted one goes on where it stopped."""

from __future__ import annotations

import functools
import inspect
from collections.abc import Callable, Sequence
from contextlib import closing
from pathlib import Path
from typing import Any, Protocol, TypeVar

from pourwright.foundation.progress import SILENT, Progress
from pourwright.runs.fingerprint import Fingerprints
from pourwright.runs.many import Many

A = TypeVar("A")
B = TypeVar("B")


class Keeper(Protocol):
    """Keeps results by fingerprint."""

    def get(self, key: str) -> object | None:
        """Give back what was put; None where there is nothing."""

    def put(self, key: str, value: object) -> None:
        """Keep a value."""


class _After:
    """A progress for what is left of work of which some was done before."""

    def __init__(self, progress: Progress, before: int, total: int) -> None:
        self._progress, self._before, self._total = progress, before, total

    def step(self, stage: str, done: float, total: float) -> None:  # noqa: ARG002 - the protocol's names
        self._progress.step(stage, self._before + done, self._total)


def run_study(
    function: Callable[..., B],
    items: Sequence[A],
    crew: Many,
    cache: Keeper,
    *,
    progress: Progress = SILENT,
    stage: str = "studying",
) -> list[B]:
    """Do one thing to many items; what is in the cache already is not done again.

    Parameters
    ----------
    function : callable
        Importable, or a ``functools.partial`` of such a one; its answers can be kept: frozen dataclasses,
        arrays, plain values.
    items : sequence
        What it is done to; anything that has a fingerprint. The same item twice is done once.
    crew : Crew or Cluster
        Where it is done.
    cache : Cache
        Where results are kept, each as soon as it is there.
    progress : Progress
        Told how many are done, those of earlier times included.
    stage : str
        What is being done.

    Returns
    -------
    list
        Results in the items' order.

    Raises
    ------
    Exception
        What the function raised; the results until then are kept.
    """
    names = Fingerprints()
    keys = [key_of(function, item, names) for item in items]
    results: dict[str, Any] = {}
    missing: dict[str, A] = {}
    for key, item in zip(keys, items, strict=True):
        if key in results or key in missing:
            continue
        match cache.get(key):
            case (result,):
                results[key] = result
            case _:
                missing[key] = item
    rest = list(missing)
    follow = _After(progress, len(items) - len(rest), len(items))
    work = crew.map_as_done(function, list(missing.values()), progress=follow, stage=stage)
    with closing(work) as done:
        for number, result in done:
            results[rest[number]] = result
            # in a tuple, so that an answer of None can be told from none
            cache.put(rest[number], (result,))
    return [results[key] for key in keys]


def key_of(function: Callable[..., object], item: object, names: Fingerprints | None = None) -> str:
    """Name one item's result: by function, what it has bound, the file it stands in, and the item.

    Parameters
    ----------
    function : callable
        A function or a ``functools.partial`` of one.
    item : object
        Anything that has a fingerprint.
    names : Fingerprints, optional
        Of items with parts in common.

    Returns
    -------
    str
        64 hexadecimal digits.
    """
    if isinstance(function, functools.partial):
        return key_of(function.func, (function.args, function.keywords, item), names)
    name = f"{function.__module__}.{function.__qualname__}"
    return (names or Fingerprints()).of((name, _source(function), item))


@functools.cache
def _source(function: Callable[..., object]) -> bytes:
    """Text of the file where a function stands; nothing for what Python itself brings."""
    try:
        return Path(inspect.getfile(function)).read_bytes()
    except (TypeError, OSError):
        return b""
