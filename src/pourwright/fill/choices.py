"""What was chosen about the fill, in SI."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from pourwright.fill.defaults import DEFAULTS
from pourwright.foundation.notation import UnitSystem
from pourwright.materials.batches import Tools
from pourwright.materials.records import Glass, Resin


@dataclass(frozen=True, slots=True)
class BucketTest:
    """Dry glass poured level into a bucket.

    Parameters
    ----------
    volume : float
        Of the bucket to its brim [m3].
    mass : float or None
        Of the glass alone [kg].
    water : float or None
        Water that the full bucket takes up on top of its glass, where that was measured instead [m3].
    """

    volume: float
    mass: float | None = None
    water: float | None = None


@dataclass(frozen=True, slots=True)
class Stock:
    """Crushed glass that lies ready.

    Parameters
    ----------
    grade : str
        Of the glass.
    colour : str or None
        None where any will do.
    mass : float
        Dry [kg].
    """

    grade: str
    colour: str | None
    mass: float


@dataclass(frozen=True, slots=True)
class ShellChoice:
    """Glass of another colour along the wall of a band.

    Parameters
    ----------
    colour : str
        Of the shell; the band's own colour is its core.
    thickness : float
        From the wall inward [m].
    where : str
        File and line of its thickness, for messages.
    colour_where : str
        The same of its colour.
    """

    colour: str
    thickness: float
    where: str = ""
    colour_where: str = ""


@dataclass(frozen=True, kw_only=True)
class BandChoice:
    """One band, from the top of the band below to ``to``.

    Parameters
    ----------
    to : float or None
        Upper height from the mold's floor as cast [m]; None is the top.
    grade, colour : str or None
        Of the glass; grade None is neat resin.
    void_fraction : float or None
        As stated by the maker [-].
    bucket_test : BucketTest or None
        The shop's own measurement; wins over a stated value.
    blend : tuple
        Grades and shares, where ``grade`` names a mixture.
    tapped : bool
        Whether the mold is tapped while this glass goes in.
    soft : float or None
        Depth over which its upper border is mixed with the band above [m]; None is a sharp border.
    shell : ShellChoice or None
        Another colour along the wall.
    where, grade_where, colour_where, soft_where : str
        File and line of the band's upper end, grade, colour and soft border, for messages.
    """

    to: float | None = None
    grade: str | None = None
    colour: str | None = None
    void_fraction: float | None = None
    bucket_test: BucketTest | None = None
    blend: tuple[tuple[str, float], ...] = ()
    tapped: bool = False
    name: str = ""
    where: str = ""
    grade_where: str = ""
    colour_where: str = ""
    soft: float | None = None
    soft_where: str = ""
    shell: ShellChoice | None = None


@dataclass(frozen=True, kw_only=True)
class FillChoices:
    """Choices for glass and resin.

    Parameters
    ----------
    resin, glass : record
        Casting resin as mixed; glass with its grades.
    bands : tuple of BandChoice
        From the mold's floor up as cast.
    neat_cover : float or None
        Neat resin over the glass at the open face [m]; None: one largest grain deep.
    film : float
        Resin that clings, per face area [m].
    bucket_loss : float
        Share of the mix that stays in the pail [-].
    allowance : float
        Share of what goes into the mold that is mixed on top [-].
    overfill : float
        Poured over the open face, to be planed off [m].
    bottle_mass : float or None
        Mass of one bottle [kg]; None: from the glass record.
    bottle_masses : mapping of str to float
        The same by colour, where that is known [kg].
    bought : frozenset of str
        Colours that come crushed and graded: no bottles are counted for them.
    crush_yield : mapping of str to float
        Share of a crushed bottle that ends in a grade [-], by grade; the record's where missing.
    stock : tuple of Stock
        Glass that lies ready; empty where the job does not say.
    tools : Tools
        Pail and scale.
    units : UnitSystem
        What the maker reads, in sentences only.
    """

    resin: Resin
    glass: Glass
    bands: tuple[BandChoice, ...]
    neat_cover: float | None = None
    film: float = DEFAULTS["film"].value
    bucket_loss: float = DEFAULTS["bucket_loss"].value
    allowance: float = DEFAULTS["allowance"].value
    overfill: float = 0.0
    bottle_mass: float | None = None
    bottle_masses: Mapping[str, float] = field(default_factory=dict)
    bought: frozenset[str] = frozenset()
    crush_yield: dict[str, float] = field(default_factory=dict)
    stock: tuple[Stock, ...] = ()
    tools: Tools = field(default_factory=Tools)
    units: UnitSystem = UnitSystem.METRIC
