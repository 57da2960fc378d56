"""Heat and cure of a small body, compiled: cells from the axis outwards and from the floor up.

One step is conduction for half of it, cure for all of it, conduction for the other half
(Strang). The step length follows from the state without being tried and thrown away, so that
what comes out changes smoothly with the parameters, as a fit needs it.
"""

from collections.abc import Callable
from typing import Any, NamedTuple

import numba
import numpy as np

from pourwright.physics.cure_kernels import rate

GAMMA = 1.0 - 0.5**0.5
"""Of the L-stable two-stage method that conducts the heat."""
DELTA_LOW, DELTA_STEP, DELTA_COUNT = -60.0, 4.0, 80
"""Grid of the film tables: how much warmer a face is than the air [K]."""
FIRST_STEP, GROWTH = 2.0, 1.6
SEED = 0.03
"""Cure added to a cell's own when its growth is judged, so that the first steps are not endless."""
HOT_SHARE = 0.03
"""Share of the warming that a step may add to its allowance."""
MOST_STEPS = 6000
COLUMNS = 7
"""time, probe temperature, probe cure, hottest, mean cure, least cure, air."""

Kernel = Callable[..., Any]


class Shape(NamedTuple):
    """Arrays of a body: rings' floor, sides and widths, faces' films and resistances, integral of the air."""

    area: Any
    face: Any
    width: Any
    tables: Any
    resistance: Any
    air_time: Any
    air_sum: Any


class Numbers(NamedTuple):
    """Numbers of a run, SI; `stop_column` is one of the columns of the rows that come back."""

    layers: int
    height: float
    rise: float
    start: float
    start_cure: float
    conductivity: float
    heat_capacity: float
    film: float
    probe: float
    end: float
    stop_column: int
    stop_at: float
    stop_cooled: float
    cure_step: float
    heat_step: float
    longest: float


def _film_at(table: Any, delta: float) -> float:
    """Coefficient of a face by how much warmer it is than the air [W/(m2 K)]."""
    place = min(max((delta - DELTA_LOW) / DELTA_STEP, 0.0), DELTA_COUNT - 1.001)
    index = int(place)
    share = place - index
    return float(table[index] * (1.0 - share) + table[index + 1] * share)


film_at: Kernel = numba.njit(cache=True)(_film_at)


def _slope(field: Any, link: Any, capacity: Any, ends: Any, step: float, out: Any) -> None:
    """Solve (1 - gamma step A) slope = A field + ends' share for one line of cells.

    ``link`` are conductances between neighbours [W/K]; ``ends`` the air's temperature and the
    conductances of the low and the high end.
    """
    around, low, high = ends
    last = field.size - 1
    diagonal, upper = np.empty(last + 1), np.empty(last + 1)
    for i in range(last + 1):
        before = low if i == 0 else link[i - 1]
        after = high if i == last else link[i]
        flow = before * ((around if i == 0 else field[i - 1]) - field[i])
        flow += after * ((around if i == last else field[i + 1]) - field[i])
        share = GAMMA * step / capacity[i]
        diagonal[i] = 1.0 + share * (before + after)
        upper[i] = -share * after
        out[i] = flow / capacity[i]
        if i > 0:
            ratio = -share * before / diagonal[i - 1]
            diagonal[i] -= ratio * upper[i - 1]
            out[i] -= ratio * out[i - 1]
    out[last] /= diagonal[last]
    for i in range(last - 1, -1, -1):
        out[i] = (out[i] - upper[i] * out[i + 1]) / diagonal[i]


slope: Kernel = numba.njit(cache=True)(_slope)


def _conduct(field: Any, link: Any, capacity: Any, ends: Any, step: float) -> None:
    """Conduct along one line of cells for one step, both ends losing heat to the air."""
    first, trial, second = np.empty(field.size), np.empty(field.size), np.empty(field.size)
    slope(field, link, capacity, ends, step, first)
    for i in range(field.size):
        trial[i] = field[i] + (1.0 - GAMMA) * step * first[i]
    slope(trial, link, capacity, ends, step, second)
    for i in range(field.size):
        field[i] += step * ((1.0 - GAMMA) * first[i] + GAMMA * second[i])


conduct: Kernel = numba.njit(cache=True)(_conduct)


def _across(warmth: Any, shape: Any, numbers: Any, loss: Any, around: float, step: float) -> None:
    """Conduct from the axis to the side in every layer."""
    rings, layers = warmth.shape
    deep = numbers.height / layers
    link, capacity = np.empty(max(rings - 1, 1)), numbers.heat_capacity * shape.area * deep
    for i in range(rings - 1):
        link[i] = (
            numbers.conductivity * shape.face[i + 1] * deep / (0.5 * (shape.width[i] + shape.width[i + 1]))
        )
    ends = (around, 0.0, loss[0] * shape.face[rings] * deep)
    for j in range(layers):
        conduct(warmth[:, j], link, capacity, ends, step)


across: Kernel = numba.njit(cache=True)(_across)


def _upwards(warmth: Any, numbers: Any, loss: Any, around: float, step: float) -> None:
    """Conduct from the floor to the top in every ring, per area."""
    rings, layers = warmth.shape
    deep = numbers.height / layers
    link = np.full(max(layers - 1, 1), numbers.conductivity / deep)
    capacity = np.full(layers, numbers.heat_capacity * deep)
    for i in range(rings):
        conduct(warmth[i], link, capacity, (around, loss[2], loss[1]), step)


upwards: Kernel = numba.njit(cache=True)(_upwards)


