"""What the solver follows in a casting: how a resin cures, or how a mix with water sets."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from pourwright.physics.cure_kernels import scalar_rate
from pourwright.physics.setting import setting_rate
from pourwright.pour.marks import Marks
from pourwright.pour.setting import SettingSite
from pourwright.pour.site import Site, cure_law
from pourwright.solver import rate_law

RATE = rate_law(scalar_rate)
HALF = 0.5


class Reaction(NamedTuple):
    """A law with its numbers.

    Parameters
    ----------
    rate : callable
        Compiled [1/s].
    row : array (n,)
        Its parameters.
    begins : float
        Degree as it is poured [-].
    mark : float
        Degree whose time is noted: the gel point, or half of the heat [-].
    """

    rate: Any
    row: NDArray[np.float64]
    begins: float
    mark: float


def reaction_of(site: Site) -> Reaction:
    """Choose the law of what is cast.

    Parameters
    ----------
    site : Site
        With a resin, or a mix with water.

    Returns
    -------
    Reaction
    """
    if isinstance(site, SettingSite):
        return Reaction(rate_law(setting_rate), site.law.row, 0.0, HALF)
    cure = site.resin.cure
    gels = Marks.of(site.resin).gel_conversion
    return Reaction(RATE, cure_law(cure).row, cure.initial_conversion.value, gels)
