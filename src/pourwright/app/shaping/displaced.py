"""A thing measured by the water it displaces."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot, pi, sqrt

import numpy as np

from pourwright.app.shaping.shaped import Shaped, SizeDoubt
from pourwright.app.shaping.size_words import band_words
from pourwright.app.shaping.tape_defaults import TAPE
from pourwright.app.shaping.tape_doubt import ONE_IN_TEN
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_volume
from pourwright.foundation.quantities import Dimension, Quantity
from pourwright.geometry import refuse_faults
from pourwright.geometry.taped.superbody import body_of_volume, form_range
from pourwright.jobs.job import Job
from pourwright.jobs.shape_measured import Displaced
from pourwright.physics.water import water_density

BLUNT = {
    "rounded": "rounded all over",
    "domed": "a dome on a flat base",
    "standing": "standing on a flat base with a flat top",
}
SOAKED = (
    "What drinks water, bare wood, stone, plaster or unglazed clay, must be sealed or wrapped in thin film "
    "before it goes in, or it reads too small; what floats is pushed under with a thin wire, not by hand."
)


def displaced_volume(displaced: Displaced) -> tuple[float, float]:
    """Volume of the water, and how far it may be off.

    Parameters
    ----------
    displaced : Displaced
        Of the job.

    Returns
    -------
    tuple of float
        Volume and its standard deviation [m3].
    """
    if displaced.water is not None:
        volume = _volume(displaced.water, displaced.warmth)
        usual = max(TAPE["scale"].value * volume, TAPE["least_water"].value)
        reading = displaced.reading
        return volume, usual if reading is None else _volume(reading, displaced.warmth) / 2
    assert displaced.rise is not None
    area, side_error = _tub(displaced)
    level = TAPE["level"].value if displaced.reading is None else displaced.reading.si
    volume = area * displaced.rise.si
    # the level is read twice, before and after
    return volume, hypot(area * level / 2 * sqrt(2), volume * side_error)


def _volume(quantity: Quantity, warmth: float) -> float:
    if quantity.dimension is Dimension.MASS:
        return float(quantity.si / water_density(warmth))
    return quantity.si


def _tub(displaced: Displaced) -> tuple[float, float]:
    """Area of the tub, and the share it may be off."""
    error = TAPE["reading"].value / 2
    if displaced.tub is not None:
        length, width = (side.si for side in displaced.tub)
        return length * width, hypot(error / length, error / width)
    assert displaced.tub_diameter is not None
    across = displaced.tub_diameter.si
    return pi / 4 * across**2, 2 * error / across


def sunk(job: Job) -> Shaped:
    """Make the body of a job that was measured by the water it displaces.

    Parameters
    ----------
    job : Job
        With ``[shape.displaced]``.

    Returns
    -------
    Shaped
        Exactly as much as the water, within the outer sizes.

    Raises
    ------
    UserError
        Where no body of that form and size displaces so much, with the line and the range.
    """
    displaced, system = job.shape.displaced, UnitSystem(job.units)
    assert displaced is not None
    assert displaced.size is not None
    assert displaced.form is not None
    size = np.array([side.si for side in displaced.size])
    volume, deviation = displaced_volume(displaced)
    _refuse_misfit(job, displaced.form, size, volume)
    mesh = body_of_volume(displaced.form, size, volume)
    refuse_faults(mesh, "displaced", "in" if system is UnitSystem.US else "mm")
    low, high = volume - ONE_IN_TEN * deviation, min(volume + ONE_IN_TEN * deviation, float(np.prod(size)))
    doubt = SizeDoubt(low, high, "how well the water was caught, weighed or read")
    return Shaped("displaced", mesh, tuple(_told(displaced.form, volume, doubt, system)), doubt=doubt)


def _refuse_misfit(job: Job, form: str, size: np.ndarray, volume: float) -> None:
    system, displaced = UnitSystem(job.units), job.shape.displaced
    key = "rise" if displaced is None or displaced.water is None else "water"
    where = job.where(f"shape.displaced.{key}")
    box, came = float(np.prod(size)), format_volume(volume, system)
    if volume > box:
        what = (
            f"{came} of water is more than the box of these outer sizes holds, {format_volume(box, system)}"
        )
        raise UserError(
            what, where=where, allowed="less than that", todo="measure the size and the water again"
        )
    least, most = form_range(form, size)
    if not least <= volume <= most:
        low, high = (format_volume(each, system) for each in (least, most))
        todo = _other_form(form, size, volume)
        what = f"{came} of water does not fit a body of these sizes that is {BLUNT[form]}"
        raise UserError(what, where=where, allowed=f"{low} to {high}", todo=todo)


def _other_form(form: str, size: np.ndarray, volume: float) -> str:
    for other in BLUNT:
        least, most = form_range(other, size)
        if other != form and least <= volume <= most:
            return f'check sizes and water, or write form = "{other}"'
    return "measure it with a tape: a thing this lean or hollow needs girths by height"


def _told(form: str, volume: float, doubt: SizeDoubt, system: UnitSystem) -> Iterator[str]:
    yield (
        f"Measured by the water it displaces: {format_volume(volume, system)}, "
        f"{band_words(doubt.low, doubt.high, system)}."
    )
    yield (
        f"Its form is a guess, {BLUNT[form]} within the outer sizes: how much it holds is known, "
        "how high each pour reaches is not. Girths by height tell more; or fill the mold with water, "
        "a litre at a time, and mark each level."
    )
    yield SOAKED
