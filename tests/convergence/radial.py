"""Bodies that depend on the radius only, by scipy's stiff method of lines: independent of the solver."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.integrate import solve_ivp
from scipy.sparse import bmat, diags, eye

Array = np.ndarray
GAS = 8.314462618


@dataclass(frozen=True)
class Matter:
    """Capacity [J/(m3 K)], conductivity [W/(m K)], heat [J/m3]."""

    capacity: float
    conductivity: float
    heat: float = 0.0


@dataclass(frozen=True)
class Round:
    """A bar (power 1) or ball (power 2) in shells from the middle outwards, bare to air at its outside.

    `shells` are (outer radius [m], matter); `law` is A1, E1, A2, E2, m, n.
    """

    power: int
    shells: tuple[tuple[float, Matter], ...]
    film: float
    air: float
    law: tuple[float, ...]

    def rate(self, temperature: Array, cure: Array) -> Array:
        """Rate of conversion [1/s]."""
        a1, e1, a2, e2, m, n = self.law
        heat, cured = GAS * temperature, np.clip(cure, 0.0, 1.0)
        return (a1 * np.exp(-e1 / heat) + a2 * np.exp(-e2 / heat) * cured**m) * (1.0 - cured) ** n

    def edges(self, cells: int) -> Array:
        """Lines on every shell; `cells` of them in the first."""
        lines = [np.zeros(1)]
        for outer, _ in self.shells:
            spacing = self.shells[0][0] / cells
            count = round((outer - lines[-1][-1]) / spacing)
            lines.append(np.linspace(lines[-1][-1], outer, count + 1)[1:])
        return np.concatenate(lines)

    def histories(self, cells: int, duration: float) -> tuple[Array, Array]:
        """Middles of the shells [m] and their temperatures [K], one column per moment."""
        edges = self.edges(cells)
        middles = 0.5 * (edges[1:] + edges[:-1])
        volumes = np.diff(edges ** (self.power + 1)) / (self.power + 1)
        which = np.searchsorted([outer for outer, _ in self.shells], middles)
        capacity, conductivity, heat = (
            np.array([getattr(matter, name) for _, matter in self.shells])[which]
            for name in ("capacity", "conductivity", "heat")
        )
        half = np.diff(edges) / (2.0 * conductivity)
        between = edges[1:-1] ** self.power / (half[1:] + half[:-1])
        bare = edges[-1] ** self.power / (half[-1] + 1.0 / self.film)
        n, reacting = middles.size, heat > 0.0

        def slope(_time: float, state: Array) -> Array:
            temperature, cure = state[:n], state[n:]
            rate = np.where(reacting, self.rate(temperature, cure), 0.0)
            flow = between * np.diff(temperature)
            power = np.append(flow, -bare * (temperature[-1] - self.air))
            power[1:] -= flow
            return np.concatenate([(power / volumes + heat * rate) / capacity, rate])

        neighbours = diags([np.ones(n - 1), np.ones(n), np.ones(n - 1)], [-1, 0, 1])
        pattern = bmat([[neighbours, eye(n)], [eye(n), eye(n)]])
        begin = np.concatenate([np.full(n, self.air), np.zeros(n)])
        solved = solve_ivp(
            slope, (0.0, duration), begin, "BDF", rtol=1e-7, atol=1e-8, jac_sparsity=pattern, max_step=120.0
        )
        return middles, solved.y[:n]

    def peak(self, cells: int, duration: float) -> float:
        """Highest temperature anywhere, the middle included [K], extrapolated from two lines of cells."""
        tops = []
        for count in (cells, 2 * cells):
            _, history = self.histories(count, duration)
            middle = (9.0 * history[0] - history[1]) / 8.0
            tops.append(max(float(history.max()), float(middle.max())))
        return tops[1] + (tops[1] - tops[0]) / 3.0
