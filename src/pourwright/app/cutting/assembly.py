"""How the parts of the box come together, and what is checked before rubber is mixed."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from pourwright.app.cutting.look import CutLook
from pourwright.app.molding.blocks_words import coats_words
from pourwright.app.molding.box_corner_words import corner_words
from pourwright.app.molding.floats_words import screw_size
from pourwright.foundation.notation import UnitSystem, format_cut_length, format_length, format_load
from pourwright.jobs.cut_sheet import CutAssembly, CutStep
from pourwright.mold.hold.floats import mold_floats

Step = tuple[str, Sequence[str], str]
SQUARE = 0.001
"""By which the two diagonals of a box may differ [m], common practice."""
SEAL = "Seal and dry"
GLUE_TEXT = "Face on face with the edges flush; clamp until the glue holds, then trim to size."
JOINT_TEXT = "Cut them into the better face, and try them on an offcut first."
BLOCKS_TEXT = (
    "From outside through the panel, each inside its pencilled outline, its letter against the panel; caulk "
    "round it. The picture of the blocks has their places and screws."
)
BATTEN_TEXT = (
    "On edge against the outside, the uppermost along the rim. Screw through the panel from inside before it "
    "is sealed."
)
BARS_TEXT = "Screw the master to them on the bench; they lie across the rim, flush with the outside."
FLOOR_TEXT = "It goes under the mold once the box is turned over and the base board is off its mouth."
LEVEL = "The base lies level both ways and does not rock: a box that rocks leaks at its foot."
SEAMS = (
    "Every seam is caulked and wiped, screw heads and the edges of space blocks too; hold a lamp inside and "
    "look from outside."
)
DRY = "The sealer is dry and smells of nothing; panels, blocks and master have their release."
DRY_SKIN = "The sealer is dry and smells of nothing; the master has its release."
MASTER_TEXT = {
    "stacked": "Face on face in the order of their numbers, as told with the master; trim it once dry.",
    "sliced": "Face on face in the order of their numbers; then sand it to the inner edges of the steps.",
}


def assembly_of(look: CutLook) -> CutAssembly:
    """Tell the steps and the checks.

    Parameters
    ----------
    look : CutLook
        With its parts.

    Returns
    -------
    CutAssembly
        A step that no part comes in with is left out.
    """
    told = [step for step in _steps(look) if step[1] or step[0] == SEAL]
    return CutAssembly(
        steps=[
            CutStep(number=number, title=title, marks=list(marks), text=text)
            for number, (title, marks, text) in enumerate(told, start=1)
        ],
        checks=list(_checks(look)),
        pictures=dict(_pictures(look)),
    )


def _pictures(look: CutLook) -> Iterator[tuple[str, str]]:
    if look.box is not None:
        yield "box-panels", "Panels of the box with their screws and battens"
    if look.mold.mold.blocks:
        yield "space-blocks", "Panels from inside with their space blocks"


def _steps(look: CutLook) -> Iterator[Step]:
    """In the order of the work."""
    parts = look.around
    blocks = [part for part in parts if part.belongs == "space block"]
    glued = [part.mark for part in blocks if part.oversize]
    corners = _marks(look, "front side", "back side", "left end", "right end", "lath")
    yield "Glue up the master", *_master(look)
    yield "Glue up the space blocks", glued, GLUE_TEXT
    yield "Cut the joints", [part.mark for part in parts if part.grooves], _joint_text(look)
    yield "Drill", [part.mark for part in parts if part.holes], _drill_text(look)
    yield "Screw battens on", _marks(look, "batten"), BATTEN_TEXT
    yield "Screw the space blocks on", [part.mark for part in blocks], BLOCKS_TEXT
    yield SEAL, (), f"All wood that rubber can reach, edges twice: {coats_words(look.mold)}."
    yield "Close the four corners", corners, _corner_text(look)
    yield "Set it on its base", _marks(look, "base board"), _base_text(look)
    yield "Screw the master down", *_screwed(look)
    yield "Lay the bars ready", _marks(look, "bar "), BARS_TEXT
    yield "Keep for casting", _marks(look, "floor for casting"), FLOOR_TEXT


def _marks(look: CutLook, *begins: str) -> list[str]:
    return [part.mark for part in look.around if part.mark.startswith(begins)]


def _master(look: CutLook) -> tuple[list[str], str]:
    wood = look.master
    if wood is None or (len(wood.parts) == 1 and wood.kind == "stacked"):
        return [], ""
    return [part.mark for part in wood.parts], MASTER_TEXT[wood.kind]


def _screwed(look: CutLook) -> tuple[list[str], str]:
    """Say where the screws go that hold a master on its base board."""
    mold = look.mold.mold
    screws = mold_floats(mold).screws
    if mold.choices.way != "block" or mold.method != "screwed" or screws.screw is None:
        return [], ""
    size, apart = screw_size(screws.screw, look.mold.system), look.length(screws.apart)
    text = (
        f"{screws.count} wood screws of {size} up through the base board, spread over the face that it "
        f"stands on, some {apart} apart; it stands in the middle of the box."
    )
    return ["base board"], text


def _joint_text(look: CutLook) -> str:
    words = look.mold.mold.choices.joint.words
    return f"{words[:1].upper()}{words[1:]}. {JOINT_TEXT}"


def _drill_text(look: CutLook) -> str:
    # in thousandths of an inch, as the drawings have it: sixteenths choose no drill
    metric = look.mold.system is UnitSystem.METRIC
    wide = (format_length if metric else format_cut_length)(look.screws.diameter, look.mold.system)
    return (
        f"Through the panel for the shank, {wide}, where its drawing has a cross; into the edge behind it a "
        "thinner hole, so that it does not split."
    )


def _corner_text(look: CutLook) -> str:
    return "" if look.box is None else corner_words(look.box, look.box.corners[0])


def _base_text(look: CutLook) -> str:
    number = sum(len(part.holes) for part in look.around if part.mark == "base board")
    holds = f"{number} screws" if number else "Glue and clamps"
    return f"{holds} from below; a bead of caulk along the inside, wiped flush with a wet finger."


def _checks(look: CutLook) -> Iterator[str]:
    """What is measured before rubber is mixed."""
    mold, length = look.mold.mold, look.length
    if look.box is None:
        yield DRY_SKIN
        return
    x, y, z = mold.inside
    yield (
        f"Inside {length(x)} × {length(y)}, {length(z + mold.choices.freeboard)} high; both diagonals "
        f"{length(math.hypot(x, y))}, at most {length(SQUARE)} apart."
    )
    yield f"The master has {length(mold.wall)} or more to every panel, {length(mold.base)} at its base."
    yield LEVEL
    yield SEAMS
    yield DRY
    if mold.choices.way == "block":
        yield f"What lifts the master is held: {_held(look)}."


def _held(look: CutLook) -> str:
    held = look.mold.mold.hold_down
    if held.screws_needed is not None:
        return f"{held.screws_needed} screws through the base board into it"
    return f"{format_load(held.weight_needed, look.mold.system)} ready to be laid on the bars"
