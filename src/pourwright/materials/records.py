"""What one buys, as typed frozen records: every number with its source.

All values are SI once loaded. A field made by :func:`quantity` names the SI unit it
carries; the loader refuses a record that gives another dimension.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from pourwright.foundation.errors import UserError
from pourwright.foundation.sources import Sourced
from pourwright.materials.solids import BOARD, GLASS, MINERAL, RUBBER, SOLID

BINDERS = ("gypsum", "cement")
"""What sets in a casting material mixed with water."""


def quantity(unit: str, default: Sourced | None = None) -> Sourced:
    """Declare a record field that carries a sourced number.

    Parameters
    ----------
    unit : str
        SI unit of the value once loaded, as written in the data files.
    default : Sourced, optional
        What holds where a record does not give it; without one the field is required.

    Returns
    -------
    Sourced
        A dataclass field, typed as the value that the loader puts there.
    """
    if default is not None:
        return field(metadata={"unit": unit}, default=default)
    return field(metadata={"unit": unit})  # type: ignore[no-any-return]  # dataclass field idiom


def if_known(unit: str) -> Sourced | None:
    """Declare a record field for a sourced number that a record may leave open.

    Parameters
    ----------
    unit : str
        SI unit of the value once loaded.

    Returns
    -------
    Sourced or None
        A dataclass field; None where the record does not say.
    """
    return field(metadata={"unit": unit}, default=None)


@dataclass(frozen=True, kw_only=True)
class CureLaw:
    """Kamal-Sourour kinetics with diffusion control and the glass transition they follow.

    rate = (A1 exp(-E1/RT) + A2 exp(-E2/RT) a^m) (1-a)^n f, with
    f = 1/(1 + exp((Tg(a) - T - offset)/width)).
    """

    frequency_1: Sourced = quantity("1/s")
    activation_energy_1: Sourced = quantity("J/mol")
    frequency_2: Sourced = quantity("1/s")
    activation_energy_2: Sourced = quantity("J/mol")
    order_m: Sourced = quantity("")
    order_n: Sourced = quantity("")
    diffusion_offset: Sourced = quantity("K difference")
    diffusion_width: Sourced = quantity("K difference")
    glass_transition_start: Sourced = quantity("K")
    glass_transition_full: Sourced = quantity("K")
    glass_transition_lambda: Sourced = quantity("")
    gel_conversion: Sourced = quantity("")
    initial_conversion: Sourced = quantity("")


@dataclass(frozen=True, kw_only=True)
class Solid:
    """What the resin is once it has gelled: soft above its glass transition, glass below it.

    Expansions are by length. A record that does not give them has the family's, with a wide band.
    """

    expansion_soft: Sourced = quantity("1/K", SOLID["expansion_soft"])
    expansion_glass: Sourced = quantity("1/K", SOLID["expansion_glass"])
    modulus: Sourced = quantity("Pa", SOLID["modulus"])
    poisson_ratio: Sourced = quantity("", SOLID["poisson_ratio"])
    strain_at_break: Sourced = quantity("", SOLID["strain_at_break"])
    strain_at_break_soft: Sourced = quantity("", SOLID["strain_at_break_soft"])


@dataclass(frozen=True, kw_only=True)
class Doubts:
    """How far a fit left the numbers of a resin open, and which of them hang together.

    Parameters
    ----------
    family : str
        Id of the generic resin whose family it was fitted within.
    names : tuple of str
        Names of the fitted numbers, as in ``pourwright/data/hardeners.toml``.
    mean : tuple of float
        Most likely values, of logarithms where the scale of a number is logarithmic.
    covariance : tuple of tuple of float
        On the same scales, one row a number.
    """

    family: str
    names: tuple[str, ...]
    mean: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]


@dataclass(frozen=True, kw_only=True)
class Resin:
    """A two-part casting resin as mixed, with its cure.

    ``doubts`` are the shop's own, of a fit; without them those of the family hold. ``solid`` is what a
    generic casting epoxy has where the record does not say it.
    """

    id: str
    name: str
    family: str
    parts_a: Sourced = quantity("")
    parts_b: Sourced = quantity("")
    density: Sourced = quantity("kg/m3")
    density_a: Sourced = quantity("kg/m3")
    density_b: Sourced = quantity("kg/m3")
    heat_capacity: Sourced = quantity("J/(kg K)")
    conductivity: Sourced = quantity("W/(m K)")
    heat_of_reaction: Sourced = quantity("J/kg")
    viscosity: Sourced = quantity("Pa s")
    film_gel_time: Sourced = quantity("s")
    pot_life: Sourced = quantity("s")
    cure_shrinkage: Sourced = quantity("")
    peak_limit: Sourced = quantity("K")
    bond_margin: Sourced = quantity("K difference")
    demold_margin: Sourced = quantity("K difference")
    cure: CureLaw
    solid: Solid = Solid()
    doubts: Doubts | None = None


@dataclass(frozen=True, kw_only=True)
class Rubber:
    """A two-part mold rubber."""

    id: str
    name: str
    cure_kind: str
    parts_a: Sourced = quantity("")
    parts_b: Sourced = quantity("")
    density: Sourced = quantity("kg/m3")
    density_a: Sourced | None = if_known("kg/m3")
    density_b: Sourced | None = if_known("kg/m3")
    heat_capacity: Sourced = quantity("J/(kg K)")
    conductivity: Sourced = quantity("W/(m K)")
    viscosity: Sourced = quantity("Pa s")
    hardness_shore_a: Sourced = quantity("")
    elongation_at_break: Sourced = quantity("")
    tensile_strength: Sourced = quantity("Pa", RUBBER["tensile_strength"])
    tear_strength: Sourced = quantity("N/m", RUBBER["tear_strength"])
    bulk_modulus: Sourced = quantity("Pa", RUBBER["bulk_modulus"])
    linear_shrinkage: Sourced = quantity("")
    expansion: Sourced = quantity("1/K", RUBBER["expansion"])
    working_time: Sourced = quantity("s")
    demold_time: Sourced = quantity("s")
    peak_limit: Sourced = quantity("K")


@dataclass(frozen=True, kw_only=True)
class Grade:
    """One grade of crushed glass: what passes the upper sieve and stays on the lower."""

    id: str
    name: str
    sieve_from: Sourced = quantity("m")
    sieve_to: Sourced = quantity("m")
    void_fraction: Sourced = quantity("")
    crush_yield: Sourced = quantity("")


@dataclass(frozen=True, kw_only=True)
class Glass:
    """Crushed glass as a substance, with its grades."""

    id: str
    name: str
    density: Sourced = quantity("kg/m3")
    heat_capacity: Sourced = quantity("J/(kg K)")
    conductivity: Sourced = quantity("W/(m K)")
    bottle_mass: Sourced = quantity("kg")
    expansion: Sourced = quantity("1/K", GLASS["expansion"])
    modulus: Sourced = quantity("Pa", GLASS["modulus"])
    poisson_ratio: Sourced = quantity("", GLASS["poisson_ratio"])
    grades: tuple[Grade, ...]

    def grade(self, name: str, where: str = "") -> Grade:
        """Return the grade called ``name``.

        Parameters
        ----------
        name : str
            Id of the grade.
        where : str
            File and line to print when it is unknown.

        Raises
        ------
        UserError
            Where there is no such grade; it lists those that there are.
        """
        known = {grade.id: grade for grade in self.grades}
        if name not in known:
            raise UserError(
                f"no grade called '{name}'",
                where=where,
                allowed=", ".join(known),
                todo="choose one of these, or add the grade to the shop's glass record",
            )
        return known[name]


@dataclass(frozen=True, kw_only=True)
class Board:
    """A sheet or board for master and mold box."""

    id: str
    name: str
    density: Sourced = quantity("kg/m3")
    heat_capacity: Sourced = quantity("J/(kg K)")
    conductivity: Sourced = quantity("W/(m K)")
    thickness: Sourced = quantity("m")
    emissivity: Sourced = quantity("")
    bending_modulus: Sourced = quantity("Pa", BOARD["bending_modulus"])
    bending_strength: Sourced = quantity("Pa", BOARD["bending_strength"])
    creep_factor: Sourced = quantity("", BOARD["creep_factor"])
    sheet_length: Sourced = quantity("m", BOARD["sheet_length"])
    sheet_width: Sourced = quantity("m", BOARD["sheet_width"])
    solid_wood: bool = False


@dataclass(frozen=True, kw_only=True)
class Mineral:
    """A casting material mixed with water: gypsum or concrete.

    ``binder`` is what sets in it, gypsum or cement; without it nothing is known of its heat and times.
    ``binder_share`` is the binder's share of the dry powder, the rest is sand. Times count from when powder
    meets water at 20 degC; ``half_heat_time`` is when half of the heat that ever comes is out.
    """

    id: str
    name: str
    binder: str = ""
    binder_share: Sourced | None = if_known("")
    setting_heat: Sourced | None = if_known("J/kg")
    working_time: Sourced | None = if_known("s")
    setting_time: Sourced | None = if_known("s")
    half_heat_time: Sourced | None = if_known("s")
    demold_time: Sourced | None = if_known("s")
    water_ratio: Sourced = quantity("")
    wet_density: Sourced = quantity("kg/m3")
    density: Sourced = quantity("kg/m3")
    heat_capacity: Sourced = quantity("J/(kg K)")
    conductivity: Sourced = quantity("W/(m K)")
    setting_shrinkage: Sourced = quantity("", MINERAL["setting_shrinkage"])

    def __post_init__(self) -> None:
        if self.binder not in ("", *BINDERS):
            raise UserError(
                f"no binder called '{self.binder}'",
                where=f"{self.id}.binder",
                allowed=", ".join(BINDERS),
                todo="write what sets in it, or leave it out",
            )


@dataclass(frozen=True, kw_only=True)
class Core:
    """What the core of a hollow piece is made of; `preparing` and `coming_out` say how it is worked."""

    id: str
    name: str
    density: Sourced = quantity("kg/m3")
    heat_capacity: Sourced = quantity("J/(kg K)")
    conductivity: Sourced = quantity("W/(m K)")
    peak_limit: Sourced = quantity("K")
    preparing: str
    coming_out: str = ""


@dataclass(frozen=True, kw_only=True)
class Gas:
    """A still gas, for cells that hold nothing."""

    id: str
    name: str
    density: Sourced = quantity("kg/m3")
    heat_capacity: Sourced = quantity("J/(kg K)")
    conductivity: Sourced = quantity("W/(m K)")
