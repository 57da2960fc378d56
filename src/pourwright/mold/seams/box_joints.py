"""The joints of the wooden box, which liquid rubber reaches."""

from __future__ import annotations

from pourwright.mold.box.joints import BUTT, Joint as Corner
from pourwright.mold.seams.joint import RUBBER, Joint, Kind
from pourwright.mold.seams.strip import Strip

CLOSE_BOX = "a bead of caulk smoothed into the corner on the inside, the panels screwed or clamped"
CLOSE_BED = "clay smoothed against the panels with a wet finger"


def box_joints(
    inside: tuple[float, float, float],
    thickness: float,
    level: float,
    gap: float,
    corner: Corner = BUTT,
) -> tuple[Joint, ...]:
    """List the joints of a box whose sides lap its ends and whose walls stand on its base.

    Parameters
    ----------
    inside : tuple of float
        Rubber block [m].
    thickness : float
        Of the panels [m]: the way out.
    level : float
        To which rubber is poured [m].
    gap : float
        That one expects [m].
    corner : Joint of the box
        How sides and ends meet: round the step of a rabbet or through a groove the way out is longer.

    Returns
    -------
    tuple of Joint
        The foot all round; the four upright corners.
    """
    round_ = 2 * (inside[0] + inside[1])
    # out round the end's edge: a step on one side of it, a groove on both
    path = thickness * (1.0 + corner.depth * (2.0 if corner.past else 1.0))
    return (
        _joint("foot", "foot of the box", (Strip(round_, thickness, 0.0, 0.0),), level, gap),
        _joint("corners", "upright corners", (Strip(level, path, 0.0, level),) * 4, level, gap),
    )


def two_pour_joints(
    inside: tuple[float, float, float], opens: int, thickness: float, gap: float
) -> tuple[Joint, ...]:
    """List the joints of a box that lies on its side for two pours over a parting bed.

    Parameters
    ----------
    inside : tuple of float
        Rubber block, both halves [m].
    opens : int
        Axis across which the halves part: 0 or 1; it stands upright while the rubber is poured.
    thickness : float
        Of the panels [m].
    gap : float
        That one expects [m].

    Returns
    -------
    tuple of Joint
        The four corners, twice; the rim of the clay bed, which only the first pour reaches.
    """
    deep = inside[opens] / 2
    round_ = 2 * (inside[1 - opens] + inside[2])
    corners = (Strip(deep, thickness, 0.0, deep),) * 8
    # under the clay the rubber would have to creep down the panel and out at its foot
    bed = (Strip(round_, deep + thickness, 0.0, 0.0),)
    return (
        _joint("corners", "corners of the box, both pours", corners, deep, gap),
        Joint(
            kind="bed", name="rim of the clay bed", reached_by=RUBBER, strips=bed, level=deep, gap=gap,
            closed_by=CLOSE_BED,
        ),
    )  # fmt: skip


def _joint(kind: Kind, name: str, strips: tuple[Strip, ...], level: float, gap: float) -> Joint:
    return Joint(
        kind=kind, name=name, reached_by=RUBBER, strips=strips, level=level, gap=gap, closed_by=CLOSE_BOX
    )
