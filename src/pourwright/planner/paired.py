"""The bench that plans with chances: times as they are likely, heat as it may well be."""

from __future__ import annotations

from dataclasses import dataclass, replace

from pourwright.planner.bench import CoarseBench
from pourwright.planner.model import Trial


@dataclass
class PairedBench:
    """Tries each pour twice: with the casting as planned, and with one that runs hotter than most.

    The hotter one stands where the limit is reached first at the chosen probability
    (`pourwright.planner.hot`): whatever keeps its limit there keeps it with that probability.

    Parameters
    ----------
    likely : CoarseBench
        The casting as planned: gel, bonds, demolding.
    hot : CoarseBench
        The hotter one: peaks.
    """

    likely: CoarseBench
    hot: CoarseBench

    def pour(self, before: Trial | None, level: float, start: float) -> Trial:
        """Simulate pouring up to ``level`` [m] at ``start`` [s] on top of ``before``, twice."""
        hot = self.hot.pour(before, level, start)
        # nobody asks when a pour bonds that is too hot
        if hot.excess > 0.0:
            return hot
        likely = self.likely.pour(before, level, start)
        return replace(likely, peaks=hot.peaks)

    def excess_on_cold_ground(self, lower: float, upper: float, *, give_up: bool = True) -> float:
        """How far the hotter one goes over its limit between two levels on cold, cured ground [K]."""
        return self.hot.excess_on_cold_ground(lower, upper, give_up=give_up)
