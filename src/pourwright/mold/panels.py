"""The panels of the box, what presses on them, their seams."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.mold.box.joints import BUTT, Joint
from pourwright.mold.result import Panel, Seam
from pourwright.physics.hydrostatics import pressure_at_depth, thrust_on_wall


@dataclass(frozen=True, slots=True)
class Head:
    """Liquid against a panel: pressure at its foot [Pa], thrust per metre of length [N/m]."""

    pressure: float
    thrust_per_length: float


def rubber_head(density: float, level: float) -> Head:
    """Head of the liquid rubber.

    Parameters
    ----------
    density : float
        Of the liquid [kg/m3].
    level : float
        Depth to the panel's foot [m].

    Returns
    -------
    Head
        p = rho g h; thrust per length = rho g h^2 / 2.

    Examples
    --------
    >>> print(f"{rubber_head(1100.0, 0.45).pressure:.2f} Pa")
    4854.29 Pa
    """
    return Head(float(pressure_at_depth(level, density)), thrust_on_wall(0.0, level, 1.0, density).force)


def fill_head(fill_density: float, rubber_density: float, fill_depth: float, base: float) -> Head:
    """Head of the liquid fill, handed on by the soft rubber as if there were none.

    Parameters
    ----------
    fill_density, rubber_density : float
        [kg/m3].
    fill_depth : float
        Height of the piece [m].
    base : float
        Rubber under it [m].

    Returns
    -------
    Head
        At the box's floor.

    Notes
    -----
    On the safe side: grains that carry themselves press less than a liquid of their density.
    """
    above, below = rubber_head(fill_density, fill_depth), rubber_head(rubber_density, base)
    thrust = above.thrust_per_length + above.pressure * base + below.thrust_per_length
    return Head(above.pressure + below.pressure, thrust)


def box_panels(
    inside: tuple[float, float, float],
    height: float,
    thickness: float,
    head: Head,
    method: str,
    joint: Joint = BUTT,
) -> tuple[Panel, ...]:
    """List the panels; the sides lap the ends, both stand on the base.

    Parameters
    ----------
    inside : tuple of float
        Rubber block [m].
    height : float
        Of sides and ends, with the freeboard [m].
    thickness : float
        Of the board [m].
    head : Head
        Densest liquid ever poured against them.
    method : str
        "hung" or "screwed"; a screwed master's base comes off the mouth when the box is turned
        over, so a second board carries the mold while it is filled.
    joint : Joint
        How sides and ends meet.

    Returns
    -------
    tuple of Panel
        With the thrust on one panel [N].
    """
    length, width, _ = inside
    long = joint.side_length(length, thickness)
    across = width + 2 * thickness

    def upright(name: str, panel: float, wetted: float) -> Panel:
        return Panel(
            name=name, count=2, length=panel, width=height, thickness=thickness,
            pressure_at_bottom=head.pressure, thrust=head.thrust_per_length * wetted,
        )  # fmt: skip

    def flat(name: str) -> Panel:
        return Panel(
            name=name, count=1, length=long, width=across, thickness=thickness,
            pressure_at_bottom=head.pressure, thrust=head.pressure * length * width,
        )  # fmt: skip

    extra = (flat("floor for casting"),) if method == "screwed" else ()
    return (
        flat("base"),
        upright("side", long, length),
        upright("end", joint.end_length(width, thickness), width),
        *extra,
    )


def box_seams(inside: tuple[float, float, float], pressure: float) -> tuple[Seam, ...]:
    """List the joints that liquid rubber reaches.

    Parameters
    ----------
    inside : tuple of float
        Rubber block [m].
    pressure : float
        Of the liquid rubber at the floor [Pa].

    Returns
    -------
    tuple of Seam
        Round the base; the four corners.
    """
    length, width, height = inside
    return (
        Seam(name="round the base", length=2 * (length + width), pressure=pressure),
        Seam(name="four corners", length=4 * height, pressure=pressure),
    )
