"""Heat conduction with a reaction per cell, on rectilinear grids: numerics that know no trade word.

`start` a `Problem`, `run` it to a time, `switch_on` further cells, `run` on. A `State` is a frozen
snapshot from which any number of runs can go on.
"""

from pourwright.solver.coefficients import in_series
from pourwright.solver.compilation import rate_law
from pourwright.solver.cut_cells import CutCells, WallParts, cut_cells, cut_surface
from pourwright.solver.events import mixed, switch_on
from pourwright.solver.film_table import FilmTable
from pourwright.solver.problem import INSULATED, CutFaces, CutSurface, Exchange, Problem, Surfaces
from pourwright.solver.run import Balance, Control, Ending, Outcome, run
from pourwright.solver.state import Records, State, start
from pourwright.solver.warming import warm_up

__all__ = [
    "INSULATED",
    "Balance",
    "Control",
    "CutCells",
    "CutFaces",
    "CutSurface",
    "Ending",
    "Exchange",
    "FilmTable",
    "Outcome",
    "Problem",
    "Records",
    "State",
    "Surfaces",
    "WallParts",
    "cut_cells",
    "cut_surface",
    "in_series",
    "mixed",
    "rate_law",
    "run",
    "start",
    "switch_on",
    "warm_up",
]
