"""What a chart is: series over one axis, with all that is written on it, ready to be shown anywhere.

Numbers are in the units of the plan document, which their ``unit`` names; every text beside them is in
the maker's own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass, field
from typing import Any, Literal

Kind = Literal["lines", "calendar", "matters"]
Cell = str | float | int | None


@dataclass(frozen=True)
class Tick:
    """A mark on an axis.

    Parameters
    ----------
    at : float
        Place, in the axis' unit.
    words : str
        What stands there.
    strong : bool
        Whether it is told from the others, as midnight is.
    """

    at: float
    words: str
    strong: bool = False


@dataclass(frozen=True)
class Axis:
    """An axis.

    Parameters
    ----------
    key : str
        By which series, bands and limits name it.
    words : str
        What it shows, with the unit the maker reads.
    unit : str
        Of the numbers.
    low, high : float
        Its ends.
    ticks : sequence of Tick
        Its marks, in order.
    also : sequence of Tick
        Second reading of the same places, as of a height as the piece stands.
    also_words : str
        What the second reading is.
    """

    key: str
    words: str
    unit: str
    low: float
    high: float
    ticks: Sequence[Tick] = ()
    also: Sequence[Tick] = ()
    also_words: str = ""


@dataclass(frozen=True)
class Series:
    """One line of a chart.

    Parameters
    ----------
    key : str
        Name for programs.
    words : str
        Name for the maker.
    unit : str
        Of the values.
    axis : str
        Key of its axis.
    values : sequence of float or None
        One for each place along x; None where there is none.
    texts : sequence of str
        The same, as the maker reads them.
    """

    key: str
    words: str
    unit: str
    axis: str
    values: Sequence[float | None]
    texts: Sequence[str]


@dataclass(frozen=True)
class Along:
    """The places that all series share.

    Parameters
    ----------
    words : str
        What is counted, with the unit the maker reads.
    unit : str
        Of the values.
    values : sequence of float
        In rising order.
    texts : sequence of str
        The same as the maker reads them, by stop-watch and by the clock where it is a time.
    low, high : float
        Ends of the axis.
    ticks : sequence of Tick
        Marks of the axis.
    also : sequence of Tick
        Second reading of the same places, as of hours beside the shop's clock.
    also_words : str
        What the second reading is.
    """

    words: str
    unit: str
    values: Sequence[float]
    texts: Sequence[str]
    low: float
    high: float
    ticks: Sequence[Tick] = ()
    also: Sequence[Tick] = ()
    also_words: str = ""


@dataclass(frozen=True)
class Band:
    """What lies between two numbers.

    Parameters
    ----------
    words : str
        What it is.
    axis : str
        Key of an axis, or "x".
    low, high : float
        Its ends along that axis.
    at : float or None
        Place along x of a band that belongs to one moment, as that of a peak.
    kind : str
        How it is drawn: "peak", "bonds", "gel", "glass", "neat".
    short : str
        The same in a word or two, for the drawing.
    """

    words: str
    axis: str
    low: float
    high: float
    kind: str
    short: str = ""
    at: float | None = None


@dataclass(frozen=True)
class Limit:
    """A line that must not be crossed; ``short`` stands in the drawing."""

    words: str
    axis: str
    at: float
    short: str = ""


@dataclass(frozen=True)
class Mark:
    """A place worth naming: along x, or along an axis; ``short`` stands in the drawing."""

    words: str
    axis: str
    at: float
    kind: str
    short: str = ""


@dataclass(frozen=True)
class Table:
    """The numbers of a chart, units in the header."""

    header: Sequence[str]
    rows: Sequence[Sequence[Cell]]


@dataclass(frozen=True)
class Chart:
    """A chart.

    Parameters
    ----------
    name : str
        In its address.
    title : str
        What it is.
    words : str
        One sentence: what it shows.
    table : Table
        All its numbers.
    kind : str
        How it is drawn.
    x : Along, optional
        Of a chart of lines.
    axes, series, bands, limits, marks : sequence
        Of a chart of lines.
    more : dict
        What another kind of chart is drawn from.
    notes : sequence of str
        To be read below it.
    """

    name: str
    title: str
    words: str
    table: Table
    kind: Kind = "lines"
    x: Along | None = None
    axes: Sequence[Axis] = ()
    series: Sequence[Series] = ()
    bands: Sequence[Band] = ()
    limits: Sequence[Limit] = ()
    marks: Sequence[Mark] = ()
    more: dict[str, Any] = field(default_factory=dict)
    notes: Sequence[str] = ()

    def to_json(self) -> dict[str, Any]:
        """The chart as JSON, what it does not have left out."""
        told = {key: value for key, value in asdict(self).items() if key != "more"}
        return told | self.more
