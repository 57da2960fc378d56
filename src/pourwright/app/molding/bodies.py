"""The bodies of a job's mold: their volumes, sizes and numbers."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.molding.look import MoldLook
from pourwright.foundation.notation import format_length, format_volume
from pourwright.foundation.progress import Progress
from pourwright.jobs.mold_bodies import Bodies, BodyPart
from pourwright.mold.bodies.body import Body, MoldBodies
from pourwright.mold.bodies.making import mold_bodies

SAME = 0.005
"""Share of the rubber by which two ways of reckoning it may differ without a word."""


def bodies_of(look: MoldLook) -> MoldBodies:
    """Make the bodies around the master that really hangs or stands in the box.

    Parameters
    ----------
    look : MoldLook
        The mold.

    Returns
    -------
    MoldBodies
        Around the master as cut where the job tells it from the cavity it leaves.
    """
    made = look.piece.sizes
    return mold_bodies(look.mold, look.piece.mesh if made is None else made.master)


def bodies_look(look: MoldLook, progress: Progress) -> Bodies:
    """Measure every body.

    Parameters
    ----------
    look : MoldLook
        The mold.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    Bodies
    """
    del progress
    bodies = bodies_of(look)
    lower, upper = bodies.box.bounds
    x, y, z = (float(side) for side in upper - lower)
    return Bodies(
        rubber_m3=bodies.rubber.volume,
        blocks_m3=bodies.wood_volume,
        master_m3=bodies.master.volume,
        air_m3=bodies.air_volume,
        box_m3=bodies.box_volume,
        missing=bodies.missing,
        rubber_mixed_for_m3=look.mold.rubber.volume,
        inside_m=(x, y, z),
        outside_m=look.mold.outside,
        parts=[
            BodyPart(
                number=number, kind=alike[0].kind, name=alike[0].name, count=len(alike),
                size_m=_size(alike[0]), volume_m3=alike[0].volume,
            )
            for number, alike in enumerate(kinds_of(bodies), 1)
        ],
        warnings=list(_warnings(look, bodies)),
    )  # fmt: skip


def _size(body: Body) -> tuple[float, float, float]:
    """Of a panel as it is cut: length, width, thickness; of the rest along x, y, z."""
    if body.kind != "panel":
        return body.size
    longest, middle, least = sorted(body.size, reverse=True)
    return (longest, middle, least)


def kinds_of(bodies: MoldBodies) -> list[list[Body]]:
    """Put bodies of one kind and name together.

    Parameters
    ----------
    bodies : MoldBodies
        All.

    Returns
    -------
    list of list of Body
        In the order of the parts list: master, rubber, space blocks, panels.
    """
    kinds: dict[tuple[str, str], list[Body]] = {}
    for body in bodies:
        kinds.setdefault((body.kind, body.name), []).append(body)
    return list(kinds.values())


def _warnings(look: MoldLook, bodies: MoldBodies) -> Iterator[str]:
    drawn, mixed = bodies.rubber.volume, look.mold.rubber.volume
    if abs(drawn / mixed - 1.0) > SAME:
        told = [format_volume(volume, look.system) for volume in (drawn, mixed)]
        yield (f"The rubber's own body holds {told[0]}, the rubber is weighed out for {told[1]}.")
    free = look.mold.choices.freeboard
    if look.mold.method == "screwed" and free > 0:
        yield (
            f"The rubber ends {format_length(free, look.system)} below the rim: once the box is turned over "
            "it would hang. Lay boards of that thickness on it before the floor for casting goes on, or "
            "leave out mold.freeboard."
        )
