"""What is said of a master from boards in words."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.foundation.notation import UnitSystem, format_area, format_length, format_mass
from pourwright.mold.wood.master import MasterLayer, MasterWood

THINNEST = 0.003
"""Thinnest that a board is planed to by hand feed [m]; common practice, no source."""
_FACES = {"x": ("left", "right"), "y": ("front", "back"), "z": ("lower", "upper")}


def glue_words(wood: MasterWood, system: UnitSystem) -> tuple[str, ...]:
    """Say which face is glued on which.

    Parameters
    ----------
    wood : MasterWood
        The master.
    system : UnitSystem
        Which units to write.

    Returns
    -------
    tuple of str
        One for each joint, in the order of the work.
    """
    under, over = _FACES[wood.axis]
    return tuple(
        f"{joint.above}, {under} face, on the {over} face of {joint.below}: {format_area(joint.area, system)}"
        for joint in wood.joints
    )


def remarks(wood: MasterWood, system: UnitSystem) -> Iterator[str]:
    """Say what is to be minded: thin layers, steps to sand, boards too small, weight.

    Parameters
    ----------
    wood : MasterWood
        The master.
    system : UnitSystem
        Which units to write.

    Yields
    ------
    str
    """
    for layer in wood.layers:
        if layer.planed:
            yield _planed(layer, wood, system)
    if wood.kind == "sliced":
        worst = max(wood.layers, key=lambda layer: layer.sand)
        yield (
            f"Sand the steps down to the shape: {format_length(worst.sand, system)} at most, "
            f"at {_names(worst)}; sawn it weighs {format_mass(wood.mass, system)}, sanded "
            f"{format_mass(wood.solid_mass, system)}."
        )
    yield from _large(wood)


def _planed(layer: MasterLayer, wood: MasterWood, system: UnitSystem) -> str:
    rest = format_length(layer.high - layer.low, system, digits=1)
    board = format_length(wood.board.thickness.value, system)
    if layer.high - layer.low < THINNEST:
        return (
            f"{_names(layer)}: only {rest} are left; glue a whole board of {board} on and plane it down "
            "on the stack, for so thin a board breaks in the planer."
        )
    return f"{_names(layer)}: take a board of {rest}, or plane one of {board} down to {rest}."


def _large(wood: MasterWood) -> Iterator[str]:
    """Name parts that no sheet holds."""
    longer, shorter = sorted((wood.board.sheet_length.value, wood.board.sheet_width.value), reverse=True)
    for part in wood.parts:
        if max(part.sawn) > longer or min(part.sawn) > shorter:
            yield f"{part.mark} is larger than a sheet: glue it from boards edge to edge, seams set off."


def _names(layer: MasterLayer) -> str:
    return " and ".join(part.mark for part in layer.parts)
