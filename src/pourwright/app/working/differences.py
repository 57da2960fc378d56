"""Which choices differ between a job as an answer was made from it and the job of today."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pourwright.jobs.job import Job
from pourwright.jobs.keypaths import KeyPath, shown

MOST = 6
_NOT_CHOICES = ("format",)


def differences(before: Job, today: Job) -> list[str]:
    r"""Say what differs, a sentence each.

    Parameters
    ----------
    before : Job
        The variant as it was.
    today : Job
        The variant as it is.

    Returns
    -------
    list of str
        Empty where both say the same.

    Examples
    --------
    >>> from pourwright.jobs import read_job
    >>> text = 'format = 1\n[shape]\nbox = ["9 cm", "9 cm", "9 cm"]\n[casting]\nmaterial = "epoxy-fast"\n'
    >>> before, today = (read_job(text + f'[shop]\ntemperature = "{one} degC"\n') for one in (20, 21))
    >>> differences(before, today)
    ['shop.temperature was 20 degC, is now 21 degC']
    """
    old, new = (dict(_leaves(job.raw)) for job in (before, today))
    found = [
        _sentence(path, old.get(path), new.get(path))
        for path in {**old, **new}
        if old.get(path) != new.get(path) and path[0] not in _NOT_CHOICES
    ]
    rest = len(found) - MOST
    return [*found[:MOST], f"and {rest} more"] if rest > 0 else found


def _leaves(value: Any, path: KeyPath = ()) -> Iterator[tuple[KeyPath, Any]]:
    if isinstance(value, Mapping):
        for name, inside in value.items():
            if (*path, name) != ("variant",):
                yield from _leaves(inside, (*path, name))
    elif isinstance(value, list) and any(isinstance(one, Mapping | list) for one in value):
        for number, inside in enumerate(value):
            yield from _leaves(inside, (*path, number))
    else:
        yield path, value


def _sentence(path: KeyPath, old: Any, new: Any) -> str:
    key = shown(path)
    if old is None:
        return f"{key} is now {_said(new)}"
    if new is None:
        return f"{key} was {_said(old)}, is no longer given"
    return f"{key} was {_said(old)}, is now {_said(new)}"


def _said(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return ", ".join(map(_said, value)) if isinstance(value, list) else str(value)
