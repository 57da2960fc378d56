"""Test sieves by the name on their rim."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import Dimension


@cache
def sieve_openings() -> Mapping[str, float]:
    """Read the standard sieves [iso-565].

    Returns
    -------
    Mapping
        Opening [m] by name, the widest first.
    """
    table = tomllib.loads(files("pourwright").joinpath("data", "sieves.toml").read_text("utf8"))
    return MappingProxyType(
        {each["name"]: parse_quantity(each["opening"], Dimension.LENGTH).si for each in table["sieve"]}
    )


def opening_of(name: str) -> float | None:
    """Find the opening of a sieve by its name.

    Parameters
    ----------
    name : str
        As on the rim, such as ``No. 8``, ``no 8``, ``#8`` or ``1/4 in``.

    Returns
    -------
    float or None
        [m]; None where no standard sieve is called so.

    Examples
    --------
    >>> opening_of("#8"), opening_of('1/4"'), opening_of("19 cups")
    (0.00236, 0.0063, None)
    """
    known = {_plain(each): opening for each, opening in sieve_openings().items()}
    return known.get(_plain(name))


def _plain(name: str) -> str:
    """Spell a name in one way."""
    bare = re.sub(r"^(?:no\.?|#|nr\.?)\s*(?=\d)", "no ", name.strip().lower())
    bare = re.sub(r'\s*(?:"|″|inch|inches)$', " in", bare)
    return re.sub(r"[-\s]+", " ", bare)
