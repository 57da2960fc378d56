"""Air that the rubber and the casting catch, told from the mold of a job."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count

import numpy as np

from pourwright.app.defaults import DEFAULTS
from pourwright.app.molding.air_words import HELD, AirTeller
from pourwright.app.molding.look import MoldLook
from pourwright.foundation.progress import Progress
from pourwright.jobs.mold_air import AirPlace, AirTilt, AirVent, LiquidAir, MoldAir
from pourwright.mold.air.cure import Cure
from pourwright.mold.air.design import AirCase, LiquidAir as Found, MoldAir as Decided, design_air
from pourwright.mold.air.places import Place
from pourwright.mold.air.tilt import Tilt
from pourwright.mold.air.vents import Vent
from pourwright.mold.blocks.letter import letter
from pourwright.mold.way_out.places import side_words


def air_look(look: MoldLook, progress: Progress) -> MoldAir:
    """Say where air is caught and how it is let out.

    Parameters
    ----------
    look : MoldLook
        The mold.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    MoldAir
    """
    del progress
    air, number = air_of(look), count()
    told = [_told(look, found, number) if found else None for found in (air.rubber, air.casting)]
    tellers = [AirTeller(look, found) for found in (air.rubber, air.casting) if found]
    assert told[1] is not None
    return MoldAir(
        rubber=told[0],
        casting=told[1],
        warnings=[text for teller in tellers for text in teller.warnings()],
        cautions=[text for teller in tellers for text in teller.cautions()],
    )


def air_of(look: MoldLook) -> Decided:
    """Decide about the air of a mold.

    Parameters
    ----------
    look : MoldLook
        The mold.

    Returns
    -------
    MoldAir
        Of the mold room.
    """
    mold, made = look.mold, look.piece.sizes
    return design_air(
        AirCase(
            mesh=look.piece.mesh if look.hollow is None else look.hollow.body.room,
            master=look.piece.mesh if made is None else made.master,
            method=mold.method,
            inside=mold.inside[:2],
            outside=mold.outside[:2],
            box_height=mold.inside[2] + mold.choices.freeboard,
            least_mouth=DEFAULTS["least_mouth"].value,
            rubber=mold.choices.way == "block",
            cored=look.hollow is not None,
        )
    )


def _told(look: MoldLook, found: Found, number: Iterator[int]) -> LiquidAir:
    teller, caught = AirTeller(look, found), found.caught
    places = _once([_place(teller, cure, letter(next(number))) for cure in found.cures])
    return LiquidAir(
        liquid="casting" if found.which == "casting" else "rubber",
        held=HELD[found.which],
        caught_m3=caught.volume,
        places=places,
        not_told=max(len(caught.places) - sum(isinstance(cure.place, Place) for cure in found.cures), 0),
        small=caught.small,
        small_m3=caught.small_volume,
        least_m3=caught.least,
        simplified=found.simplified,
        words=teller.summary(),
    )


def _once(places: list[AirPlace]) -> list[AirPlace]:
    """What is done about several places alike is said once."""
    first: dict[str, str] = {}
    return [
        place
        if first.setdefault(place.todo, place.letter) == place.letter
        else place.model_copy(update={"todo": f"As {first[place.todo]}."})
        for place in places
    ]


def _place(teller: AirTeller, cure: Cure, name: str) -> AirPlace:
    place, frame = cure.place, teller.look.piece.frame
    caught = isinstance(place, Place)
    top = place.top if isinstance(place, Place) else place.middle
    x, y, z = (float(value) for value in top)
    return AirPlace(
        letter=name,
        kind="caught" if caught else "ceiling",
        volume_m3=place.volume if isinstance(place, Place) else None,
        area_m2=place.area,
        depth_m=place.depth if isinstance(place, Place) else 0.0,
        x_m=x,
        y_m=y,
        z_m=z,
        height_standing_m=max(frame.standing_height((x, y, z)), 0.0),
        closed_at_m=place.lip if isinstance(place, Place) else z,
        where=teller.where(top),
        take=cure.take,
        todo=teller.todo(cure),
        tilt=None if cure.tilt is None else _tilt(cure.tilt),
        vents=[_vent(teller, vent) for vent in cure.vents],
    )


def _tilt(tilt: Tilt) -> AirTilt:
    return AirTilt(
        side=side_words(tilt.side),
        side_deg=float(np.degrees(tilt.side)),
        tilt_deg=float(np.degrees(tilt.angle)),
        least_deg=float(np.degrees(tilt.least)),
        chock_m=tilt.chock,
        until_m=tilt.until,
        left_m3=tilt.left,
    )


def _vent(teller: AirTeller, vent: Vent) -> AirVent:
    x, y, z = (float(value) for value in vent.foot)
    return AirVent(
        x_m=x, y_m=y, z_m=z, where=teller.where(vent.foot), length_m=vent.length, bore_m=vent.bore,
        volume_m3=vent.volume, ends_inside=vent.ends_inside,
    )  # fmt: skip
