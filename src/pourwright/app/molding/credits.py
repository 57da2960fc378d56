"""Which sources a mold used, found by looking at every number it was made from."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.contact import contact_of
from pourwright.app.document.credits import listed, numbers_of
from pourwright.app.molding.hollow import FOAM
from pourwright.app.molding.look import MoldLook
from pourwright.foundation.sources import Sourced
from pourwright.jobs.plan import SourceUsed
from pourwright.mold import DEFAULTS
from pourwright.mold.air.defaults import AIR
from pourwright.mold.blocks.defaults import BLOCKS
from pourwright.mold.box.defaults import BOX
from pourwright.mold.hold.defaults import HOLD
from pourwright.mold.hollow.defaults import HOLLOW, INSERTS
from pourwright.mold.rubber_time import RUBBER_TIME
from pourwright.mold.rubber_work import RUBBER_WORK
from pourwright.mold.screw_hold import SCREWS
from pourwright.mold.seams.defaults import SEAMS
from pourwright.mold.way_out.defaults import WAY_OUT
from pourwright.mold.ways.defaults import AMOUNTS, LIFE, LIMITS, WAITS, WORK

MODELS = {
    "archimedes": "what the rubber lifts",
    "timoshenko-plates-1959": "how far panels bend, and what they hand to their edges",
    "euler-eytelwein": "what friction at corners takes from a band",
    "aci-347": "head of fresh concrete",
    "gent-1958": "rubber's stiffness from its hardness",
    "qi-joyce-boyce-2003": "rubber's stiffness from its hardness",
    "treloar-1975": "pull that stretches rubber",
    "rivlin-thomas-1953": "a nick that grows",
    "strength-of-materials": "rubber that bends",
    "timoshenko-goodier-1951": "rubber round a cavity, warm rubber",
    "plane-poiseuille": "air and liquids that creep through a gap",
    "us-standard-atmosphere-1976": "suction under the piece",
    "young-laplace": "which gaps plain water stays out of",
    "kestin-1978": "how thick water is",
    "kell-1975": "what water weighs",
    "roark-formulas": "how far bars bend",
    "wood-handbook": "what pulls a screw out",
    "hicks-2002": "what a screw bears sideways",
}
"""Published equations by their source, and what they were used for."""
CHEMISTRY = {"lewis-1997": "what stops rubber that cures by platinum"}
"""Published chemistry by its source, and what it was used for."""


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
    judged = contact_of(look.job, look.mold.choices.rubber)
    of_contact = {cell.source for one in judged.judged for cell in one.cells if cell.source in CHEMISTRY}
    return listed(_numbers(look), {**MODELS, **{source: CHEMISTRY[source] for source in sorted(of_contact)}})


def _numbers(look: MoldLook) -> Iterator[tuple[str, Sourced]]:
    for record in (look.casting, look.mold.choices.rubber, look.mold.choices.board):
        yield from numbers_of(record)
    judged = contact_of(look.job, look.mold.choices.rubber)
    for coat in filter(None, (judged.sealer, judged.release)):
        yield from numbers_of(coat, f"{coat.name} ")
    core = look.materials.core[FOAM] if look.hollow is None else look.hollow.material
    yield from numbers_of(core, "core ")
    for work in (RUBBER_TIME, RUBBER_WORK):
        yield from ((f"rubber {name}", number) for name, number in work.items())
    yield from ((f"way out {name}".replace("_", " "), number) for name, number in WAY_OUT.items())
    if look.inserts:
        yield from ((f"insert {name}".replace("_", " "), number) for name, number in INSERTS.items())
    yield from ((f"hollow {name}".replace("_", " "), number) for name, number in HOLLOW.items())
    yield from ((f"box {name}".replace("_", " "), number) for name, number in BOX.items())
    yield from ((f"air {name}".replace("_", " "), number) for name, number in AIR.items())
    yield from ((f"seams {name}".replace("_", " "), number) for name, number in SEAMS.items())
    for table in (HOLD, SCREWS):
        yield from ((f"hold {name}".replace("_", " "), number) for name, number in table.items())
    yield from ((f"mold {name}".replace("_", " "), number) for name, number in DEFAULTS.items())
    if look.mold.blocks:
        yield from ((f"space block {name}".replace("_", " "), number) for name, number in BLOCKS.items())
    for table in (WORK, WAITS, AMOUNTS, LIMITS, LIFE):
        yield from ((f"ways {name}".replace("_", " "), number) for name, number in table.items())
