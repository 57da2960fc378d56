"""Bodies moved apart along the axes, so that each is seen: the order in which the mold is opened."""

from __future__ import annotations

from pourwright.mold.bodies.body import Body, MoldBodies

GAP, BELOW, OUTWARD, BESIDE = 0.16, 0.34, 0.26, 0.14
"""Between storeys, under the panels, of the panels and of the space blocks, as shares of the longest side."""
_WAYS = {"left": (-1, 0), "right": (1, 0), "front": (0, -1), "back": (0, 1)}
Shift = tuple[float, float, float]


def apart(bodies: MoldBodies) -> tuple[tuple[Body, Shift], ...]:
    """Say how far each body is moved for a picture of all.

    Parameters
    ----------
    bodies : MoldBodies
        In their places.

    Returns
    -------
    tuple of (Body, (x, y, z))
        From below up: what lies under the box, sides and ends pulled outward, rubber with its space blocks
        beside it, the master above its mouth, the base board of a screwed master [m].
    """
    low, high = (float(z) for z in bodies.box.bounds[:, 2])
    longest = max(*bodies.rubber.size, high - low)
    gap = GAP * longest
    rubber = high - low + gap
    master = rubber + bodies.rubber.size[2] + 1.5 * gap
    storey = {"below": -BELOW * longest, "above": master + gap}

    def shift(body: Body) -> Shift:
        if body.kind == "master":
            return (0.0, 0.0, master)
        x, y = _WAYS.get(body.place, (0, 0))
        if body.kind == "panel":
            out = OUTWARD * longest
            return (x * out, y * out, storey.get(body.place, 0.0))
        out = BESIDE * longest * (body.kind == "block")
        return (x * out, y * out, rubber - (out if body.place == "below" else 0.0))

    return tuple((body, shift(body)) for body in bodies)
