"""A level as somebody reads it, in the plan's own frame and back."""

from __future__ import annotations

from typing import Literal

from pourwright.app.benching.step import BY_WEIGHT
from pourwright.app.booking.words import shown_value
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import System, format_length, parse_quantity
from pourwright.foundation.quantities import Dimension
from pourwright.jobs.plan import PlanDocument
from pourwright.records import Entry

Reading = Literal["poured", "standing", "dip"]


def read_level(plan: PlanDocument, text: str, how: Reading = "poured") -> float:
    """Read a level.

    Parameters
    ----------
    plan : PlanDocument
        What is poured.
    text : str
        As on the tape.
    how : str
        ``poured`` from the mold's floor, ``standing`` from the floor as the piece stands, ``dip`` from the
        rim down.

    Returns
    -------
    float
        From the mold's floor as poured [m].

    Raises
    ------
    UserError
        For a level above the mold or below its floor.
    """
    where = {"poured": "level", "standing": "--standing", "dip": "--dip"}[how]
    said = parse_quantity(text, Dimension.LENGTH, where=where).si
    rim, system = plan.section.rim_m, plan.job.units
    level = {"poured": said, "standing": _from_standing(plan, said), "dip": rim - said}[how]
    # a tape is read to a millimetre
    if not -1e-3 <= level <= rim + 1e-3:
        side = "above the mold" if level > rim else "below the mold's floor"
        raise UserError(
            f"'{text}' lies {side}",
            where=where,
            allowed=f"0 to {format_length(rim, system)} from the floor as poured, which are dips of"
            f" {format_length(rim, system)} to 0 from the rim",
            todo="measure again, and look which way the tape was held",
        )
    return min(max(level, 0.0), rim)


def shown_level(plan: PlanDocument, level: float, system: System | None = None) -> str:
    """Write a level in both readings, and as a dip.

    Parameters
    ----------
    plan : PlanDocument
        What is poured.
    level : float
        From the mold's floor as poured [m].
    system : UnitSystem, optional
        Else the plan's.

    Returns
    -------
    str
    """
    units = system or plan.job.units
    standing = standing_level(plan, level)
    text = f"{format_length(level, units)} from the floor"
    if standing is not None and abs(standing - level) > 5e-4:
        text += f" ({format_length(max(standing, 0.0), units)} as it stands)"
    return f"{text}, dip {format_length(max(plan.section.rim_m - level, 0.0), units)}"


def shown_reading(plan: PlanDocument, kind: str, value: float | None) -> str:
    """Write the value of an entry in the maker's unit, a level in both readings.

    Parameters
    ----------
    plan : PlanDocument
        What is poured.
    kind : str
        Of the entry, one of `pourwright.records.KINDS`.
    value : float or None
        In the unit of its kind.

    Returns
    -------
    str
        Empty where it has none.
    """
    if kind in ("level", "water_level") and value is not None:
        return shown_level(plan, value)
    return shown_value(kind, value, plan.job.units)


def standing_level(plan: PlanDocument, level: float) -> float | None:
    """Give a level as the piece stands.

    Parameters
    ----------
    plan : PlanDocument
        What is poured.
    level : float
        From the mold's floor as poured [m].

    Returns
    -------
    float or None
        [m]; None where it is poured on its side, so that a level has no height as it stands.
    """
    if not plan.dip_stick:
        return None
    row = plan.dip_stick[-1]
    if plan.piece.flipped:
        return row.height_m + row.height_standing_m - level
    return level if abs(row.height_standing_m - row.height_m) < 1e-6 else None


def _from_standing(plan: PlanDocument, said: float) -> float:
    # turned upside down, the way there is the way back
    level = standing_level(plan, said)
    return said if level is None else level


def is_out_of_sight(entry: Entry) -> bool:
    """Tell whether somebody looked for the level and could not see it below the glass.

    Parameters
    ----------
    entry : Entry
        Of a pour.

    Returns
    -------
    bool
        False where nobody looked, since the weights say what is in.
    """
    return entry.kind == "no_level" and entry.text != BY_WEIGHT
