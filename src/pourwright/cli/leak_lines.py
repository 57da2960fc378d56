"""A leak as the maker reads it in the terminal: the answer first, what it rests on below."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import remark_lines

Part = Mapping[str, Any]


def leak_lines(answer: Part) -> Iterator[RenderableType]:
    """Lay out a leak.

    Parameters
    ----------
    answer : mapping
        The document as JSON.

    Yields
    ------
    RenderableType
    """
    yield Text(f"{answer['job']['title']}, pour {answer['pour']}", style="bold")
    yield from (Text(line) for line in answer["words"])
    yield Text(answer["heat"]["words"])
    yield from remark_lines("Bands and bond", answer["bands"], "")
    yield from remark_lines("What does not go together", (each["words"] for each in answer["clashes"]), "red")
    yield from remark_lines("What it rests on", (each["words"] for each in answer["evidence"]), "dim")
    yield from remark_lines("Mind this", answer["warnings"], "yellow")
