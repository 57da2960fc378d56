"""All charts of a plan, by name: as numbers, as CSV, as drawing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from pourwright.app.charting.calendar import calendar_chart
from pourwright.app.charting.chart import Cell, Chart
from pourwright.app.charting.heat import heat_chart
from pourwright.app.charting.heat_places import PlacesSeen, see_places
from pourwright.app.charting.level import level_chart, level_rows
from pourwright.app.charting.matters import QUICK, matters_chart
from pourwright.app.plan_files import HEAT_FILE, PLAN_FILE
from pourwright.foundation.errors import NotThereError
from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.reading import load_plan
from pourwright.sheets import plan_mark
from pourwright.sheets.calendar_drawing import draw_calendar
from pourwright.sheets.level_drawing import draw_level
from pourwright.sheets.matters_drawing import WIDE, draw_matters
from pourwright.sheets.stacked import stacked
from pourwright.sheets.tables import rows_text
from pourwright.sheets.temperature_drawing import draw_run

KEPT = 8
"""Plans kept ready: a shop looks at few at a time."""
GAP = 18.0


@dataclass(frozen=True, eq=False)
class Charted:
    """A plan ready to be charted.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    places : mapping or None
        What its heat file tells; None where there is none.
    """

    plan: PlanDocument
    places: PlacesSeen | None


@dataclass(frozen=True)
class Maker:
    """How one chart is made.

    Parameters
    ----------
    chart : callable
        Makes the numbers.
    draw : callable
        Makes an SVG document.
    """

    chart: Callable[[Charted], Chart]
    draw: Callable[[PlanDocument], str]


def _draw_matters(plan: PlanDocument) -> str:
    rankings = [] if plan.chances is None else [each for each in plan.chances.rankings if each.shares]
    if not rankings:
        raise NotThereError(QUICK, todo="make the plan without the quick way")
    return stacked([draw_matters(plan, each, WIDE) for each in rankings], GAP)


def _draw_calendar(plan: PlanDocument) -> str:
    pieces = draw_calendar(plan)
    if not pieces:
        raise NotThereError("the plan's calendar is empty", todo="make the plan again")
    return stacked(pieces, GAP)


CHARTS: dict[str, Maker] = {
    "heat": Maker(lambda charted: heat_chart(charted.plan, charted.places), draw_run),
    "level": Maker(
        lambda charted: level_chart(charted.plan), lambda plan: draw_level(plan, level_rows(plan))
    ),
    "calendar": Maker(lambda charted: calendar_chart(charted.plan), _draw_calendar),
    "matters": Maker(lambda charted: matters_chart(charted.plan), _draw_matters),
}
"""Charts by name, in the order they are shown."""


def charted(folder: Path) -> Charted:
    """Read a plan for its charts; the same files are read once.

    Parameters
    ----------
    folder : Path
        Of the plan.

    Returns
    -------
    Charted

    Raises
    ------
    UserError
        Where there is no plan that can be read.
    """
    return _charted(folder, _seen(folder / PLAN_FILE), _seen(folder / HEAT_FILE))


def _seen(path: Path) -> tuple[int, int]:
    """What tells a file from its older self."""
    try:
        found = path.stat()
    except OSError:
        return 0, 0
    return found.st_mtime_ns, found.st_size


@lru_cache(maxsize=KEPT)
def _charted(folder: Path, plan_seen: tuple[int, int], heat_seen: tuple[int, int]) -> Charted:
    del plan_seen  # only tells one reading from the next
    plan = load_plan(folder / PLAN_FILE)
    return Charted(plan, see_places(folder / HEAT_FILE, plan) if any(heat_seen) else None)


@lru_cache(maxsize=KEPT * 4)
def chart_of(about: Charted, name: str) -> Chart:
    """Make one chart.

    Parameters
    ----------
    about : Charted
        The plan.
    name : str
        One of `CHARTS`.

    Returns
    -------
    Chart

    Raises
    ------
    UserError
        For a name that is none.
    """
    return _maker(name).chart(about)


def chart_csv(about: Charted, name: str) -> str:
    """Write the numbers of a chart as CSV (RFC 4180); lines end in CR LF.

    Parameters
    ----------
    about : Charted
        The plan.
    name : str
        One of `CHARTS`.

    Returns
    -------
    str
        One header line with units; each row ends with the program's version and the mark of the plan.

    Raises
    ------
    UserError
        For a name that is none.
    """
    table = chart_of(about, name).table
    source = f"pourwright {about.plan.version}, plan {plan_mark(about.plan)}"
    rows: list[Sequence[Cell]] = [[*table.header, "source"], *([*row, source] for row in table.rows)]
    return rows_text(rows)


def chart_svg(about: Charted, name: str) -> str:
    """Draw a chart.

    Parameters
    ----------
    about : Charted
        The plan.
    name : str
        One of `CHARTS`.

    Returns
    -------
    str
        SVG document, as it is printed.

    Raises
    ------
    UserError
        For a name that is none, or a chart that this plan has nothing for.
    """
    return _maker(name).draw(about.plan)


def _maker(name: str) -> Maker:
    found = CHARTS.get(name)
    if found is None:
        raise NotThereError(f"no chart called '{name}'", allowed=", ".join(CHARTS), todo="name one of these")
    return found
