"""The box under load, as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType

from pourwright.cli.tables import facts
from pourwright.cli.words import Words

Part = Mapping[str, Any]
SEEN = 1e-4
"""Less than this bends unseen, however long [m]."""


def box_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell how far each kind of panel bulges, what stiffens it and what holds the box together.

    Parameters
    ----------
    part : mapping
        The part `box` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    rows = [("Box", f"{words.length(part['thickness_m'])} {part['board']}, {part['joint_words']}")]
    rows += [(panel["name"].capitalize(), _panel(panel, words)) for panel in part["panels"]]
    if crept := [panel for panel in part["panels"] if (panel["bulge_in_damp_m"] or 0.0) > SEEN]:
        rows.append(("In time", _crept(crept, words)))
    rows.append(("Head", part["head"]))
    corners = part["fastenings"]
    rows.append(
        ("Corners", f"take {corners[0]['text']}" if corners[0]["recommended"] else "nothing holds them")
    )
    rows += [("or", other["text"]) for other in corners[1:]]
    rows.append(("Base", "; ".join(each["text"] for each in part["base"])))
    if part["often"]:
        rows.append(("", part["often"]))
    rows.append(("Least rubber", part["wall_text"]))
    rows.append(("Filled mold", f"{words.mass(part['filled_kg'])}: {part['lifting']}"))
    yield facts(rows)


def _panel(panel: Part, words: Words) -> str:
    bulges = panel["bulge_reason"] or f"bulges {words.bend(panel['bulge_m'])}"
    if panel["battens"] is None:
        return f"{bulges}; {panel['battens_reason']}"
    if panel["battens"] == 0:
        return f"{bulges}: no battens"
    return f"{bulges}; {_battens(panel, words)} it at {words.bend(panel['held_m'])}"


def _battens(panel: Part, words: Words) -> str:
    at, count = words.listed(panel["batten_at_m"]), len(panel["batten_at_m"])
    if panel["batten_lie"] == "level":
        return f"level battens {at} up hold" if count > 1 else "a batten along the rim holds"
    stand = f"upright battens {at}" if count > 1 else f"an upright batten {at}"
    return f"{stand} from the corner inside and one along the rim hold"


def _crept(panels: list[Part], words: Words) -> str:
    dry, damp = (max(panel[key] for panel in panels) for key in ("bulge_in_time_m", "bulge_in_damp_m"))
    return f"left full for months it bends on to {words.bend(dry)}, in a damp shop {words.bend(damp)}"
