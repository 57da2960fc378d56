"""Where a casting falls, begun in any half day: pours in working hours while they bond, taking out, rest."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from pourwright.line.dates.halves import Halves
from pourwright.line.dates.route import Route, fitting

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
NEVER = -1


@dataclass(frozen=True)
class Castings:
    """Castings of one product on the shop's half days.

    Parameters
    ----------
    route : Route
        Its steps fit into half a day, as `castings_of` makes them.
    halves : Halves
        Working time.
    """

    route: Route
    halves: Halves

    @cached_property
    def _opening(self) -> int:
        """First step of taking out."""
        steps = self.route.steps
        return next(at for at, step in enumerate(steps) if step.name == steps[-1].name)

    @cached_property
    def hours(self) -> Floats:
        """Of each step [h]."""
        return np.array([step.hours for step in self.route.steps])

    @cached_property
    def _poured(self) -> tuple[Ints, Floats]:
        """Half day of every pour, by that of the first, or `NEVER`; when the last one begins [h]."""
        count = len(self.halves)
        slots = np.full((count, self._opening), NEVER, dtype=np.int64)
        moment = self.halves.starts.copy()
        good = np.ones(count, dtype=bool)
        for at, step in enumerate(self.route.steps[: self._opening]):
            earliest = moment + (step.gap if at else 0.0)
            found, begins = self._place(earliest, step.hours)
            late = False if step.until is None or not at else begins > moment + step.until + 1e-9
            good &= (found < count) & ~np.asarray(late)
            slots[:, at], moment = found, begins
        good &= slots[:, 0] == np.arange(count)
        slots[~good] = NEVER
        return slots, moment

    def _place(self, earliest: Floats, hours: float) -> tuple[Ints, Floats]:
        """First half day in which so many hours fit after a moment, and when they begin there [h]."""
        ends = self.halves.ends
        found = np.searchsorted(ends, earliest + hours - 1e-9)
        begins = np.maximum(self.halves.starts[np.minimum(found, len(ends) - 1)], earliest)
        return found.astype(np.int64), begins

    @cached_property
    def possible(self) -> npt.NDArray[np.bool_]:
        """Whether the first pour may be in a half day."""
        return np.asarray(self._poured[0][:, 0] != NEVER)

    @cached_property
    def next_possible(self) -> Ints:
        """The first such half day from each on; their number where there is none."""
        count = len(self.halves)
        slots = np.where(self.possible, np.arange(count), count)
        return np.append(np.minimum.accumulate(slots[::-1])[::-1], count)

    def begun(self, first: Ints, longer: Floats) -> tuple[Ints, Ints, Floats]:
        """Say where castings fall.

        Parameters
        ----------
        first : array of int
            Half day of their first pours, possible ones.
        longer : array
            Time until each may leave its mold, over the planned one [-].

        Returns
        -------
        tuple of array
            Half day of each step, shape (castings, steps); the first half day in which the mold is free
            again; when it is [h]. Beyond the last half day they are their number.
        """
        slots = np.empty((len(first), len(self.route.steps)), dtype=np.int64)
        slots[:, : self._opening] = self._poured[0][first]
        moment = self._poured[1][first]
        for at in range(self._opening, len(self.route.steps)):
            step = self.route.steps[at]
            gap = step.gap * longer if at == self._opening else step.gap
            slots[:, at], moment = self._place(moment + gap, step.hours)
        free = moment + self.route.steps[-1].hours + self.route.rest
        return slots, np.searchsorted(self.halves.starts, free - 1e-9).astype(np.int64), free


def castings_of(route: Route, halves: Halves) -> Castings:
    """Fit the steps of a product into half days.

    Parameters
    ----------
    route : Route
        As planned.
    halves : Halves
        Working time.

    Returns
    -------
    Castings
    """
    steps = fitting(route.steps, float(halves.lengths.min()))
    return Castings(
        Route(
            **{name: getattr(route, name) for name in route.__dataclass_fields__ if name != "steps"},
            steps=steps,
        ),
        halves,
    )
