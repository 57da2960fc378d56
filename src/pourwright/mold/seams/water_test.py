"""A finished mold filled with measured water: its marks, and how fast the level may fall."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf

import numpy as np

from pourwright.geometry.levels import LevelVolume
from pourwright.mold.seams.defaults import SEAMS
from pourwright.mold.seams.joint import Joint
from pourwright.mold.seams.liquid import thawed
from pourwright.physics.capillarity import gap_held_shut
from pourwright.physics.constants import STANDARD_GRAVITY
from pourwright.physics.gap_flow import gap_leak
from pourwright.physics.water import water_density, water_viscosity

STEPS = (0.05, 0.1, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
"""Marks by this share of a litre or a quart."""
LEVELS = 96
"""Steps of a falling level."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One mark: water in the cavity [m3], its level above the floor [m], area of the level [m2]."""

    volume: float
    height: float
    area: float


@dataclass(frozen=True, slots=True)
class Fall:
    """What a full mold loses in a time [s]: volume [m3], and how far its level falls [m]."""

    time: float
    volume: float
    drop: float


def mark_step(volume: float, unit: float) -> float:
    """Choose how much water lies between two marks.

    Parameters
    ----------
    volume : float
        Of the cavity [m3].
    unit : float
        A litre or a quart [m3].

    Returns
    -------
    float
        One unit where that makes 4 to some 24 marks; else a smaller or larger round share of it [m3].

    Examples
    --------
    >>> [round(1000 * mark_step(volume, 0.001), 3) for volume in (0.0182, 0.0008, 0.11)]
    [1.0, 0.1, 5.0]
    """
    most = SEAMS["marks"].value
    if 4 * unit <= volume <= most * unit:
        return unit
    wanted = most if volume > most * unit else most / 3
    return next((share * unit for share in STEPS if volume <= wanted * share * unit), STEPS[-1] * unit)


def marks(levels: LevelVolume, step: float) -> tuple[Mark, ...]:
    """Say where the water stands, step by step, and when it is full.

    Parameters
    ----------
    levels : LevelVolume
        V(z) of the cavity.
    step : float
        Water between two marks [m3].

    Returns
    -------
    tuple of Mark
        From below; the last is the full cavity.

    Examples
    --------
    >>> from pourwright.geometry import box, level_volume
    >>> [round(mark.height, 6) for mark in marks(level_volume(box([0.1, 0.1, 0.25])), 0.001)]
    [0.1, 0.2, 0.25]
    """
    full = levels.total
    count = int(np.floor(full / step * (1 + 1e-12)))
    volumes = [step * number for number in range(1, count + 1) if step * number < full * (1 - 1e-3)]
    return tuple(_mark(levels, volume) for volume in (*volumes, full))


def _mark(levels: LevelVolume, volume: float) -> Mark:
    height = float(levels.height(min(volume, levels.total)))
    return Mark(volume, height - levels.bottom, float(levels.area(height, below=True)))


def fall(levels: LevelVolume, joints: Sequence[Joint], gap: float, temperature: float, time: float) -> Fall:
    """Let a full mold stand.

    Parameters
    ----------
    levels : LevelVolume
        V(z) of the cavity.
    joints : sequence of Joint
        That water reaches.
    gap : float
        Alike in all of them [m].
    temperature : float
        Of the water [K].
    time : float
        How long [s].

    Returns
    -------
    Fall
        Under the head that is left as the level falls.

    Notes
    -----
    dV/dt = -Q(z), as time = integral of dV / Q from the mouth down. No inertia in the gap: water in a wide
    short gap runs slower than this.
    """
    if not joints or gap <= 0.0 or gap == inf:
        return Fall(time, 0.0, 0.0)
    lowest = min(strip.low for joint in joints for strip in joint.strips)
    heights = np.linspace(levels.top - levels.bottom, lowest, LEVELS + 1)[:-1]
    volumes = np.array([levels.volume(levels.bottom + z) for z in heights.tolist()])
    flows = np.array([_flow(joints, z, gap, temperature) for z in heights.tolist()])
    spent = np.concatenate([[0.0], np.cumsum(-np.diff(volumes) * (1 / flows[1:] + 1 / flows[:-1]) / 2)])
    lost = float(np.interp(time, spent, volumes[0] - volumes))
    left = levels.height(float(volumes[0] - lost)) - levels.bottom
    return Fall(time, lost, float(heights[0] - left))


def _flow(joints: Sequence[Joint], level: float, gap: float, temperature: float) -> float:
    """Water through all joints at one level [m3/s]."""
    drive = sum(replace(joint, level=level).drive() for joint in joints)
    weight = water_density(thawed(temperature)) * STANDARD_GRAVITY * drive
    return float(gap_leak(gap, 1.0, weight, 1.0 / water_viscosity(thawed(temperature))))


def held_shut(depth: float, *, soapy: bool = False) -> float:
    """Widest gap in silicone that water stays out of.

    Parameters
    ----------
    depth : float
        Below the water's level [m].
    soapy : bool
        With a drop of washing-up liquid in it.

    Returns
    -------
    float
        [m]; 0 for soapy water, which goes in everywhere as resin does.

    Examples
    --------
    >>> print(f"{1e6 * held_shut(0.1):.0f} um, {1e6 * held_shut(0.4):.0f} um")
    43 um, 11 um
    >>> held_shut(0.1, soapy=True)
    0.0
    """
    which = "soapy" if soapy else "water"
    pressure = 1000.0 * STANDARD_GRAVITY * depth
    return gap_held_shut(SEAMS[f"{which}_tension"].value, SEAMS[f"{which}_angle"].value, pressure)
