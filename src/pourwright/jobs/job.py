"""The job file: what the maker writes."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal

from pydantic import PrivateAttr

from pourwright.jobs.bottles_section import Bottles
from pourwright.jobs.fields import Count, Moment, Title
from pourwright.jobs.hollow_section import Hollow, Insert
from pourwright.jobs.keypaths import KeyPath, parsed, shown
from pourwright.jobs.keys import Section, key
from pourwright.jobs.mold_section import Master, Mold
from pourwright.jobs.pin import Pin
from pourwright.jobs.sections import (
    Band,
    Casting,
    Fill,
    Limits,
    Planner,
    Prices,
    Shop,
    Variant,
)
from pourwright.jobs.shape import Shape
from pourwright.jobs.sizes import Sizes
from pourwright.jobs.stock_section import Saw, StockBar, StockSheet

FORMAT = 1


class Job(Section):
    """A job as the maker wrote it, every quantity exact and with its words kept."""

    format: Literal[1] = key("number of the format of this file; older ones are upgraded")
    title: Title = key("what the piece is called on paper", default="untitled piece")
    units: Literal["metric", "us"] = key(
        "units of everything printed; a job file may use any", default="metric", why="most tape measures"
    )
    paper: Literal["A4", "letter"] | None = key(
        "paper of the printed plan", shown="A4, or letter with units = us", why="what the printer holds"
    )
    seed: Count = key("start of the random numbers", default=0, why="the same job gives the same plan")
    start: Moment | None = key(
        "first hour of the first pour by the shop's clock",
        shown="when mold and glass can be ready",
        why="the work begins at the next working hour; said in the plan",
    )
    invented: bool = key("true in examples whose data are made up; the plan says so", default=False)
    shape: Shape = key("the piece")
    sizes: Sizes = key("from the piece wanted back to the master", factory=Sizes)
    casting: Casting = key("what it is cast from")
    band: list[Band] = key(
        "heights of one grade and colour, from the mold's floor up as poured", factory=list,
        shown="none", why="one neat band from floor to top where none is given",
    )  # fmt: skip
    fill: Fill = key("glass and losses", factory=Fill)
    mold: Mold = key("rubber and box", factory=Mold)
    master: Master = key("the master", factory=Master)
    hollow: Hollow | None = key(
        "cast hollow around a core", shown="none", why="cast solid; pourwright mold says what a core saves"
    )
    insert: list[Insert] = key("what is set into the casting", factory=list, shown="none")
    sheet: list[StockSheet] = key(
        "sheets and offcuts of board that lie in the shop", factory=list, shown="none",
        why="of a board without any, whole sheets of its usual size are taken; pourwright says so",
    )  # fmt: skip
    bar: list[StockBar] = key(
        "bars of wood that lie in the shop", factory=list, shown="none",
        why="of a section without any, bars as sold are taken; pourwright says so",
    )  # fmt: skip
    saw: Saw = key("what the saw takes", factory=Saw)
    shop: Shop = key("where and when it is poured")
    limits: Limits = key("temperatures that must not be passed", factory=Limits)
    planner: Planner = key("what the planner may choose", factory=Planner)
    prices: Prices | None = key("prices for the shopping list", shown="none", why="never guessed")
    bottles: Bottles = key("where the glass comes from", factory=Bottles)
    variant: list[Variant] = key(
        "lines that differ, one plan per variant",
        factory=list,
        shown="none",
        why="one plan of the file as it is",
    )
    pin: Pin | None = key(
        "values pinned for a check of the heat run; read by `pourwright heat` alone",
        shown="none", why="a plan of real pours refuses them",
    )  # fmt: skip

    _path: Path = PrivateAttr(default=Path("job.toml"))
    _lines: Mapping[KeyPath, int] = PrivateAttr(default_factory=dict)
    _raw: Mapping[str, Any] = PrivateAttr(default_factory=dict)
    _digest: str = PrivateAttr(default="")
    _variant: str = PrivateAttr(default="main")
    _resolved: tuple[Job, ...] = PrivateAttr(default=())
    _others: tuple[Job, ...] = PrivateAttr(default=())

    @property
    def path(self) -> Path:
        """The file it was read from."""
        return self._path

    @property
    def digest(self) -> str:
        """The sha256 of its file when it was read; empty for a job made in memory."""
        return self._digest

    @property
    def raw(self) -> Mapping[str, Any]:
        """The job as it was read, without its variants."""
        return self._raw

    @property
    def lines(self) -> Mapping[KeyPath, int]:
        """Line of every key."""
        return self._lines

    @property
    def variant_name(self) -> str:
        """Name of the variant; "main" where the file has none."""
        return self._variant

    @property
    def others(self) -> tuple[Job, ...]:
        """The other variants of the file that a variant was read from."""
        return self._others

    @property
    def paper_size(self) -> Literal["A4", "letter"]:
        """Paper of the printed plan."""
        return self.paper or ("letter" if self.units == "us" else "A4")

    @property
    def shape_file(self) -> Path | None:
        """The mesh file, found beside the job file."""
        return None if self.shape.file is None else self._path.parent / self.shape.file

    def line(self, place: str | KeyPath) -> int | None:
        """Find the line of a key, or of the nearest table around it.

        Parameters
        ----------
        place : str or tuple
            As in ``band[2].to`` (positions counted from 1), or a tuple with positions from 0.

        Returns
        -------
        int or None
            None where neither the key nor a table around it is written.
        """
        return nearest_line(self._lines, parsed(place) if isinstance(place, str) else place)

    def where(self, place: str | KeyPath) -> str:
        """Say where a key stands, for an error.

        Parameters
        ----------
        place : str or tuple
            As for `line`.

        Returns
        -------
        str
            ``stool/job.toml:14 band[2].to``.
        """
        path = parsed(place) if isinstance(place, str) else place
        return place_of(self._path, self._lines, path)

    def variants(self) -> list[Job]:
        """Resolve the variants.

        Returns
        -------
        list of Job
            One per variant, in their order; the job itself where it has none.
        """
        return list(self._resolved) or [self]


def nearest_line(lines: Mapping[KeyPath, int], path: KeyPath) -> int | None:
    """Find the line of a path, or of the nearest table around it.

    Parameters
    ----------
    lines : Mapping
        Line by key path.
    path : tuple
        Keys, and positions counted from 0.

    Returns
    -------
    int or None
        Counted from 1.
    """
    return next((lines[path[:n]] for n in range(len(path), 0, -1) if path[:n] in lines), None)


def place_of(file: Path, lines: Mapping[KeyPath, int], path: KeyPath) -> str:
    """Write file, line and key path for an error.

    Parameters
    ----------
    file : Path
        The job file.
    lines : Mapping
        Line by key path.
    path : tuple
        Keys, and positions counted from 0.

    Returns
    -------
    str
        ``stool/job.toml:14 band[2].to``.
    """
    line = nearest_line(lines, path)
    numbered = f"{file}:{line}" if line else f"{file}:1"
    return f"{numbered} {shown(path)}".strip()
