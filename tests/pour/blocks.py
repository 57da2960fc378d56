"""A plain block in its mold, for tests of heat and cure."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from pourwright.geometry import box
from pourwright.materials import load_materials
from pourwright.pour.climate import Climate
from pourwright.pour.follow import Followed, Goal, follow
from pourwright.pour.layout import lay_out
from pourwright.pour.site import Bed, Block, Site
from pourwright.pour.stages import add_pour, empty_mold
from pourwright.solver import Control

ZERO_CELSIUS = 273.15
HOUR = 3600.0
ZERO = datetime(2026, 12, 1, 9, tzinfo=UTC)


def shop(degrees: float) -> Climate:
    """A shop as warm by night as by day."""
    return Climate(ZERO, ZoneInfo("UTC"), (degrees + ZERO_CELSIUS,) * 24)


def block_site(
    depth: float, width: float, solid: float = 0.0, degrees: float = 20.0, resin: str = "epoxy-slow-deep"
) -> Site:
    """A square block of one bed, 20 mm of rubber around it, 19 mm below, in 18 mm MDF."""
    materials = load_materials()
    return Site(
        box([width, width, depth]),
        Block((width + 0.04, width + 0.04), 0.019, 0.018, depth),
        (Bed(0.0, depth, solid),),
        materials.resin[resin],
        materials.glass["soda-lime-crushed"],
        materials.rubber["silicone-platinum-a25"],
        materials.board["mdf"],
        shop(degrees),
    )


def one_pour(site: Site, spacing: float = 0.0125, *, goal: Goal, **watch) -> Followed:
    """Pour it all at once and follow it."""
    layout = lay_out(site, spacing, [site.block.height])
    stage = add_pour(empty_mold(layout, 0.0), site.block.height)
    return follow(stage, goal, control=Control(tolerance=0.1), **watch)


def celsius(kelvin: float) -> float:
    return kelvin - ZERO_CELSIUS
