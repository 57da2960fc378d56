"""The master from boards."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.contact import contact_of, layers_words
from pourwright.app.cutting.look import CutLook
from pourwright.foundation.notation import format_area, format_volume
from pourwright.jobs.cut_sheet import CutMaster
from pourwright.mold.wood.master import MasterLayer, MasterWood
from pourwright.mold.wood.master_coats import Sealing
from pourwright.mold.wood.master_words import glue_words, remarks

STACKED = "It can be sawn to its shape: the boards' faces and sawn edges are the surface."
SLICED = (
    "It is sawn in slices, each large enough for all of its thickness, then sanded to the inner edges of the "
    "steps."
)


def master_of(look: CutLook) -> CutMaster | None:
    """Tell how the master is glued up from boards.

    Parameters
    ----------
    look : CutLook
        With its master.

    Returns
    -------
    CutMaster or None
        None for a master that is there already.
    """
    wood = look.master
    if wood is None:
        return None
    worst = max(wood.layers, key=lambda layer: layer.sand)
    return CutMaster(
        kind=wood.kind,
        board=wood.board.name,
        board_m=wood.board.thickness.value,
        layers_m=[(layer.low, layer.high) for layer in wood.layers],
        sand_m=worst.sand,
        sand_layer=_marks(worst) if worst.sand else "",
        glue_m2=wood.glued,
        mass_kg=wood.solid_mass,
        sawn_kg=wood.mass,
        seal_m2=wood.sealing.area,
        sealed=_sealed(look, wood.sealing),
        words=list(_words(look, wood)),
        warnings=list(remarks(wood, look.mold.system)),
    )


def _marks(layer: MasterLayer) -> str:
    return " and ".join(part.mark for part in layer.parts)


def _sealed(look: CutLook, sealing: Sealing) -> str:
    judged = contact_of(look.mold.job, look.mold.mold.choices.rubber).master
    coats = layers_words(judged.layers)
    if sealing.coat is None:
        return f"{coats}: {judged.verdict}"
    amount = format_volume(sealing.amount, look.mold.system)
    return f"{coats}, {sealing.coat.coats} coats, about {amount} in all: {judged.verdict}"


def _words(look: CutLook, wood: MasterWood) -> Iterator[str]:
    if wood.kind == "stacked":
        yield STACKED
        yield from glue_words(wood, look.mold.system)
    else:
        yield SLICED
        if lines := len(wood.joints):
            count, glue = f"{lines} glue line{'s' * (lines > 1)}", format_area(wood.glued, look.mold.system)
            yield f"Glue them in the order of their numbers, from below: {count}, {glue}."
