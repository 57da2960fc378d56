"""Film coefficients as a table that the solver's kernels read, and that can be called like any film."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.solver.problem import Array


@dataclass(frozen=True, slots=True, eq=False)
class FilmTable:
    """Coefficient of a film against how much warmer its surface is than the surroundings.

    Parameters
    ----------
    surroundings : array (m,)
        Rising temperatures of the surroundings at which it is tabulated [K]; level beyond them.
    warmer : array (n,)
        Rising differences from surroundings to surface [K]; level beyond them.
    coefficients : array (m, n)
        Finite [W/(m2 K)]; straight lines between, along both.

    Examples
    --------
    >>> film = FilmTable(np.array([290.0]), np.array([0.0, 10.0]), np.array([[5.0, 7.0]]))
    >>> film(np.array([295.0, 320.0]), 290.0)
    array([6., 7.])
    """

    surroundings: Array
    warmer: Array
    coefficients: Array

    def row(self, around: float) -> Array:
        """Give the coefficients (n,) of the nodes at a temperature of the surroundings [K]."""
        if self.surroundings.size == 1:
            return np.asarray(self.coefficients[0])
        place = np.interp(around, self.surroundings, np.arange(self.surroundings.size))
        before = min(int(place), self.surroundings.size - 2)
        one, other = self.coefficients[before : before + 2]
        return np.asarray(one + (place - before) * (other - one))

    def __call__(self, surface: Array, around: float) -> Array:
        """Look up the coefficients of surfaces (n,) [K]; the kernels do the same."""
        return np.asarray(np.interp(surface - around, self.warmer, self.row(around)))
