"""How sure a plan is, and what a change would do, as lines of the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

Part = Mapping[str, Any]


def chance_rows(chances: Part | None) -> Iterator[tuple[str, str]]:
    """Say how often a limit is passed, and what matters most.

    Parameters
    ----------
    chances : mapping or None
        Part of the plan document as JSON.

    Yields
    ------
    tuple of str
        Name and words.
    """
    if chances is None:
        return
    kept = f"{100 * chances['probability']:.3g} of 100"
    told = [f"pour {pour['number']}: 1 in {pour['one_in']}" for pour in chances["pours"] if pour["one_in"]]
    over = ", ".join(told) or "no pour as often as 1 in 1000"
    yield "How sure", f"limits kept in {kept} castings; over the limit {over}"
    cliffs = [str(pour["number"]) for pour in chances["pours"] if pour["cliff"]]
    if cliffs:
        which = " and ".join(cliffs)
        yield "Cliff", f"pour {which}: a few per cent more speed, depth or warmth, and it runs far hotter"
    for ranking in chances["rankings"][:1]:
        yield "Matters most", f"to the {ranking['words']}: {ranking['shares'][0]['words']}"


def what_if_rows(changes: list[Part]) -> Iterator[tuple[str, str]]:
    """Say what each change that was looked at would do.

    Parameters
    ----------
    changes : list of mapping
        Part of the plan document as JSON.

    Yields
    ------
    tuple of str
        Name and words.
    """
    for change in changes:
        yield "What if", change["text"]
