"""From the text of any TOML file that a maker writes to a checked model, or one error with file and lines."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from pourwright.foundation.quantities import CURRENCIES, Price
from pourwright.jobs.errors import Finding, JobError, findings, located, not_toml
from pourwright.jobs.job import nearest_line, place_of
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.lines import key_lines

M = TypeVar("M", bound=BaseModel)
Lines = Mapping[KeyPath, int]
Found = Iterable[tuple[KeyPath, Finding]]


def parsed_toml(text: str, file: Path) -> tuple[dict[str, Any], Lines]:
    """Take a file's text apart.

    Parameters
    ----------
    text : str
        TOML.
    file : Path
        What messages call it.

    Returns
    -------
    tuple
        Its tables, and the line of each key.

    Raises
    ------
    JobError
        For what is no TOML, with its line.
    """
    # some editors begin a file with a mark of its encoding
    text = text.removeprefix("\ufeff")
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise not_toml(file, str(error)) from None
    except RecursionError:
        raise JobError("lists or tables nested too deep", where=str(file), todo="mend the file") from None
    return raw, key_lines(text)


def checked_model(
    raw: Mapping[str, Any], lines: Lines, file: Path, model: type[M], further: Callable[[M], Found]
) -> M:
    """Check the tables of a file against its model, then what no single key can tell.

    Parameters
    ----------
    raw, lines
        As `parsed_toml` gives them.
    file : Path
        What messages call it.
    model : type
        What the file holds.
    further : callable
        Finds what is wrong between keys; asked only where each is right by itself.

    Returns
    -------
    BaseModel
        Of that type.

    Raises
    ------
    JobError
        With file and line of everything that is wrong.
    """
    try:
        checked = model.model_validate(raw)
    except ValidationError as error:
        raise _error(findings(error, model), lines, file) from None
    if found := list(further(checked)):
        raise _error(iter(found), lines, file)
    return checked


def _error(found: Iterator[tuple[KeyPath, Finding]], lines: Lines, file: Path) -> JobError:
    return JobError.of(
        located(found, lambda path: place_of(file, lines, path), lambda path: nearest_line(lines, path) or 0)
    )


def one_currency(currency: str | None, moneys: Iterable[tuple[KeyPath, Price]]) -> Found:
    """Find money that is not in the currency of its file: nothing is converted, at no rate of no day.

    Parameters
    ----------
    currency : str or None
        As the file has it; None may stand where it holds no money.
    moneys : iterable
        Every amount with the key that it stands under.

    Yields
    ------
    tuple
        Key, and what is wrong with it.
    """
    if currency is not None and currency not in CURRENCIES:
        known = ", ".join(sorted(CURRENCIES))
        came = f"no currency {currency!r} is known"
        yield ("currency",), (came, known, 'write for example currency = "EUR"')
        return
    for path, money in moneys:
        if currency is None:
            came = f"{money.text!r} without the currency of the file"
            yield path, (came, f'currency = "{money.currency}"', "write it at the top of the file")
            return
        if money.currency != currency:
            came = f"{money.text!r} is in {money.currency}, the file in {currency}"
            yield path, (came, currency, "convert it, and note rate and day")
