"""A document told part by part, as mold and fill are, in the terminal."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from rich.console import RenderableType

from pourwright.cli.tables import headline, remark_lines
from pourwright.cli.words import Words

Part = Mapping[str, Any]


def told_lines(
    report: Part, looks: Mapping[str, Callable[[Any, Words], Iterator[RenderableType]]]
) -> Iterator[RenderableType]:
    """Lay out every part that there is.

    Parameters
    ----------
    report : mapping
        The answer as JSON.
    looks : mapping
        How each part is told, by its field, in the order of the work.

    Yields
    ------
    RenderableType
    """
    words = Words.of(report["job"])
    yield headline(report["job"])
    for name, tell in looks.items():
        if report.get(name):
            yield from tell(report[name], words)
    yield from remark_lines("From your own records", (one["words"] for one in report.get("learnt", ())), "")
    yield from remark_lines("Mind this", report["warnings"], "yellow")
    yield from remark_lines("Take care", report["cautions"], "yellow")
