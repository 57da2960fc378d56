"""Lines of cost added up: each an amount times a price, shared and rounded once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal

from pourwright.costing.learning import mean_factor
from pourwright.costing.starts import starts_per_good
from pourwright.foundation.notation import rounded_money

Stage = Literal["mold", "casting", "piece"]
"""What a line is paid for: once for a mold, for every casting begun, or for every good piece."""
PRACTICE, SCRAP = "practice", "scrap"
ONE = Decimal(1)


@dataclass(frozen=True, slots=True)
class Line:
    """An amount at a price.

    Parameters
    ----------
    key : str
        Names it.
    stage : str
        "mold", "casting" or "piece".
    amount : Decimal
        In the unit that the price is for.
    price : Decimal or None
        Money for one of that unit; None where nobody knows it.
    practised : bool
        Whether it falls as one gets used to the work.
    """

    key: str
    stage: Stage
    amount: Decimal
    price: Decimal | None
    practised: bool = False

    @property
    def money(self) -> Decimal | None:
        """Amount times price, once for its stage."""
        return None if self.price is None else self.amount * self.price


@dataclass(frozen=True, slots=True)
class Run:
    """How many pieces are made, and how many fail.

    Parameters
    ----------
    casts : Decimal
        Castings that share one mold.
    scrap : Decimal
        Share of the castings begun that give no good piece, below 1.
    found_finished : bool
        Whether that shows only once a piece is finished, so that finishing is lost too.
    learning : Decimal
        Hours of the 2n-th piece over those of the n-th; 1 for no practice.
    pieces : int
        Good pieces of the run.
    begins : int
        Which piece of its kind the first of the run is, counted from 1.
    """

    casts: Decimal
    scrap: Decimal = Decimal(0)
    found_finished: bool = False
    learning: Decimal = ONE
    pieces: int = 1
    begins: int = 1

    @property
    def starts(self) -> Decimal:
        """Castings begun for one good piece."""
        return starts_per_good(ONE - self.scrap)


@dataclass(frozen=True, slots=True)
class Share:
    """What one line puts on one casting begun, or on one good piece.

    Parameters
    ----------
    key : str
        Of the line.
    stage : str
        Of the line.
    exact : Decimal or None
        Unrounded; None where its price is not known.
    money : Decimal or None
        Rounded to the smallest coin.
    """

    key: str
    stage: Stage
    exact: Decimal | None
    money: Decimal | None


@dataclass(frozen=True, slots=True)
class Cost:
    """What one good piece costs.

    Parameters
    ----------
    shares : tuple of Share
        In their order, with what practice takes off and what scrap adds.
    casting : Decimal
        One casting begun, its share of the mold in it: sum of rounded lines.
    full : Decimal
        One good piece: sum of all rounded lines.
    exact : Decimal
        The same, unrounded.
    missing : tuple of str
        Keys of lines without a price: they are in no sum.
    """

    shares: tuple[Share, ...]
    casting: Decimal
    full: Decimal
    exact: Decimal
    missing: tuple[str, ...] = field(default=())

    def of(self, *keys: str) -> Decimal:
        """Sum some lines, rounded."""
        return sum((each.money for each in self.shares if each.key in keys and each.money), Decimal(0))


def cost_of(lines: Sequence[Line], run: Run, currency: str) -> Cost:
    """Add up what one good piece costs.

    Parameters
    ----------
    lines : sequence of Line
        All that is paid for; prices in one currency.
    run : Run
        How many are made and fail.
    currency : str
        ISO 4217 code: its smallest coin is what each line is rounded to.

    Returns
    -------
    Cost

    Notes
    -----
    Each line is rounded once, half a coin up, and a total is the sum of the rounded lines: what is printed
    adds up. A casting that fails is lost whole: what one start costs is paid 1 / (1 - scrap) times for a good
    piece.

    Examples
    --------
    >>> resin = Line("resin", "casting", Decimal(2), Decimal("10.00"))
    >>> lines = [resin, Line("box", "piece", Decimal(1), None)]
    >>> cost = cost_of(lines, Run(Decimal(30), scrap=Decimal("0.2")), "EUR")
    >>> cost.full, cost.missing
    (Decimal('25.00'), ('box',))
    """
    cast = [_share(line, run, currency) for line in lines if line.stage != "piece"]
    cast += _practice("casting", [line for line in lines if line.stage == "casting"], run, currency)
    done = [_share(line, run, currency) for line in lines if line.stage == "piece"]
    done += _practice("piece", [line for line in lines if line.stage == "piece"], run, currency)
    lost = _exact(cast) + (_exact(done) if run.found_finished else Decimal(0))
    extra = lost * (run.starts - ONE)
    scrap = [Share(SCRAP, "casting", extra, rounded_money(extra, currency))] if extra else []
    shares = (*cast, *scrap, *done)
    return Cost(
        shares=shares,
        casting=rounded_money(_money(cast), currency),
        full=rounded_money(_money(shares), currency),
        exact=_exact(shares),
        missing=tuple(each.key for each in shares if each.exact is None),
    )


def _share(line: Line, run: Run, currency: str) -> Share:
    money = line.money
    if money is not None and line.stage == "mold":
        money = money / run.casts
    return Share(line.key, line.stage, money, None if money is None else rounded_money(money, currency))


def _practice(stage: Stage, lines: Iterable[Line], run: Run, currency: str) -> list[Share]:
    """What practice takes off: the mean over the run; castings that fail are practice too."""
    if run.learning == ONE:
        return []
    factor = practised(stage, run)
    paid = sum((line.money for line in lines if line.practised and line.money is not None), Decimal(0))
    less = paid * (factor - ONE)
    return [Share(f"{PRACTICE}-{stage}", stage, less, rounded_money(less, currency))] if paid else []


def practised(stage: Stage, run: Run) -> Decimal:
    """Mean hours of a stage over the run, over those that were planned.

    Parameters
    ----------
    stage : str
        Castings that fail are practice too.
    run : Run
        With its learning.

    Returns
    -------
    Decimal
        [-]

    Examples
    --------
    >>> practised("piece", Run(Decimal(30), learning=Decimal("0.8"), pieces=2))
    Decimal('0.9')
    """
    if run.learning == ONE or stage == "mold":
        return ONE
    # divided at once: 21 times 1 / 0.7 is a hair more than 30
    count = run.pieces / (ONE - run.scrap) if stage == "casting" else Decimal(run.pieces)
    return mean_factor(int(count.to_integral_value("ROUND_CEILING")), run.learning, run.begins)


def _exact(shares: Iterable[Share]) -> Decimal:
    return sum((each.exact for each in shares if each.exact is not None), Decimal(0))


def _money(shares: Iterable[Share]) -> Decimal:
    return sum((each.money for each in shares if each.money is not None), Decimal(0))
