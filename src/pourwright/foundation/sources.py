"""Numbers that travel with where they come from."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files
from types import MappingProxyType


class Kind(StrEnum):
    """How a number came to us."""

    PUBLISHED = "published"
    MEMORY = "from memory"
    PRACTICE = "common practice"
    MEASURED = "measured here"
    INVENTED = "invented for the example"


@dataclass(frozen=True, slots=True)
class Source:
    """A place that numbers or equations come from.

    Parameters
    ----------
    id : str
        Key in kebab-case, by which records name it.
    citation : str
        As it is printed.
    seen : bool
        Whether we had the text before us.
    note : str
        What it does not claim, or what to mind.
    """

    id: str
    citation: str
    seen: bool
    note: str = ""

    @property
    def printed(self) -> str:
        """The citation as a sheet prints it, honest about what was not seen."""
        return self.citation if self.seen else f"{self.citation} (citation from memory)"


@dataclass(frozen=True, slots=True)
class Sourced:
    """A number with its band and where it comes from.

    Parameters
    ----------
    value : float
        In SI.
    unit : str
        SI unit of value, low and high.
    low, high : float or None
        Band that the source or the practice gives.
    kind : Kind
        How it came to us.
    source : str
        Key of the source, or words for common practice.
    conditions : str
        What it holds for.
    """

    value: float
    unit: str
    low: float | None
    high: float | None
    kind: Kind
    source: str
    conditions: str = ""


@cache
def load_sources() -> Mapping[str, Source]:
    """Read every source the house knows.

    Returns
    -------
    Mapping
        Source by its key, in the order of the file.

    Examples
    --------
    >>> load_sources()["churchill-chu-1975"].printed
    'Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1323-1329 (citation from memory)'
    """
    text = files("pourwright").joinpath("data", "sources.toml").read_text("utf8")
    entries = tomllib.loads(text)
    return MappingProxyType({key: Source(id=key, **entry) for key, entry in entries.items()})