def _losses(warmth: Any, shape: Any, numbers: Any, around: float, skin: Any) -> Any:
    """Conductance of side, top and floor to the air [W/(m2 K)]; keeps how warm their faces are."""
    rings, layers = warmth.shape
    whole = shape.area.sum()
    half = (0.5 * shape.width[rings - 1], 0.5 * numbers.height / layers, 0.5 * numbers.height / layers)
    loss = np.empty(3)
    for f in range(3):
        film = max(numbers.film * film_at(shape.tables[f], skin[f]), 1e-9)
        loss[f] = 1.0 / (half[f] / numbers.conductivity + shape.resistance[f] + 1.0 / film)
        inner = 0.0
        if f == 0:
            for j in range(layers):
                inner += warmth[rings - 1, j]
            inner /= layers
        else:
            for i in range(rings):
                inner += warmth[i, layers - 1 if f == 1 else 0] * shape.area[i]
            inner /= whole
        skin[f] = (inner - around) * loss[f] / film
    return loss


losses: Kernel = numba.njit(cache=True)(_losses)


def _cure(warmth: Any, cured: Any, law: Any, rise: float, step: float) -> float:
    """Cure every cell for one step by the midpoint rule; how fast the fastest grows [1/s]."""
    fastest = 0.0
    rings, layers = warmth.shape
    for i in range(rings):
        for j in range(layers):
            here, degree = warmth[i, j], cured[i, j]
            ahead = min(degree + 0.5 * step * rate(here, degree, law), 1.0)
            pace = rate(here + rise * (ahead - degree), ahead, law)
            ahead = min(degree + step * pace, 1.0)
            cured[i, j] = ahead
            warmth[i, j] = here + rise * (ahead - degree)
            fastest = max(fastest, pace / (degree + SEED))
    return fastest


cure: Kernel = numba.njit(cache=True)(_cure)


def _look(warmth: Any, cured: Any, shape: Any, probe: float, row: Any) -> None:
    """Write what is seen at one moment, beside time and air."""
    layers = warmth.shape[1]
    middle = probe * layers - 0.5
    lower = int(min(max(np.floor(middle), 0), max(layers - 2, 0)))
    above = min(lower + 1, layers - 1)
    part = middle - lower if layers > 1 else 0.0
    row[1] = warmth[0, lower] * (1.0 - part) + warmth[0, above] * part
    row[2] = cured[0, lower] * (1.0 - part) + cured[0, above] * part
    row[3] = warmth.max()
    mean = 0.0
    for i in range(shape.area.size):
        mean += cured[i].sum() * shape.area[i]
    row[4] = mean / (shape.area.sum() * layers)
    row[5] = cured.min()


look: Kernel = numba.njit(cache=True)(_look)


def _summed(shape: Any, when: float) -> float:
    """Integral of the air's temperature up to a time within its table [K s]."""
    times, sums = shape.air_time, shape.air_sum
    low, high = 0, times.size - 1
    while high - low > 1:
        middle = (low + high) // 2
        if times[middle] <= when:
            low = middle
        else:
            high = middle
    return float((sums[high] - sums[low]) / (times[high] - times[low]) * (when - times[low]) + sums[low])


summed: Kernel = numba.njit(cache=True)(_summed)


def _air(shape: Any, begin: float, end: float) -> float:
    """Mean temperature of the air between two times: a step must not pick single moments of it."""
    return float((summed(shape, end) - summed(shape, begin)) / (end - begin))


air: Kernel = numba.njit(cache=True)(_air)


def _over(row: Any, peak: float, numbers: Any) -> bool:
    """Whether a run has seen what it was started for."""
    cool = row[6] + (1.0 - numbers.stop_cooled) * (peak - row[6])
    gone = numbers.stop_cooled <= 1.0 and row[3] < cool and row[4] > 0.3
    return bool(row[0] >= numbers.end or row[numbers.stop_column] >= numbers.stop_at or gone)


over: Kernel = numba.njit(cache=True)(_over)


def _run(law: Any, shape: Any, numbers: Any) -> Any:
    """Run a body from its pour; one row of `COLUMNS` per step."""
    warmth = np.full((shape.area.size, numbers.layers), numbers.start)
    cured = np.full((shape.area.size, numbers.layers), numbers.start_cure)
    rows, skin = np.empty((MOST_STEPS, COLUMNS)), np.zeros(3)
    clock, step, peak = 0.0, FIRST_STEP, numbers.start
    fastest = rate(numbers.start, numbers.start_cure, law) / (numbers.start_cure + SEED)
    swing = numbers.rise * fastest * SEED
    around = air(shape, 0.0, FIRST_STEP)
    for count in range(MOST_STEPS):
        row = rows[count]
        row[0], row[6] = clock, around
        look(warmth, cured, shape, numbers.probe, row)
        peak = max(peak, row[3])
        if over(row, peak, numbers) or count == MOST_STEPS - 1:
            break
        allowed = numbers.heat_step + HOT_SHARE * max(row[3] - row[6], 0.0)
        wanted = 1.0 / (fastest / numbers.cure_step + swing / allowed + 1.0 / numbers.longest)
        step = min(wanted, GROWTH * step, max(numbers.end - clock, 1e-3))
        around = air(shape, clock, clock + step)
        loss = losses(warmth, shape, numbers, around, skin)
        across(warmth, shape, numbers, loss, around, 0.5 * step)
        upwards(warmth, numbers, loss, around, 0.5 * step)
        fastest = cure(warmth, cured, law, numbers.rise, step)
        upwards(warmth, numbers, loss, around, 0.5 * step)
        across(warmth, shape, numbers, loss, around, 0.5 * step)
        swing = abs(warmth.max() - row[3]) / step
        clock += step
    return rows[: count + 1].copy()


run: Kernel = numba.njit(cache=True)(_run)
