"""What is set into a casting, told from the mold of its job."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.insert_part import insert_cautions, insert_parts, insert_warnings
from pourwright.app.molding.look import MoldLook
from pourwright.foundation.notation import format_volume
from pourwright.foundation.progress import Progress
from pourwright.jobs.mold_inserts import MoldInserts
from pourwright.materials import Resin
from pourwright.pour.defaults import DEFAULTS as POUR


def inserts_look(look: MoldLook, progress: Progress) -> MoldInserts | None:
    """Say where inserts sit, what is around them, how they are held and sealed.

    Parameters
    ----------
    look : MoldLook
        The mold.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    MoldInserts or None
        None where nothing is set in.
    """
    del progress
    if not look.inserts:
        return None
    factor = look.mold.choices.safety_factor
    conductivity = look.casting.conductivity.value
    parts = insert_parts(look.inserts, look.densest, factor, conductivity, _warmest(look))
    return MoldInserts(
        inserts=parts,
        safety_factor=factor,
        words=list(_words(look)),
        warnings=list(insert_warnings(look.inserts, look.system)),
        cautions=list(insert_cautions(look.inserts)),
    )


def _warmest(look: MoldLook) -> float | None:
    """What the casting may have in use [K], at best: cured all through."""
    if not isinstance(look.casting, Resin):
        return None
    return look.casting.cure.glass_transition_full.value - POUR["service_margin"].value


def _words(look: MoldLook) -> Iterator[str]:
    volume = format_volume(sum(insert.volume for insert in look.inserts), look.system)
    yield f"They take the place of {volume}, which is not taken off resin and glass."
    yield "Set them in before the glass: dry, free of grease, plugged; try each plug in water for an hour."
    if any(insert.ends == "core" for insert in look.inserts):
        yield "A tube that ends in the core goes a finger's breadth into it, taped where it enters."
    if any(insert.choice.kind == "light" for insert in look.inserts):
        yield (
            "A light warms the casting until it softens: the heat told is what the casting alone leads away "
            "in a warm room, at best, cured all through. Lead the rest to the air by metal, and measure."
        )
