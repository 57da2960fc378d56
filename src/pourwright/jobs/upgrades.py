"""Numbered one-way upgrades of the job file's format."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from pourwright.foundation.errors import UserError
from pourwright.foundation.files import write_atomically
from pourwright.jobs.job import FORMAT

Upgrade = Callable[[str], str]
UPGRADES: Mapping[int, Upgrade] = {}
"""By the format it starts from: text of that format in, text of the next format out."""


def format_of(raw: Mapping[str, Any], where: str) -> int:
    """Read the number of a job file's format.

    Parameters
    ----------
    raw : Mapping
        The file as read.
    where : str
        File and line, for messages.

    Returns
    -------
    int
        At least 1, at most the newest known.

    Raises
    ------
    UserError
        Missing, no number, or newer than this program.
    """
    number = raw.get("format")
    if isinstance(number, bool) or not isinstance(number, int) or number < 1:
        what = "the key 'format' is missing" if number is None else f"format {number!r}"
        raise UserError(what, where=where, allowed=_known(), todo=f"write format = {FORMAT} as first line")
    if number > FORMAT:
        raise UserError(
            f"format {number} is newer than this program",
            where=where,
            allowed=_known(),
            todo="install a newer pourwright, or write the file anew",
        )
    return number


def upgraded(text: str, number: int, upgrades: Mapping[int, Upgrade] = UPGRADES, newest: int = FORMAT) -> str:
    """Bring a text to the newest format, step by step.

    Parameters
    ----------
    text : str
        Job file of format ``number``.
    number : int
        Its format.
    upgrades : Mapping
        The steps.
    newest : int
        Where to end.

    Returns
    -------
    str
        The same job in the newest format.
    """
    for step in range(number, newest):
        text = upgrades[step](text)
    return text


def upgrade_file(
    path: Path, number: int, upgrades: Mapping[int, Upgrade] = UPGRADES, newest: int = FORMAT
) -> None:
    """Upgrade a job file in its place and keep a copy beside it.

    Parameters
    ----------
    path : Path
        The file; its copy is called ``job.toml.format-1`` and so on.
    number : int
        Format it has.
    upgrades : Mapping
        The steps.
    newest : int
        Where to end.
    """
    old = path.read_text("utf8")
    new = upgraded(old, number, upgrades, newest)
    if new != old:
        write_atomically(path.with_name(f"{path.name}.format-{number}"), old)
        write_atomically(path, new)


def _known() -> str:
    return "1" if FORMAT == 1 else f"1 to {FORMAT}"
