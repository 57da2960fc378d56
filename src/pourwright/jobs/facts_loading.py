"""From the text of a facts file to checked facts."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pourwright.foundation.quantities import Quantity
from pourwright.jobs.errors import Finding
from pourwright.jobs.facts import FACTS, Facts
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.texts import read_text
from pourwright.jobs.toml_checked import checked_model, parsed_toml

_BETWEEN: dict[str, tuple[float, float, str]] = {
    "time": (60.0, 90 * 86400.0, "1 min to 90 days"),
    "after": (60.0, 365 * 86400.0, "1 min to a year"),
    "mixed": (0.0, 86400.0, "0 min to a day"),
    "until": (600.0, 90 * 86400.0, "10 min to 90 days"),
    "room": (263.15, 333.15, "-10 to 60 degC"),
    "start": (263.15, 373.15, "-10 to 100 degC"),
    "temperature": (273.15, 573.15, "0 to 300 degC"),
    "limit": (303.15, 473.15, "30 to 200 degC"),
    "mass": (0.001, 500.0, "1 g to 500 kg"),
    "depth": (0.001, 1.0, "1 mm to 1 m"),
    "thickness": (0.001, 0.5, "1 mm to 50 cm"),
    "width": (0.005, 5.0, "5 mm to 5 m"),
    "diameter": (0.01, 1.0, "1 cm to 1 m"),
    "density": (800.0, 2500.0, "800 to 2500 kg/m3"),
    "density_a": (800.0, 2500.0, "800 to 2500 kg/m3"),
    "density_b": (700.0, 2500.0, "700 to 2500 kg/m3"),
    "viscosity": (1e-3, 1e3, "1 mPa s to 1000 Pa s"),
}
"""What a key may hold, SI and in words: beyond it is a slip of the pen."""


def load_facts(path: Path | str) -> Facts:
    """Read and check a facts file.

    Parameters
    ----------
    path : Path or str
        The file.

    Returns
    -------
    Facts
        With the lines of its keys.

    Raises
    ------
    JobError
        With file and line of everything that is wrong.
    """
    file = Path(path)
    instead = "give the facts file; a logger's file goes into its [[cup]]"
    text = read_text(file, "facts file", missing="mend its name", instead=instead)
    return read_facts(text, file)


def read_facts(text: str, file: Path | str = "facts.toml") -> Facts:
    """Check the text of a facts file.

    Parameters
    ----------
    text : str
        TOML.
    file : Path or str
        What messages call it; logger files are looked for beside it.

    Returns
    -------
    Facts
        With the lines of its keys.

    Raises
    ------
    JobError
        With file and line of everything that is wrong.
    """
    file = Path(file)
    raw, lines = parsed_toml(text, file)
    facts = checked_model(raw, lines, file, Facts, _out_of_bounds)
    facts._path, facts._lines = file, lines  # noqa: SLF001 - facts are finished here and nowhere else
    return facts


def _out_of_bounds(facts: Facts) -> Iterator[tuple[KeyPath, Finding]]:
    for name in (*FACTS, "cup"):
        for index, table in enumerate(getattr(facts, name)):
            yield from _bounds_of(table, (name, index))
    yield from _bounds_of(facts.mix, ("mix",))


def _bounds_of(table: Any, path: KeyPath) -> Iterator[tuple[KeyPath, Finding]]:
    for key, value in table:
        if not isinstance(value, Quantity) or key not in _BETWEEN:
            continue
        low, high, words = _BETWEEN[key]
        if not low * (1 - 1e-9) <= value.si <= high * (1 + 1e-9):
            yield (
                (*path, key),
                (f"{value.text} is no likely {key.replace('_', ' ')}", words, "mend the value"),
            )
