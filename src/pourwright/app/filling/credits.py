"""Which sources a fill used, found by looking at every number it was made from."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.document.credits import listed, numbers_of
from pourwright.app.filling.bottle_words import PLAIN_DUST
from pourwright.app.filling.look import FillLook
from pourwright.fill import DEFAULTS
from pourwright.fill.bottles.defaults import BOTTLES, DRYING, KINDS
from pourwright.fill.cube import CUBE
from pourwright.fill.mineral_defaults import DUST, MINERALS
from pourwright.fill.mixing import AMINES, MIXING
from pourwright.fill.shrinking import FINISH
from pourwright.fill.ways.defaults import WAYS
from pourwright.foundation.sources import Sourced
from pourwright.jobs.plan import SourceUsed
from pourwright.pour.defaults import DEFAULTS as POUR

RESIN_MODELS = {
    "de-larrard-1999": "how closely mixed grades lie, how loosely along walls",
    "green-ampt-1911": "how a front runs down through dry glass",
    "carman-1937": "how easily resin runs through glass",
    "carman-1941": "how wide the pores are",
    "jurin-1718": "how the pores pull",
    "castro-macosko-1982": "how resin thickens as it cures",
    "morrow-songkran-1981": "air that grains hold",
    "stokes-1851": "bubbles that come up, grains that sink",
    "richardson-zaki-1954": "grains that slow each other down as they sink",
    "krieger-dougherty-1959": "how glass thickens a mix",
    "jeffreys-1930": "a coat that runs down a face",
    "thiem-1906": "resin out of a tube into the glass",
    "hill-1995": "shrinkage before and after gel",
    "mixture-rule": "shrinkage with glass stirred in",
    "levin-1967": "how much a bed of glass keeps resin from shrinking",
    "hashin-shtrikman-1963": "stiffness of the bed",
    "benenati-brosilow-1962": "how much glass sanding bares",
}
"""Published equations by their source, and what they were used for, with a resin."""
MINERAL_MODELS = {
    "schindler-folliard-2005": "how concrete hardens, how much of its cement reacts",
    "freiesleben-pedersen-1977": "how much slower it hardens in the cold",
    "crank-1975": "how water leaves the inside",
    "aci-347": "pressure on the box",
    "mixture-rule": "masses by volume, water that gypsum needs to set",
}
"""The same for gypsum and concrete."""
SOAKS = ("sphericity", "surface_tension", "contact_angle", "pourable_viscosity", "flow_activation_energy")
"""Numbers of a pour that both ways of filling are reckoned with."""
HEAT_MODELS = {
    "churchill-chu-1975": "heat lost by upright faces",
    "mcadams-1954": "heat lost by level faces",
    "incropera-dewitt": "heat radiated by all faces",
}
"""The same for the heat of their setting."""

SIEVED: dict[str, str] = {"rosin-rammler-1933": "sizes of crushed glass, from sieve weighings"}
"""Where sieve weighings are given."""


def fill_sources(look: FillLook) -> list[SourceUsed]:
    """List every source of a number or an equation in the sheet of a fill.

    Parameters
    ----------
    look : FillLook
        With its records.

    Returns
    -------
    list of SourceUsed
        One line per source and kind, with what it was used for.
    """
    return listed(_numbers(look), _models(look))


def _models(look: FillLook) -> dict[str, str]:
    if look.mix is None:
        sieved = look.fill is not None and look.job.bottles.sieving
        return RESIN_MODELS | SIEVED if sieved else RESIN_MODELS
    return MINERAL_MODELS | HEAT_MODELS if look.heat else MINERAL_MODELS


def _numbers(look: FillLook) -> Iterator[tuple[str, Sourced]]:
    yield from numbers_of(look.casting)
    if look.heat:
        yield from numbers_of(look.materials.find("rubber", look.job.mold.rubber))
        yield from numbers_of(look.materials.find("board", look.job.mold.board))
    if look.fill is not None:
        yield from numbers_of(look.fill.choices.glass)
        yield from ((f"pour {name}".replace("_", " "), POUR[name]) for name in SOAKS)
        if look.fill.glass:
            for table in (BOTTLES, DRYING, KINDS, {name: DUST[name] for name in PLAIN_DUST}):
                yield from ((f"bottles {name}".replace("_", " "), number) for name, number in table.items())
    allowance = {"allowance": DEFAULTS["allowance"]}
    for table in (
        (DEFAULTS, MIXING, AMINES, WAYS, FINISH, CUBE) if look.mix is None else (allowance, MINERALS, DUST)
    ):
        yield from ((f"fill {name}".replace("_", " "), number) for name, number in table.items())
