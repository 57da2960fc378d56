"""What is fitted: some fifteen numbers of a resin, each with the words of the shop for it."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.errors import UserError
from pourwright.foundation.sources import Kind, Sourced
from pourwright.physics.constants import GAS_CONSTANT
from pourwright.physics.cure_law import CureLaw

Array = NDArray[np.float64]
REFERENCE = 296.15
"""Temperature at which the speed of a resin is told [K]."""
NORMAL_P90 = 1.2815515655446004
"""Standard deviations from the middle to the 90th percentile."""


@dataclass(frozen=True, slots=True)
class Scale:
    """How a number is stretched so that its band is as wide on both sides."""

    there: Callable[[float], float]
    back: Callable[[float], float]


_PLAIN = Scale(float, float)
_LOG = Scale(math.log, math.exp)
_SCALES: Mapping[str, Scale] = MappingProxyType({"plain": _PLAIN, "log": _LOG})


@dataclass(frozen=True, slots=True)
class Parameter:
    """One fitted number.

    Parameters
    ----------
    name : str
        Key in the data file.
    scale : str
        "plain" or "log".
    words : str
        What it is, in the words of the shop.
    """

    name: str
    scale: str
    words: str


PARAMETERS: tuple[Parameter, ...] = (
    Parameter("speed", "log", "how fast it cures at 23 °C"),
    Parameter("start_share", "log", "how slowly it begins before it speeds itself up"),
    Parameter("activation_energy", "plain", "how much faster it cures when warmer"),
    Parameter("energy_gap", "plain", "how much more warmth counts at the very beginning"),
    Parameter("order_m", "log", "how strongly it speeds itself up"),
    Parameter("order_n", "log", "how it slows down towards the end"),
    Parameter("heat_of_reaction", "log", "how much heat it gives off"),
    Parameter("glass_transition_full", "plain", "the heat it stands when fully cured"),
    Parameter("glass_transition_start", "plain", "how stiff the fresh mix is"),
    Parameter("glass_transition_lambda", "log", "how its hardness follows its cure"),
    Parameter("diffusion_offset", "plain", "where its cure stalls in a cool shop"),
    Parameter("gel_conversion", "log", "how far it has cured when it gels"),
    Parameter("heat_capacity", "log", "how much heat warms it by a degree"),
    Parameter("conductivity", "log", "how well it conducts heat"),
    Parameter("film", "log", "how fast the tested cup or casting loses its heat"),
)
NAMES = tuple(parameter.name for parameter in PARAMETERS)
FILM = "film"
"""Not the resin's own: a cup and a mold lose their heat in different ways."""
PLACE: Mapping[str, int] = MappingProxyType({name: i for i, name in enumerate(NAMES)})


@dataclass(frozen=True, slots=True)
class Resin:
    """A resin as the forward models take it, all SI.

    Parameters
    ----------
    law : CureLaw
        Rate of cure.
    gel : float
        Conversion at the gel point [-].
    heat_of_reaction : float
        [J/kg].
    heat_capacity : float
        [J/(kg K)].
    conductivity : float
        [W/(m K)].
    density : float
        [kg/m3].
    film : float
        Factor on every film coefficient [-].
    start_cure : float
        Conversion after mixing [-].
    """

    law: CureLaw
    gel: float
    heat_of_reaction: float
    heat_capacity: float
    conductivity: float
    density: float
    film: float = 1.0
    start_cure: float = 1e-4


@dataclass(frozen=True, eq=False)
class Prior:
    """What is known of a family before anything is measured.

    Parameters
    ----------
    family : str
        Id of the generic resin.
    hardener : str
        What it is cured with, in words.
    numbers : mapping
        Value and 80 % band of every parameter, by name.
    mean, deviation : array (n,)
        The same as normal distributions of the stretched numbers.
    """

    family: str
    hardener: str
    numbers: Mapping[str, Sourced]
    mean: Array
    deviation: Array


