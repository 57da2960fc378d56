"""Profit of a month: orders, castings begun and lost, hours and prices as they may come."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from pourwright.costing.risk.counts import among_at, failures_at, orders_at
from pourwright.costing.risk.three_points import ThreePoints

Array = NDArray[np.float64]
SURE: Final = ThreePoints(1.0, 1.0, 1.0)
COLUMNS: Final = (
    "level", "orders", "rate", "failures", "leaks", "hours", "cast", "rubber", "bought", "used", "paid",
    "room",
)  # fmt: skip
"""What each coordinate of a month decides; none ever moves, so that what-ifs draw the same months."""
GROUPS: Final[dict[str, tuple[str, ...]]] = {
    "demand": ("level", "orders"),
    "scrap": ("rate", "failures"),
    "leaks": ("leaks",),
    "hours": ("hours",),
    "cast": ("cast",),
    "rubber": ("rubber",),
    "bought": ("bought",),
    "used": ("used",),
    "paid": ("paid",),
}
"""What is told together, by the coordinates that belong to it."""


@dataclass(frozen=True, slots=True)
class Parts:
    """What one casting begun, or one good piece, costs, by what its money is for [currency].

    Parameters
    ----------
    work : float
        Hours, and overhead told by the hour.
    cast : float
        Resin or powder.
    glass, rubber, other : float
        Bought.
    """

    work: float = 0.0
    cast: float = 0.0
    glass: float = 0.0
    rubber: float = 0.0
    other: float = 0.0

    @property
    def total(self) -> float:
        """Sum of all."""
        return self.work + self.cast + self.glass + self.rubber + self.other


@dataclass(frozen=True, slots=True)
class Leak:
    """What a leak loses beside its casting, which is among those that fail.

    Parameters
    ----------
    chance : float
        Of a casting begun [-].
    resin : float
        More of it that runs away, as a share of what a casting takes [-].
    work : float
        Cleaning up [currency].
    """

    chance: float = 0.0
    resin: float = 0.0
    work: float = 0.0


@dataclass(frozen=True)
class Month:
    """A month as planned, and how far each thing may be off.

    Parameters
    ----------
    orders : float
        Pieces ordered, likely.
    most : float
        Castings that can be begun; infinite where nobody knows.
    fetch : float
        What reaches the maker of a piece [currency].
    kept : float
        Fixed fee of a sale, in ``fetch`` already, which does not fall with the price [currency].
    casting, piece : Parts
        Of one casting begun, its share of the mold in it; of one good piece.
    lost_finished : bool
        Whether finishing is lost with a casting that fails.
    monthly : float
        Paid whatever is made [currency].
    rounding : float
        By which the printed cost of a good piece differs from its parts [currency].
    scrap : ThreePoints
        Share of castings that give no good piece.
    leak : Leak
        Part of those.
    level, hours, cast, rubber, bought, used, paid : ThreePoints
        Over what is planned: orders; hours; price of resin, of rubber, of all else; amounts of resin and
        glass; what a buyer pays [-].
    one_by_one : bool
        Whether orders and failures come one by one, by chance; else their averages count.
    """

    orders: float
    fetch: float
    casting: Parts
    piece: Parts
    scrap: ThreePoints
    most: float = float("inf")
    kept: float = 0.0
    lost_finished: bool = False
    monthly: float = 0.0
    rounding: float = 0.0
    leak: Leak = field(default_factory=Leak)
    level: ThreePoints = SURE
    hours: ThreePoints = SURE
    cast: ThreePoints = SURE
    rubber: ThreePoints = SURE
    bought: ThreePoints = SURE
    used: ThreePoints = SURE
    paid: ThreePoints = SURE
    one_by_one: bool = False

    @property
    def planned(self) -> float:
        """Profit where all comes as planned, on average [currency]."""
        scrap = self.scrap.likely
        sold = min(self.orders, self.most * (1.0 - scrap))
        begun = sold / (1.0 - scrap)
        finished = begun if self.lost_finished else sold
        spent = begun * self.casting.total + finished * self.piece.total + sold * self.rounding
        return sold * self.fetch - spent - self.monthly

    def profit(self, points: Array) -> Array:
        """Profit of months.

        Parameters
        ----------
        points : array (months, columns)
            Standard normal deviates, a column for each of `COLUMNS`.

        Returns
        -------
        array (months,)
            [currency]
        """
        shares = dict(zip(COLUMNS, ndtr(points).T, strict=True))
        begun, sold, leaks = self._counts(shares)
        factors = {name: getattr(self, name).at(shares[name]) for name in _FACTORS}
        finished = begun if self.lost_finished else sold
        spent = begun * _money(self.casting, factors) + finished * _money(self.piece, factors)
        spill = self.leak.resin * self.casting.cast * factors["cast"] + self.leak.work * factors["hours"]
        got = (self.fetch + self.kept) * factors["paid"] - self.kept - self.rounding
        return np.asarray(sold * got - spent - leaks * spill - self.monthly)

    def _counts(self, shares: dict[str, Array]) -> tuple[Array, Array, Array]:
        """Castings begun, good pieces sold, leaks."""
        rate, mean = self.scrap.at(shares["rate"]), self.orders * self.level.at(shares["level"])
        if not self.one_by_one:
            sold = np.minimum(mean, self.most * (1.0 - rate))
            begun = sold / (1.0 - rate)
            return begun, sold, np.minimum(begun * self.leak.chance, begun - sold)
        wanted = orders_at(shares["orders"], mean)
        failed = failures_at(shares["failures"], wanted, rate)
        # 3.6 castings a month: three in some, four in others
        most = np.floor(self.most + shares["room"]) if np.isfinite(self.most) else np.full(len(rate), np.inf)
        full = wanted + failed > most
        tried = np.where(full, most, 0.0)
        failed = np.where(full, among_at(shares["failures"], tried, rate), failed)
        begun = np.where(full, most, wanted + failed)
        chance = np.minimum(self.leak.chance / np.maximum(rate, self.leak.chance + _LEAST), 1.0)
        return begun, begun - failed, among_at(shares["leaks"], failed, chance)


_FACTORS: Final = ("hours", "cast", "rubber", "bought", "used", "paid")
_LEAST: Final = 1e-12


def _money(parts: Parts, factors: dict[str, Array]) -> Array:
    bought = (parts.glass * factors["used"] + parts.other) * factors["bought"]
    cast = parts.cast * factors["cast"] * factors["used"]
    return np.asarray(parts.work * factors["hours"] + cast + parts.rubber * factors["rubber"] + bought)
