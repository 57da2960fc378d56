"""A site whose casting is mixed with water: gypsum or concrete."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.materials import Glass, Resin
from pourwright.physics.setting import SettingLaw
from pourwright.pour.site import Bed, FillProperties, Site


@dataclass(frozen=True, kw_only=True)
class SettingSite(Site):
    """A site without resin and without bands of glass: one mix from the floor to the top.

    Parameters
    ----------
    matter : FillProperties
        The mix, its grains in it; poured at one temperature, so that all its capacity counts as liquid's.
    law : SettingLaw
        How it sets.
    """

    # nothing that a mix with water runs through looks at these
    resin: Resin = None  # type: ignore[assignment]
    glass: Glass = None  # type: ignore[assignment]
    matter: FillProperties
    law: SettingLaw

    def properties(self, bed: Bed) -> FillProperties:
        """The mix, in every bed."""
        del bed
        return self.matter
