"""Read how sure a fit was, as a resin's record carries it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.materials.records import Doubts

KEYS = ("family", "names", "mean", "covariance")
ROUND_OFF = 1e-6
"""Of the printed digits, as a share of the deviations."""
TODO = "copy the whole table from the fit's own resin.toml, or leave it out"


def read_doubts(raw: Any, where: str) -> Doubts:
    """Check and keep the table ``[<id>.doubts]`` of a record.

    Parameters
    ----------
    raw : mapping
        As read from TOML.
    where : str
        File and record, for messages.

    Returns
    -------
    Doubts

    Raises
    ------
    UserError
        A key too many or missing, lists that do not fit each other, or a table that is no covariance.
    """
    if not isinstance(raw, Mapping) or set(raw) != set(KEYS):
        raise UserError("doubts are told incompletely", where=where, allowed=", ".join(KEYS), todo=TODO)
    names, family = raw["names"], raw["family"]
    known = isinstance(names, list) and all(isinstance(name, str) for name in names)
    if not known or not names or len(set(names)) < len(names) or not isinstance(family, str):
        raise UserError("'family' is a word, 'names' a list of different words", where=where, todo=TODO)
    mean = _numbers(raw["mean"], (len(names),), f"{where} mean")
    covariance = _numbers(raw["covariance"], (len(names), len(names)), f"{where} covariance")
    _refuse_impossible(covariance, f"{where} covariance")
    even = (covariance + covariance.T) / 2
    rows = tuple(tuple(float(value) for value in row) for row in even)
    return Doubts(
        family=family, names=tuple(names), mean=tuple(float(value) for value in mean), covariance=rows
    )


def _numbers(raw: Any, shape: tuple[int, ...], where: str) -> np.ndarray[Any, np.dtype[np.float64]]:
    try:
        found = np.array(raw, dtype=np.float64)
    except (TypeError, ValueError):
        found = np.empty(0)
    if found.shape != shape or not np.all(np.isfinite(found)):
        size = " times ".join(f"{n}" for n in shape)
        raise UserError(f"not {size} finite numbers, as many as 'names'", where=where, todo=TODO)
    return found


def _refuse_impossible(covariance: np.ndarray[Any, np.dtype[np.float64]], where: str) -> None:
    variance = np.diag(covariance)
    if np.any(variance < 0.0):
        raise UserError("a variance below 0", where=where, todo=TODO)
    deviation = np.sqrt(variance)
    if np.any(np.abs(covariance - covariance.T) > ROUND_OFF * np.outer(deviation, deviation)):
        raise UserError("rows and columns differ", where=where, allowed="a symmetric table", todo=TODO)
    scale = np.where(deviation > 0.0, deviation, 1.0)
    if np.linalg.eigvalsh(covariance / np.outer(scale, scale)).min() < -ROUND_OFF:
        raise UserError(
            "two of its numbers cannot go together", where=where, allowed="a covariance", todo=TODO
        )
