"""One way of making a mold: what it takes, what it gives, what stands in its way."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.materials.batches import Batch
from pourwright.mold.ways.work import Step

Band = tuple[float, float, float]


@dataclass(frozen=True, kw_only=True)
class Way:
    """One way.

    Parameters
    ----------
    way : str
        "block", "two-part" or "skin", as in the job file.
    held : str
        "hung", "screwed"; "bed" for a master that lies in clay.
    space_blocks : bool
        Whether wood takes rubber's place.
    volume, mass : float
        Of the rubber in the mold [m3], [kg].
    pours : tuple of tuple of Batch
        Batches of each pour, or of each coat.
    panel_area, block_volume : float
        Board of the box [m2], wood of the space blocks [m3].
    blocks : int
        Space blocks.
    shell_volume, clay_volume : float
        Of a shell, of a bed [m3].
    steps : tuple of Step
        Of making the mold, once.
    each : tuple of Step
        Of every cast.
    lines : int
        Parting lines seen on the piece: 0 none, 1 down one side, 2 all round, 3 down two sides.
    line : float
        Their length [m].
    lift : float
        What lifts the master out of the rubber [N]; 0 where nothing does.
    turned : float
        Mass that is turned over with the master in it [kg]; 0 where nothing is.
    planned : bool
        Whether heat and pours can be planned in it, where the casting material asks for a plan.
    life : tuple of float
        Casts: low, likely, high.
    no : tuple of str
        Why it cannot be made so; empty where it can.
    against : tuple of str
        What speaks against it.
    """

    way: str
    held: str
    space_blocks: bool = False
    volume: float
    mass: float
    pours: tuple[tuple[Batch, ...], ...]
    panel_area: float
    block_volume: float = 0.0
    blocks: int = 0
    shell_volume: float = 0.0
    clay_volume: float = 0.0
    steps: tuple[Step, ...]
    each: tuple[Step, ...]
    lines: int
    line: float
    lift: float
    turned: float = 0.0
    planned: bool = True
    life: Band
    no: tuple[str, ...] = ()
    against: tuple[str, ...] = ()

    @property
    def id(self) -> str:
        """Its name for machines."""
        if self.way != "block":
            return self.way
        return f"block-{self.held}{'-space-blocks' if self.space_blocks else ''}"

    @property
    def possible(self) -> bool:
        """Whether nothing rules it out."""
        return not self.no

    @property
    def mixed(self) -> float:
        """Rubber mixed in all [kg]."""
        return sum(batch.mass for pour in self.pours for batch in pour)

    @property
    def batches(self) -> int:
        """Pails in all."""
        return sum(len(pour) for pour in self.pours)

    @property
    def work(self) -> Band:
        """Time at work to make the mold: low, likely, high [s]."""
        return _summed(self.steps)

    @property
    def work_each(self) -> Band:
        """Time at work for every cast, pouring left out: low, likely, high [s]."""
        return _summed(self.each)


def _summed(steps: tuple[Step, ...]) -> Band:
    return sum(s.low for s in steps), sum(s.work for s in steps), sum(s.high for s in steps)
