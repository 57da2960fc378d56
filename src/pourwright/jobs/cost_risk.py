"""Part of the cost's document: what a month may bring in when nothing comes quite as planned."""

from __future__ import annotations

from decimal import Decimal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class RiskInput(Part):
    """One thing that is not known exactly."""

    key: str
    words: str
    low: float = Field(description="over what is planned; a share where it is one")
    likely: float
    high: float
    mean: float
    where: str = Field(description="price list with its line, the book, or common practice")


class RiskMatters(Part):
    """Where the spread of profit comes from."""

    key: str
    words: str
    alone: float = Field(description="share of the variance that goes if it alone were known")
    total: float = Field(description="that stays if all others were known")


class RiskBar(Part):
    """Months by their profit."""

    low: Decimal
    high: Decimal
    share: float


class RiskWhatIf(Part):
    """One change, over the very same months."""

    words: str
    mean: Decimal
    change: Decimal
    loses: float


class RiskOfMonth(Part):
    """Profit of a month, sold directly at the price that leaves the margin."""

    orders: float = Field(description="in a month, likely")
    most: float | None = Field(description="castings that can be begun; null: not known")
    planned: Decimal = Field(description="where all comes as planned")
    mean: Decimal
    mean_error: Decimal = Field(description="three deviations over the root of the number of months")
    p10: Decimal = Field(description="one month in ten brings less")
    p50: Decimal
    p90: Decimal = Field(description="one month in ten brings more")
    loses: float = Field(description="share of months that lose money")
    months: int = Field(description="drawn")
    seed: int
    law: str
    inputs: list[RiskInput]
    matters: list[RiskMatters]
    bars: list[RiskBar]
    what_ifs: list[RiskWhatIf]
    words: list[str]
