"""One heterogeneous casting set down once, and worked out by finite volumes and by finite elements."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy.interpolate import RegularGridInterpolator
from skfem import MeshHex

from pourwright.solver import Control, Exchange, Problem, Surfaces, run, start, switch_on
from tests.convergence.elements import Elements, Side, Stage
from tests.solver.cases import R, kamal

Array = np.ndarray


@dataclass(frozen=True)
class Air:
    """Beyond the face at one end of an axis: film [W/(m2 K)], resistance [m2 K/W], temperature [K]."""

    axis: int
    high: bool
    film: float
    resistance: float
    temperature: Callable[[float], float]


@dataclass(frozen=True)
class Case:
    """A box of several materials, insulated or symmetric where no air is named, as are the walls of a hollow.

    ``kind`` tells the material by place; ``matter`` its capacity [J/(m3 K)], conductivity [W/(m K)] and heat
    [J/m3]; ``poured`` when materials that are poured come in [s]. Grid lines are halved to refine.
    """

    lines: tuple[Array, Array, Array]
    kind: Callable[[Array, Array, Array], Array]
    matter: Array
    poured: dict[int, float]
    law: tuple[float, ...]
    airs: tuple[Air, ...]
    shop: float
    warm: float
    end: float
    places: Array
    moments: tuple[float, ...]
    seed: float = 1e-3

    def refined(self, times: int) -> list[Array]:
        """Lines with every interval cut into as many equal parts."""
        return [
            np.interp(np.arange((n := e.size - 1) * times + 1) / times, np.arange(n + 1), e)
            for e in self.lines
        ]

    def rate(self, temperature: Array, cure: Array) -> Array:
        """Kamal and Sourour's law, written once more."""
        heat = R * temperature
        a1, e1, a2, e2, m, n = self.law
        return np.asarray((a1 * np.exp(-e1 / heat) + a2 * np.exp(-e2 / heat) * cure**m) * (1.0 - cure) ** n)

    @property
    def stages(self) -> list[tuple[float, float, list[int]]]:
        """Begin and end of each stage, and the kinds that come in at its begin."""
        times = sorted(set(self.poured.values()))
        ends = [*times[1:], self.end]
        return [
            (t, e, [k for k, at in self.poured.items() if at == t]) for t, e in zip(times, ends, strict=True)
        ]


@dataclass
class Found:
    """Highest temperature at each place since it was filled, and temperatures at moments x places [K]."""

    peaks: Array
    then: Array


def by_volumes(case: Case, times: int) -> Found:
    """Finite volumes on lines refined so many times."""
    edges = case.refined(times)
    middles = [0.5 * (e[1:] + e[:-1]) for e in edges]
    kind = case.kind(*np.meshgrid(*middles, indexing="ij"))
    fields = [case.matter[kind, column] for column in range(3)]
    names = ("x_low", "x_high", "y_low", "y_high", "z_low", "z_high")
    films = {names[2 * a.axis + a.high]: Exchange(a.film, a.temperature, a.resistance) for a in case.airs}
    active = ~np.isin(kind, list(case.poured))
    law = {"rate": kamal, "parameters": np.array(case.law)}
    problem = Problem(*edges, *fields, active, Surfaces(**films), **law)
    state, control, then = start(problem, case.shop), Control(tolerance=0.02, max_step=600.0), []
    for _, end, kinds in case.stages:
        problem, state = switch_on(problem, state, np.isin(kind, kinds), case.warm, case.seed)
        for moment in [*[m for m in case.moments if state.time < m < end], end]:
            state = run(problem, state, moment, control=control).state
            then += [_at(case, middles, state.temperature)] if moment in case.moments else []
    return Found(_at(case, middles, state.records.peak_temperature), np.array(then))


def _at(case: Case, middles: list[Array], values: Array) -> Array:
    """Read cells at places by straight lines, mirrored at the low ends."""
    mirrored = [np.append(-m[0], m) for m in middles[:2]] + [middles[2]]
    whole = np.concatenate([values[:1], values])
    whole = np.concatenate([whole[:, :1], whole], axis=1)
    return np.asarray(RegularGridInterpolator(mirrored, whole)(case.places))


def by_elements(case: Case, times: int, step: float) -> Found:
    """Finite elements on lines refined so many times."""
    mesh = MeshHex.init_tensor(*case.refined(times))
    kind = case.kind(*mesh.p[:, mesh.t].mean(axis=1))
    there = ~np.isin(kind, list(case.poured))
    warm, cure, corners, then = None, None, None, []
    hottest = np.full(mesh.nvertices, -np.inf)
    for begin, end, kinds in case.stages:
        there = there | np.isin(kind, kinds)
        stage = Elements(
            mesh, Stage(np.flatnonzero(there), *case.matter[kind[there]].T, _sides(case)), case.rate
        )
        if warm is None:
            warm = np.full((kind.size, stage.heat.shape[1]), case.shop)
            cure = np.zeros_like(warm)
        warm[np.isin(kind, kinds)], cure[np.isin(kind, kinds)] = case.warm, case.seed
        seen = stage.run(stage.projected(warm[there]), cure[there], begin, end, step, case.moments)
        warm[there], cure[there] = stage.at_points(seen.corners), seen.cure
        hottest[stage.free] = np.maximum(hottest[stage.free], seen.hottest)
        corners = np.array(
            [np.linalg.norm(mesh.p[:, stage.free].T - p, axis=1).argmin() for p in case.places]
        )
        then += [moment[corners] for moment in seen.moments]
    nodes = np.array([np.linalg.norm(mesh.p.T - place, axis=1).argmin() for place in case.places])
    return Found(hottest[nodes], np.array(then))


def _sides(case: Case) -> tuple[Side, ...]:
    def side(air: Air) -> Side:
        end = case.lines[air.axis][-1 if air.high else 0]
        film = 1.0 / (1.0 / air.film + air.resistance)
        return Side(film, air.temperature, lambda middle: np.abs(middle[air.axis] - end) < 1e-9)

    return tuple(side(air) for air in case.airs)
