"""Which sources a mold used, found by looking at every number it was made from."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.document.credits import listed, numbers_of
from pourwright.app.molding.look import MoldLook
from pourwright.foundation.sources import Sourced
from pourwright.jobs.plan import SourceUsed
from pourwright.mold import DEFAULTS
from pourwright.mold.ways.defaults import AMOUNTS, LIFE, LIMITS, WAITS, WORK

MODELS = {"archimedes": "what the rubber lifts"}
"""Published equations by their source, and what they were used for."""


def mold_sources(look: MoldLook) -> list[SourceUsed]:
    """List every source of a number or an equation in the sheet of a mold.

    Parameters
    ----------
    look : MoldLook
        With its records.

    Returns
    -------
    list of SourceUsed
        One line per source and kind, with what it was used for.
    """
    return listed(_numbers(look), MODELS)


def _numbers(look: MoldLook) -> Iterator[tuple[str, Sourced]]:
    for record in (look.casting, look.mold.choices.rubber, look.mold.choices.board):
        yield from numbers_of(record)
    yield from ((f"mold {name}".replace("_", " "), number) for name, number in DEFAULTS.items())
    for table in (WORK, WAITS, AMOUNTS, LIMITS, LIFE):
        yield from ((f"ways {name}".replace("_", " "), number) for name, number in table.items())
