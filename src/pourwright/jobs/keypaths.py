"""Paths of keys in a job file: tuples inside, ``band[2].to`` for people (counted from 1)."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

KeyPath = tuple[str | int, ...]
_BARE = re.compile(r"[A-Za-z0-9_-]+\Z")
_STEP = re.compile(r'\.?(?:(?P<bare>[A-Za-z0-9_-]+)|"(?P<quoted>[^"]*)")|\[(?P<number>[1-9]\d*)\]')


def shown(path: Sequence[str | int]) -> str:
    """Write a key path for people.

    Parameters
    ----------
    path : sequence
        Keys, and positions in lists counted from 0.

    Returns
    -------
    str
        Dotted, positions counted from 1.

    Examples
    --------
    >>> shown(("band", 1, "to"))
    'band[2].to'
    """
    text = ""
    for step in path:
        if isinstance(step, int):
            text += f"[{step + 1}]"
        else:
            text += ("." if text else "") + (step if _BARE.match(step) else f'"{step}"')
    return text


def parsed(text: str) -> KeyPath:
    """Read a key path as people write it.

    Parameters
    ----------
    text : str
        Dotted, positions counted from 1.

    Returns
    -------
    tuple
        Keys, and positions counted from 0.

    Raises
    ------
    ValueError
        Where it is no key path.

    Examples
    --------
    >>> parsed("band[2].to")
    ('band', 1, 'to')
    """
    return tuple(_steps(text))


def _steps(text: str) -> Iterator[str | int]:
    at = 0
    while at < len(text):
        found = _STEP.match(text, at)
        if found is None:
            message = f"{text!r} is no key path"
            raise ValueError(message)
        at = found.end()
        if found["number"]:
            yield int(found["number"]) - 1
        else:
            yield found["bare"] if found["quoted"] is None else found["quoted"]
