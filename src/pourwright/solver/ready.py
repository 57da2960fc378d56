"""Problems laid out for stepping; the last few are kept, since runs go on in pieces."""

from __future__ import annotations

from typing import NamedTuple
from weakref import WeakKeyDictionary

import numpy as np

from pourwright.solver.bare import BareFaces
from pourwright.solver.coefficients import Coefficients, lay_out
from pourwright.solver.faces import find_patches
from pourwright.solver.problem import Array, Problem
from pourwright.solver.reaction import Reacting
from pourwright.solver.rows import Rows, find_rows

MOST = 2
"""Problems kept ready: what they hold takes more room than the problems themselves."""


class Ready(NamedTuple):
    """A problem as the kernels want it; nothing in it is written again.

    Parameters
    ----------
    matter : Coefficients
        Capacities and conductances, flat.
    bare : BareFaces
        Bare faces.
    rows : Rows
        Where there is matter.
    reacting : Reacting
        What reacts.
    bound : array (reacting cells,)
        Heat that each sets free from mixed to cured [J].
    """

    matter: Coefficients
    bare: BareFaces
    rows: Rows
    reacting: Reacting
    bound: Array


_kept: WeakKeyDictionary[Problem, Ready] = WeakKeyDictionary()


def make_ready(problem: Problem) -> Ready:
    """Lay a problem out, unless it is one of the last that were.

    Parameters
    ----------
    problem : Problem
        Its arrays must not be written any more.

    Returns
    -------
    Ready
    """
    found = _kept.get(problem)
    if found is None:
        if len(_kept) >= MOST:
            _kept.clear()
        found = _kept[problem] = _laid_out(problem)
    return found


def _laid_out(problem: Problem) -> Ready:
    matter = Coefficients(*[array.reshape(-1) for array in lay_out(problem)])
    bare = BareFaces(find_patches(problem), problem.heat.size)
    cells = np.flatnonzero(problem.reacting)
    reacting = Reacting(cells, problem.law.ravel()[cells], problem.parameters.copy())
    bound = (problem.heat * problem.cell_volumes).reshape(-1)[cells]
    return Ready(matter, bare, find_rows(problem, bare.patches), reacting, bound)
