"""A way up in the words of somebody who stands before the mold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from pourwright.app.defaults import DEFAULTS
from pourwright.app.shaping.way_defaults import WAYS
from pourwright.app.shaping.ways import Weighed, tilt
from pourwright.foundation.notation import UnitSystem, format_length, format_share, format_volume
from pourwright.geometry import Pocket, Stretch, trapped_volume
from pourwright.materials import Rubber

STANDS = {"+z": "as it stands", "-z": "upside down"}
FACES = {"+z": "its top", "-z": "its underside"}
NO_NECK = 0.01
"""Lengthening below which no neck holds the piece."""


@dataclass(frozen=True)
class Teller:
    """Says what holds for one way up.

    Parameters
    ----------
    system : UnitSystem
        Of what is printed.
    rubber : Rubber
        Its elongation at break bounds what a neck may be stretched.
    """

    system: UnitSystem
    rubber: Rubber

    @property
    def bears(self) -> float:
        """How far the rubber may be lengthened in use, as a share."""
        return self.rubber.elongation_at_break.value / WAYS["stretch_margin"].value

    def reason(self, weighed: Weighed) -> str:
        """One sentence: why this way, or why not."""
        way = weighed.way
        if weighed.mouthless:
            return "Not as it is: no flat face on top, so the mold would have no mouth to pour through."
        if weighed.plugged:
            amount = format_volume(way.basins, self.system)
            hollow = f"a hollow of {amount} opens at the top only"
            return f"Not as it is: {hollow}; the rubber in it would hang on nothing."
        mouth = (
            f"The open face is {face_words(way.name)}, {format_share(way.open_share)} of the widest section"
        )
        return f"{mouth}; {self._air(weighed)}; {self._way_out(weighed)}."

    def against(self, weighed: Weighed, shallowest: float) -> Iterator[str]:
        """What speaks against this way."""
        way = weighed.way
        if weighed.grade < 2 and weighed.hold == "screwed":
            amount = format_volume(trapped_volume(way.hung), self.system)
            if amount != format_volume(0.0, self.system):
                yield f"hung, {amount} of air would stay under the master: screw it on, open face down"
        if weighed.grade < 2 and way.name == "+z":
            yield "the open face is the top as it stands: it is planed and sanded where everybody looks"
        if way.head > 1.5 * shallowest:
            deep = format_length(way.head, self.system)
            yield f"{deep} deep: more head on floor and seams than another way"
        if way.head > WAYS["slender"].value * float(way.size[:2].min()):
            yield "tall for its width: the box wants bracing"

    def hint(self, best: Weighed, holes: int) -> str:
        """What holds for the piece whichever way it lies; empty where there is nothing."""
        if best.grade == 2:
            return (
                "No way up has an open face to pour through: saw or draw a flat on the piece, or make a mold "
                "of two parts and pour through a hole drilled in it."
            )
        if holes and best.way.blocked >= DEFAULTS["hidden_share"].value:
            count = "A hole goes" if holes == 1 else f"{holes} holes go"
            return f"{count} right through the piece: rubber that closes in one has to be cut to come out."
        return ""

    def vent(self, pocket: Pocket, liquid: str, weighed: Weighed) -> str:
        """What to do about one pocket of caught air: a vent, or leaning the mold where little is enough."""
        up = weighed.way.up if liquid == "casting" or weighed.hold == "hung" else -weighed.way.up
        through = "the rubber" if liquid == "casting" else "the master"
        count, lean = len(pocket.peaks), tilt(pocket, up)
        if count > 1:
            return f"lead a vent up through {through} from each of its {count} highs"
        vent = f"lead a vent up through {through}"
        if lean > WAYS["steepest_tilt"].value:
            return vent
        return f"{vent}, or lean the mold by {_degrees(lean)} while it fills"

    def both(self, poured: float, standing: float) -> str:
        """A height as poured, and as the piece stands where that differs."""
        one, other = format_length(poured, self.system), format_length(standing, self.system)
        return f"{one} up" if one == other else f"{one} up ({other} as it stands)"

    def _air(self, weighed: Weighed) -> str:
        if not weighed.vents:
            return "no air is caught"
        amount = format_volume(trapped_volume((*weighed.casting, *weighed.rubber)), self.system)
        places = f"{weighed.vents} places" if weighed.vents > 1 else "one place"
        return f"{amount} of air is caught in {places}, which wants a way out"

    def _way_out(self, weighed: Weighed) -> str:
        way = weighed.way
        if way.blocked < DEFAULTS["hidden_share"].value:
            return "it comes straight out"
        over = f"rubber lies over {format_share(way.blocked)} of it"
        if way.stretch.share < NO_NECK:
            return f"{over} without a neck to stretch, so it is cut open there"
        return f"{over} and must {self.stretch(way.stretch)}"

    def stretch(self, found: Stretch) -> str:
        """How far the rubber's neck lengthens, against what it bears."""
        share, bears = format_share(found.share), format_share(self.bears)
        if found.share > self.bears:
            return f"lengthen by {share} to let it out, more than it bears ({bears}): it is cut open"
        return f"lengthen by {share} to let it out ({bears} is what it bears)"


def way_words(name: str) -> str:
    """Say how the piece lies.

    Parameters
    ----------
    name : str
        Direction that points up, as the job file writes it.

    Returns
    -------
    str

    Examples
    --------
    >>> way_words("-z"), way_words("+x"), way_words("0, 0.6, 0.8")
    ('upside down', 'on its side, +x up', 'askew, a slanting face up')
    """
    if name in STANDS:
        return STANDS[name]
    return "askew, a slanting face up" if "," in name else f"on its side, {name} up"


def _degrees(lean: float) -> str:
    """An angle [rad] in whole degrees, one at least."""
    whole = max(round(np.degrees(lean)), 1)
    return "1 degree" if whole == 1 else f"{whole} degrees"


def written_up(name: str) -> str:
    """Write a direction as the job file holds it.

    Parameters
    ----------
    name : str
        As in ``way_words``.

    Returns
    -------
    str

    Examples
    --------
    >>> written_up("-z"), written_up("0, 0.6, 0.8")
    ('"-z"', '[0, 0.6, 0.8]')
    """
    return f"[{name}]" if "," in name else f'"{name}"'


def face_words(name: str) -> str:
    """Name the face of the piece that becomes the open one.

    Parameters
    ----------
    name : str
        As in ``way_words``.

    Returns
    -------
    str

    Examples
    --------
    >>> face_words("-z"), face_words("-y"), face_words("0, 0.6, 0.8")
    ('its underside', 'its -y side', 'its slanting face')
    """
    if name in FACES:
        return FACES[name]
    return "its slanting face" if "," in name else f"its {name} side"
