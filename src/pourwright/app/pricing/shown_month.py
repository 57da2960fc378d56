"""What a month may bring in as the page shows it: the band, the chance to lose money, bars."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from pourwright.app.pricing.shown_line import Row
from pourwright.foundation.notation import format_amount
from pourwright.jobs.cost_risk import RiskOfMonth
from pourwright.jobs.cost_sheet import CostSheet
from pourwright.sheets.wording import Wording


def shown_month(risk: RiskOfMonth, sheet: CostSheet) -> Row:
    """Tell a month for the page.

    Parameters
    ----------
    risk : RiskOfMonth
        Many months drawn.
    sheet : CostSheet
        The cost that they are drawn around.

    Returns
    -------
    dict
        In words; bars with their length in per cent of the longest.
    """

    def money(amount: Decimal, *, code: bool = False) -> str:
        return format_amount(amount, sheet.currency, Wording(sheet.job).system, code=code)

    return {
        "words": risk.words,
        "bars": list(_bars(risk, sheet)),
        "matters": list(_matters(risk)),
        "helps": [
            {
                "words": one.words,
                "change": f"+{money(one.change)}" if one.change > 0 else money(one.change),
                "loses": f"{100 * one.loses:.0f} of 100 months lose money",
            }
            for one in risk.what_ifs
        ],
        "drawn": f"Planned: {money(risk.planned, code=True)}; on average {money(risk.mean, code=True)}, "
        f"give or take {money(risk.mean_error)}. {risk.months} months drawn, the same ones each time.",
    }


def _bars(risk: RiskOfMonth, sheet: CostSheet) -> Iterator[Row]:
    highest = max((bar.share for bar in risk.bars), default=1.0)
    system = Wording(sheet.job).system
    for bar in risk.bars:
        low, high = (
            format_amount(each, sheet.currency, system, code=False).removesuffix(".00")
            for each in (bar.low, bar.high)
        )
        yield {
            "words": f"{low} to {high}",
            "share": f"{100 * bar.share:.0f} %",
            "bar": f"{100 * bar.share / highest:.1f}",
            "loses": bar.high <= 0,
        }


def _matters(risk: RiskOfMonth) -> Iterator[Row]:
    most = max((one.total for one in risk.matters), default=1.0)
    for one in risk.matters:
        yield {
            "words": one.words,
            "share": f"{100 * one.total:.0f} %",
            "bar": f"{100 * one.total / most:.1f}",
        }
