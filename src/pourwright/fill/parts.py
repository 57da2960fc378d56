"""Bands, glass lots and the resin ledger, in SI; heights from the mold's floor as cast."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Voids:
    """Void fraction with its band [-] and where it comes from."""

    value: float
    low: float
    high: float
    source: str


@dataclass(frozen=True, kw_only=True)
class Shell:
    """Glass of another colour along the wall of a band.

    Parameters
    ----------
    colour : str
        Of the shell.
    thickness : float
        From the wall inward [m].
    volume : float
        Of the shell, between its band's heights [m3].
    """

    colour: str
    thickness: float
    volume: float


@dataclass(frozen=True, kw_only=True)
class FillBand:
    """One band as it will lie in the piece.

    Parameters
    ----------
    lower, upper : float
        Heights [m].
    volume : float
        Cavity between them [m3].
    void_fraction, void_low, void_high : float
        Volume of resin over volume of the band [-]; 1 for a neat band.
    void_source : str
        Where the void fraction comes from.
    void_in_bucket : float
        Void fraction of the same glass in the bucket it was measured in [-].
    blend : tuple
        Grades and shares, where ``grade`` names a mixture.
    glass_mass, resin_mass : float
        In the piece [kg].
    shell : Shell or None
        Another colour along the wall, in the band's own glass mass.
    """

    name: str
    lower: float
    upper: float
    grade: str | None
    colour: str | None
    volume: float
    void_fraction: float
    void_low: float
    void_high: float
    void_source: str
    glass_mass: float
    resin_mass: float
    void_in_bucket: float = 1.0
    blend: tuple[tuple[str, float], ...] = ()
    shell: Shell | None = None

    @property
    def shell_mass(self) -> float:
        """Glass in the shell, as loose as the whole band [kg]."""
        return 0.0 if self.shell is None else self.glass_mass * self.shell.volume / self.volume

    @property
    def colours(self) -> tuple[tuple[str | None, float], ...]:
        """Colours with their glass [kg]: the shell's first, where there is one."""
        if self.shell is None:
            return ((self.colour, self.glass_mass),)
        return ((self.shell.colour, self.shell_mass), (self.colour, self.glass_mass - self.shell_mass))

    @property
    def lots(self) -> tuple[tuple[str, str | None, float], ...]:
        """Grades and colours with their glass [kg]; none where it is neat."""
        if self.grade is None:
            return ()
        return tuple(
            (grade, colour, share * mass)
            for colour, mass in self.colours
            for grade, share in self.blend or ((self.grade, 1.0),)
        )

    @property
    def neat(self) -> bool:
        """Whether the band holds no glass."""
        return self.grade is None


@dataclass(frozen=True, kw_only=True)
class GlassLot:
    """Glass to have ready: one grade in one colour.

    Parameters
    ----------
    mass : float
        Dry glass [kg].
    bottles : int or None
        Bottles of that colour that yield it; the bottles of one colour yield all their grades
        at once, see `FillResult.bottles_by_colour`. None where it is bought graded.
    sieve_from, sieve_to : float
        Stays on, passes [m].
    """

    grade: str
    colour: str
    mass: float
    bottles: int | None
    sieve_from: float
    sieve_to: float


@dataclass(frozen=True, kw_only=True)
class ResinLedger:
    """Where the resin goes [kg].

    Parameters
    ----------
    voids, neat : float
        In the piece: between the grains, in neat bands.
    film : float
        Clings to mold and tools.
    bucket : float
        Stays in the pail.
    allowance : float
        Mixed on top.
    overfill : float
        Stands over the open face, and is planed off.
    """

    voids: float
    neat: float
    film: float
    bucket: float
    allowance: float
    overfill: float = 0.0

    @property
    def in_piece(self) -> float:
        """Resin that becomes the piece [kg]."""
        return self.voids + self.neat

    @property
    def poured(self) -> float:
        """Resin that lifts the level: in the piece, and over it [kg]."""
        return self.in_piece + self.overfill

    @property
    def total(self) -> float:
        """Resin to mix [kg]."""
        return self.poured + self.film + self.bucket + self.allowance
