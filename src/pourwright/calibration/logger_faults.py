"""What a logger's readings cannot be, if the cup was what the maker says: each fault in one sentence."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from pourwright.calibration.logger import LEAST_ROWS, Reading, kelvin
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import ZERO_CELSIUS, format_duration

Array = NDArray[np.float64]
COLDEST, HOTTEST = ZERO_CELSIUS - 20.0, ZERO_CELSIUS + 350.0
"""Beyond this no cup of resin is: the sensor is broken [K]."""
FALL, FALL_WITHIN = 12.0, 60.0
"""A drop of so many kelvin within so many seconds is no cooling cup."""
STAYS_OUT = 5
JUMP = 5 * 86400.0
STRANGE = 25.0
"""Fresh mix and shop do not differ by more [K]."""


def in_kelvin(reading: Reading, unit: str | None, room: float | None, start: float | None) -> Reading:
    """Give a reading in kelvin, once everything in it can be true.

    Parameters
    ----------
    reading : Reading
        As the file has it.
    unit : str or None
        "degC" or "degF", where the maker says it.
    room : float or None
        The shop's temperature, where the maker says it [K].
    start : float or None
        Of the fresh mix, where the maker says it [K].

    Returns
    -------
    Reading
        In kelvin.

    Raises
    ------
    UserError
        For a unit that is not told or cannot be right, a sensor that fell out, a clock that jumps.
    """
    unit = _settled_unit(reading, unit)
    cup = kelvin(reading.cup, unit)
    air = None if reading.air is None else kelvin(reading.air, unit)
    _refuse_clock(reading)
    _refuse_gaps(reading)
    _refuse_wrong_unit(reading, unit, cup, room, start)
    _refuse_broken(reading, cup)
    _refuse_fallen(reading, cup)
    if air is not None:
        _refuse_broken(reading, air)
    return Reading(reading.file, reading.time, cup, air, reading.line, "K")


def _settled_unit(reading: Reading, told: str | None) -> str:
    if told is None and reading.unit is None:
        raise UserError(
            "the file does not say whether its temperatures are in °C or °F", where=reading.where(0),
            allowed="degC, degF", todo='say it: unit = "degC"',
        )  # fmt: skip
    if told and reading.unit and told != reading.unit:
        raise UserError(
            f"the file says {reading.unit}, you say {told}",
            where=reading.where(0),
            todo="leave unit out, or mend the title",
        )
    return told or reading.unit or ""


def _refuse_clock(reading: Reading) -> None:
    steps = np.diff(reading.time)
    if steps.max() > JUMP:
        at = int(steps.argmax()) + 1
        raise UserError(
            f"the clock jumps ahead by {format_duration(float(steps[at - 1]))}: two runs, "
            "or a clock that was set",
            where=reading.where(at), todo="keep the rows of one run",
        )  # fmt: skip
    if reading.time[-1] <= 0:
        raise UserError(
            "all readings carry the same time", where=reading.where(0), todo="export it with times"
        )


def _refuse_wrong_unit(
    reading: Reading, unit: str, cup: Array, room: float | None, start: float | None
) -> None:
    """Notice degF taken for degC, and the reverse, by what the fresh mix would have been."""
    if start is not None:
        return
    seen = cup[np.isfinite(cup)][:LOOKED_AT]
    fresh = float(np.median(seen))
    shop = TEMPERATE if room is None else room
    other = "degC" if unit == "degF" else "degF"
    factor, offset = _back(unit)
    swapped = float(kelvin(np.array([(fresh - offset) / factor]), other)[0])
    if abs(fresh - shop) > STRANGE > abs(swapped - shop):
        said = (fresh - offset) / factor
        raise UserError(
            f"the mix begins at {said:.0f} {unit}, which is {fresh - ZERO_CELSIUS:.0f} °C; "
            f"the same number in {other} is {swapped - ZERO_CELSIUS:.0f} °C",
            where=reading.where(0), allowed="degC, degF",
            todo=f'if it is in {other}, write unit = "{other}" and mend the title; if the mix was so, '
            "state its start",
        )  # fmt: skip


LOOKED_AT = 5
TEMPERATE = ZERO_CELSIUS + 20.0


def _back(unit: str) -> tuple[float, float]:
    zero, hundred = kelvin(np.array([0.0, 100.0]), unit)
    return float(hundred - zero) / 100.0, float(zero)


def _refuse_gaps(reading: Reading) -> None:
    if np.isfinite(reading.cup).sum() < LEAST_ROWS:
        raise UserError(
            "holds hardly anything but gaps",
            where=reading.where(0),
            todo="look at the sensor's plug, test again",
        )


def _refuse_broken(reading: Reading, values: Array) -> None:
    with np.errstate(invalid="ignore"):
        bad = np.flatnonzero((values < COLDEST) | (values > HOTTEST))
    if bad.size:
        raise UserError(
            f"{values[bad[0]] - ZERO_CELSIUS:.0f} °C: the sensor is broken or not plugged in",
            where=reading.where(int(bad[0])), todo="remove such rows; where they are many, test again",
        )  # fmt: skip


def _refuse_fallen(reading: Reading, cup: Array) -> None:
    """A sensor that fell out of the cup drops at once to the air's temperature and stays there."""
    keep = np.flatnonzero(np.isfinite(cup))
    values, time = cup[keep], reading.time[keep]
    drop, within = -np.diff(values), np.diff(time)
    for at in np.flatnonzero((drop > FALL) & (within <= max(FALL_WITHIN, 2 * float(np.median(within))))):
        after = values[at + 1 : at + 1 + STAYS_OUT]
        if after.max() < values[at] - FALL / 2:
            raise UserError(
                f"falls by {drop[at]:.0f} K from one reading to the next: the sensor fell out of the cup",
                where=reading.where(int(keep[at + 1])),
                todo="keep the rows before it: set until to the time since the first row, or test again",
            )  # fmt: skip
