"""Every height in both readings: from the mold's floor as poured, and from the floor as the piece stands."""

from __future__ import annotations

from pourwright.foundation.notation import System, format_length
from pourwright.geometry import PourFrame


def in_both(
    frame: PourFrame, poured: float, system: System, place: tuple[float, float, float] | None = None
) -> str:
    """Write a height as poured, with the height as the piece stands in brackets where it differs.

    Parameters
    ----------
    frame : PourFrame
        How the piece lies.
    poured : float
        From the mold's floor [m].
    system : UnitSystem
        Of the words.
    place : tuple of float, optional
        The very point, x, y, z as poured [m]: it has a height as it stands however the piece lies. A level
        has none where the piece lies on its side or askew.

    Returns
    -------
    str

    Examples
    --------
    >>> from pourwright.geometry import box, pour_frame
    >>> upside_down, on_its_side = (pour_frame(box([0.2, 0.2, 0.5]), up)[1] for up in ("-z", "+x"))
    >>> in_both(upside_down, 0.1, "metric"), in_both(on_its_side, 0.1, "metric")
    ('100 mm (400 mm as it stands)', '100 mm')
    >>> in_both(on_its_side, 0.1, "metric", (0.15, 0.0, 0.1))
    '100 mm (100 mm as it stands)'
    """
    text = format_length(poured, system)
    if not frame.upright and place is None:
        return text
    height = frame.as_standing(poured) if place is None else frame.standing_height(place)
    standing = format_length(max(height, 0.0), system)
    return text if frame.up == "+z" else f"{text} ({standing} as it stands)"
