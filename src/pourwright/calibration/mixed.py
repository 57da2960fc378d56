"""Ratio and densities of a data sheet: what follows from them, and where they contradict each other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

NEAR_RATIO, NEAR_DENSITY = 0.05, 0.04
"""Shares by which ratios by weight and by volume, and densities of mix and parts, may differ."""


@dataclass(frozen=True, slots=True)
class Mix:
    """What a sheet states about the mix, SI; None where it is silent.

    Parameters
    ----------
    by_weight, by_volume : tuple or None
        Parts of A and B.
    density, density_a, density_b : float or None
        Of the mix and of its parts [kg/m3].
    """

    by_weight: tuple[float, float] | None = None
    by_volume: tuple[float, float] | None = None
    density: float | None = None
    density_a: float | None = None
    density_b: float | None = None

    def parts(self) -> tuple[float, float] | None:
        """Parts by weight, from the volumes where needed and possible."""
        if self.by_weight is not None:
            return self.by_weight
        if self.by_volume is None or self.density_a is None or self.density_b is None:
            return None
        return self.by_volume[0] * self.density_a, self.by_volume[1] * self.density_b

    def mixed_density(self) -> float | None:
        """Density of the mix, from its parts where it is not stated [kg/m3]."""
        return self.density or self._ideal()

    def _ideal(self) -> float | None:
        parts = self.parts()
        if parts is None or self.density_a is None or self.density_b is None:
            return None
        return sum(parts) / (parts[0] / self.density_a + parts[1] / self.density_b)

    def contradictions(self) -> Iterator[tuple[str, str, str]]:
        """Pairs of statements that cannot both be true: both names, and what the first one gives.

        Yields
        ------
        tuple of str
            First statement, second statement, what follows from the first.
        """
        weights, volumes = self.by_weight, self.by_volume
        if weights and volumes and self.density_a and self.density_b:
            by_volume = volumes[1] * self.density_b / (volumes[0] * self.density_a)
            stated = weights[1] / weights[0]
            if abs(by_volume / stated - 1) > NEAR_RATIO:
                yield "parts by volume", "parts by weight", f"100 to {100 * by_volume:.1f} by weight"
        ideal = self._ideal()
        if self.density and ideal and abs(ideal / self.density - 1) > NEAR_DENSITY:
            yield "densities of A and B", "density of the mix", f"{ideal:.0f} kg/m3"