def stretched(name: str, value: float) -> float:
    """Turn a number into the scale it is fitted on.

    Parameters
    ----------
    name : str
        Of the parameter.
    value : float
        As measured.

    Returns
    -------
    float
        On the scale it is fitted on.
    """
    return _SCALES[PARAMETERS[PLACE[name]].scale].there(value)


def unstretched(name: str, value: float) -> float:
    """Turn a fitted number back.

    Parameters
    ----------
    name : str
        Of the parameter.
    value : float
        On the scale it is fitted on.

    Returns
    -------
    float
        In its own unit.
    """
    return _SCALES[PARAMETERS[PLACE[name]].scale].back(value)


@cache
def load_priors() -> Mapping[str, Prior]:
    """Read what is known of each family of hardeners.

    Returns
    -------
    Mapping
        Prior by the id of the generic resin.

    Examples
    --------
    >>> sorted(load_priors())
    ['epoxy-fast', 'epoxy-medium', 'epoxy-slow-deep']
    """
    text = (resources.files("pourwright") / "data" / "hardeners.toml").read_text("utf8")
    return MappingProxyType({name: _prior(name, table) for name, table in tomllib.loads(text).items()})


def find_prior(family: str, where: str = "") -> Prior:
    """Look up a family.

    Parameters
    ----------
    family : str
        Id of the generic resin.
    where : str
        Where it was named, for the error.

    Returns
    -------
    Prior

    Raises
    ------
    UserError
        Where there is none of that name.
    """
    known = load_priors()
    if family not in known:
        raise UserError(
            f"no family called '{family}'", where=where, allowed=", ".join(sorted(known)),
            todo="choose the one that is nearest",
        )  # fmt: skip
    return known[family]


def _prior(family: str, table: dict[str, object]) -> Prior:
    hardener = str(table.pop("hardener"))
    numbers = {name: _sourced(table[name]) for name in NAMES}
    mean = np.array([stretched(name, numbers[name].value) for name in NAMES])
    ends = [(numbers[name].low, numbers[name].high) for name in NAMES]
    spread = [
        stretched(name, high or 0.0) - stretched(name, low or 0.0)
        for name, (low, high) in zip(NAMES, ends, strict=True)
    ]
    return Prior(family, hardener, MappingProxyType(numbers), mean, np.array(spread) / (2.0 * NORMAL_P90))


def _sourced(raw: object) -> Sourced:
    assert isinstance(raw, dict)
    return Sourced(**(raw | {"kind": Kind(raw["kind"])}))


def resin_of(vector: Array, density: float) -> Resin:
    """Turn fitted numbers into a resin.

    Parameters
    ----------
    vector : array (n,)
        Stretched numbers in the order of `PARAMETERS`; more may follow.
    density : float
        Of the mix [kg/m3].

    Returns
    -------
    Resin
    """
    value = {name: unstretched(name, float(vector[i])) for i, name in enumerate(NAMES)}
    energy_2 = value["activation_energy"]
    energy_1 = max(energy_2 + value["energy_gap"], 1e3)
    full = max(value["glass_transition_full"], value["glass_transition_start"] + 5.0)
    law = CureLaw(
        value["speed"] * value["start_share"] * math.exp(energy_1 / (GAS_CONSTANT * REFERENCE)),
        energy_1,
        value["speed"] * math.exp(energy_2 / (GAS_CONSTANT * REFERENCE)),
        energy_2,
        value["order_m"],
        value["order_n"],
        value["glass_transition_start"],
        full,
        min(value["glass_transition_lambda"], 1.0),
        value["diffusion_offset"],
        DIFFUSION_WIDTH,
    )
    return Resin(
        law,
        min(value["gel_conversion"], 0.95),
        value["heat_of_reaction"],
        value["heat_capacity"],
        value["conductivity"],
        density,
        value["film"],
    )


DIFFUSION_WIDTH = 5.0
"""Kelvin over which the rate is lost near vitrification; too little is known to fit it [K]."""
