"""Matter that comes in while time stands still: cells are filled and the step starts anew."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.solver.problem import Array, CutFaces, Mask, Problem
from pourwright.solver.state import Records, State, frozen


def mixed(amounts: tuple[Array, ...], values: tuple[Array, ...]) -> Array:
    """Mix a quantity by amount: temperature by heat capacity, conversion by heat still to come.

    Parameters
    ----------
    amounts : tuple of array
        Heat capacities [J/K] or [J/(m3 K)] of the parts, or any other amount.
    values : tuple of array
        The parts' temperatures [K], or any other value.

    Returns
    -------
    array
        Value of the mixture; that of the first part where there is no amount at all.
        Equation: sum(amount value) / sum(amount); energy is kept exactly.

    Examples
    --------
    Warm liquid over cold grains, per litre of bed:

    >>> round(float(mixed((1155.0, 891.0), (291.15, 303.15))), 2)
    296.38
    """
    total = np.sum([np.asarray(amount, dtype=float) for amount in amounts], axis=0)
    held = sum(
        np.asarray(a, dtype=float) * np.asarray(v, dtype=float) for a, v in zip(amounts, values, strict=True)
    )
    safe = np.where(total == 0.0, 1.0, total)
    return np.where(total == 0.0, np.asarray(values[0], dtype=float), held / safe)


def _fresh_records(
    records: Records, fresh: Mask, reacting: Mask, state: State, heat: Array, cure: Array
) -> Records:
    """Start the records of freshly filled cells anew; raise the others' peaks where mixing has."""
    hotter = fresh | (heat > records.peak_temperature)
    peak = np.where(hotter, heat, records.peak_temperature)
    when = np.where(hotter, state.time, records.peak_time)
    crossed = np.where(fresh, np.nan, records.crossing_time)
    for number, limit in enumerate(records.thresholds):
        crossed[number][fresh & reacting & (cure >= limit)] = state.time
    return Records(frozen(peak), frozen(when), records.thresholds, frozen(crossed))


def switch_on(
    problem: Problem,
    state: State,
    cells: Mask,
    temperature: float | Array,
    conversion: float | Array = 0.0,
    *,
    volumetric_heat_capacity: Array | None = None,
    conductivity: Array | None = None,
    heat: Array | None = None,
    law: Array | None = None,
    cut: CutFaces | None = None,
) -> tuple[Problem, State]:
    """Fill cells with matter that enters at a temperature.

    An empty cell takes the entering temperature and conversion. A cell that held matter keeps it
    and gains the rest: what came in has the capacity by which the cell's grew, and temperatures mix
    by capacity, conversions by heat of reaction, so that energy is exact.

    Parameters
    ----------
    problem : Problem
        As it was before.
    state : State
        As it stands; it is not changed.
    cells : array of bool (nx, ny, nz)
        Cells that are filled, or filled further.
    temperature, conversion : float or array (nx, ny, nz)
        Of what comes in [K], [-].
    volumetric_heat_capacity, conductivity, heat, law : array (nx, ny, nz)
        Properties from now on, as in `Problem`; those left out stay. Read in `cells` only.
    cut : CutFaces
        Surface from now on; the one before stays if left out.

    Returns
    -------
    tuple of Problem and State
        To go on with; the step starts anew.

    Raises
    ------
    UserError
        If a filled cell would lose capacity or heat of reaction.

    Examples
    --------
    >>> from pourwright.solver import start
    >>> ones = np.ones((1, 1, 2))
    >>> low = np.array([[[True, False]]])
    >>> bar = Problem(np.array([0, 1.0]), np.array([0, 1.0]), np.array([0, 1.0, 2.0]), ones, ones, active=low)
    >>> full, state = switch_on(bar, start(bar, 290.0), ~low, 305.0)
    >>> state.temperature
    array([[[290., 305.]]])
    """
    cells = np.asarray(cells, dtype=bool)
    given = {
        "volumetric_heat_capacity": volumetric_heat_capacity,
        "conductivity": conductivity,
        "heat": heat,
        "law": law,
    }
    changed: dict[str, object] = {
        name: np.where(cells, value, getattr(problem, name))
        for name, value in given.items()
        if value is not None
    }
    if cut is not None:
        changed["cut"] = cut
    filled = replace(problem, active=problem.active | cells, **changed)  # type: ignore[arg-type]
    return filled, _mixed_in(problem, filled, state, cells, temperature, conversion)


def _gain(problem: Problem, filled: Problem, cells: Mask, name: str) -> tuple[Array, Array]:
    """What cells held of an amount per volume, and by how much it grows."""
    held = np.where(problem.active, getattr(problem, name), 0.0)
    more = np.where(cells, getattr(filled, name) - held, 0.0)
    if np.any(more < -1e-9 * np.abs(getattr(filled, name))):
        raise UserError(
            "a filled cell would lose heat capacity or heat of reaction", todo="pass what it holds after"
        )
    return held, np.maximum(more, 0.0)


def _mixed_in(
    problem: Problem,
    filled: Problem,
    state: State,
    cells: Mask,
    temperature: float | Array,
    conversion: float | Array,
) -> State:
    """Mix what comes in with what was there; the step starts anew."""
    capacity = _gain(problem, filled, cells, "volumetric_heat_capacity")
    bound = _gain(problem, filled, cells, "heat")
    warm = mixed(capacity, (state.temperature, np.broadcast_to(temperature, cells.shape)))
    cured = mixed(bound, (state.conversion, np.broadcast_to(conversion, cells.shape)))
    warm = np.where(cells, warm, state.temperature)
    # where no more heat is bound than before, nothing that cures has come in
    cured = np.where(cells & (bound[1] > 0.0), cured, state.conversion)
    fresh = cells & ~problem.reacting
    records = _fresh_records(state.records, fresh, filled.reacting, state, warm, cured)
    nil = frozen(np.zeros(cells.shape))
    return State(state.time, frozen(warm), frozen(cured), nil, nil, nil, 0.0, 0.0, records)
