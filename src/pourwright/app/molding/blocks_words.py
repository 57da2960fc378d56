"""What is said of the space blocks of a job in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from pourwright.app.contact import contact_of, layers_words
from pourwright.app.molding.look import MoldLook
from pourwright.foundation.notation import format_duration, format_length, format_share, format_volume
from pourwright.materials.contact import load_contact
from pourwright.mold.choices import MoldChoices
from pourwright.mold.sticking import Judgement, better, default_release, default_sealer, judge

DUST = (
    "Sawing boards makes fine dust, and some boards give off formaldehyde: take the dust off at the saw, "
    "wear the mask that the board's data sheet asks for, and push short pieces with a stick, never by hand."
)
LITTLE = 1e-9


def coats_words(look: MoldLook) -> str:
    """Say what the blocks are coated with, and whether the rubber lets go of them.

    Parameters
    ----------
    look : MoldLook
        The mold.

    Returns
    -------
    str
    """
    judged, table = wood_contact(look), load_contact()
    coats = layers_words(judged.layers)
    sealer = table.sealer.get(judged.layers.sealer)
    times = "" if sealer is None or not sealer.coats else f", {sealer.coats} coats of sealer"
    dry = "" if not times or sealer is None else f", {format_duration(sealer.days.value)} to dry"
    found = better(judged.layers) if judged.verdict != "fine" else None
    mend = "" if found is None else f"; better: {layers_words(found.layers)}"
    return f"{coats}{times}{dry}: {judged.verdict}{mend}"


def wood_contact(look: MoldLook) -> Judgement:
    """Judge curing rubber on the wood of the blocks.

    Parameters
    ----------
    look : MoldLook
        The mold.

    Returns
    -------
    Judgement
        With the master's own sealer and release; what its board needs where the master has none.
    """
    master = contact_of(look.job, look.mold.choices.rubber).master.layers
    board = look.mold.choices.block_board.id
    sealer = master.sealer if master.sealer != "none" else default_sealer(board)
    release = master.release if master.release != "none" else default_release(board)
    return judge(replace(master, surface=board, sealer=sealer, release=release))


def worth_words(choices: MoldChoices) -> str:
    """Say why a block must displace so much.

    Parameters
    ----------
    choices : MoldChoices
        Prices and time.

    Returns
    -------
    str
    """
    asked = choices.blocks
    if not asked.hour_price or not asked.rubber_price:
        return "common practice: the job does not price both rubber and an hour of work"
    return f"rubber for what {format_duration(asked.sawing_time)} of sawing cost"


def words(look: MoldLook, bound: float) -> Iterator[str]:
    """Say what was reached, or why nothing was.

    Parameters
    ----------
    look : MoldLook
        The mold.
    bound : float
        More than any arrangement holds [m3].

    Yields
    ------
    str
    """
    mold, choices = look.mold, look.mold.choices
    if not mold.blocks:
        yield _nothing(look, bound)
        return
    volume, most, count = mold.pour.wood, choices.blocks.most, len(mold.blocks)
    blocks = "1 block" if count == 1 else f"{count} blocks"
    yield (
        f"No arrangement of {blocks} can hold more than {format_volume(bound, look.system)}; these hold "
        f"{format_share(volume / bound)} of it."
    )
    if count == most:
        yield f"mold.most_blocks = {most} ends the list: a larger number saves more rubber for more sawing."


def _nothing(look: MoldLook, bound: float) -> str:
    choices, system = look.mold.choices, look.system
    wall, least = format_length(choices.wall, system), format_length(choices.blocks.least, system)
    if bound < LITTLE:
        return (
            f"No space block fits: with {wall} of rubber around the piece no room at a panel takes a block "
            f"of {least} on each side. A smaller mold.least_block or a thinner mold.wall may make room."
        )
    worth = choices.blocks.worth(choices.rubber.density.value)
    return (
        f"No space block is worth its sawing: none that fits displaces {format_volume(worth, system)} of "
        f"rubber ({worth_words(choices)})."
    )


def cautions(look: MoldLook) -> Iterator[str]:
    """Say what to take care of.

    Parameters
    ----------
    look : MoldLook
        The mold.

    Yields
    ------
    str
    """
    if not look.mold.blocks:
        return
    yield DUST
    judged = wood_contact(look)
    master = contact_of(look.job, look.mold.choices.rubber).master
    if judged.verdict not in ("fine", master.verdict):
        yield f"Rubber on the space blocks, {layers_words(judged.layers)}: {judged.verdict}."
