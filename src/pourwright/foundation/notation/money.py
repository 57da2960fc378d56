"""Money as it is read: exact, with the decimals its currency has, grouped as the job's units are read."""

from decimal import ROUND_HALF_UP, Decimal

from pourwright.foundation.notation.formats import System, UnitSystem
from pourwright.foundation.quantities import CURRENCIES

_GROUPS = {UnitSystem.METRIC: "\u202f", UnitSystem.US: ","}


def minor_digits(currency: str) -> int:
    """Say how many decimals a currency has.

    Parameters
    ----------
    currency : str
        ISO 4217 code.

    Returns
    -------
    int

    Examples
    --------
    >>> minor_digits("EUR"), minor_digits("JPY"), minor_digits("KWD")
    (2, 0, 3)
    """
    return CURRENCIES.get(currency, 2)


def rounded_money(amount: Decimal, currency: str) -> Decimal:
    """Round money to the smallest coin of its currency, half a coin up.

    Parameters
    ----------
    amount : Decimal
        In the currency's main unit.
    currency : str
        ISO 4217 code.

    Returns
    -------
    Decimal

    Examples
    --------
    >>> rounded_money(Decimal("2.675"), "EUR"), rounded_money(Decimal("2.5"), "JPY")
    (Decimal('2.68'), Decimal('3'))
    """
    return amount.quantize(Decimal(1).scaleb(-minor_digits(currency)), ROUND_HALF_UP)


def format_amount(amount: Decimal, currency: str, system: System, *, code: bool = True) -> str:
    """Write money that was reckoned exactly.

    Parameters
    ----------
    amount : Decimal
        In the currency's main unit.
    currency : str
        ISO 4217 code.
    system : UnitSystem
        Metric: thousands are set apart by a narrow blank; US: by a comma.
    code : bool
        Whether the currency's code stands behind it.

    Returns
    -------
    str

    Examples
    --------
    >>> format_amount(Decimal("1234.5"), "USD", "us")
    '1,234.50 USD'
    >>> format_amount(Decimal("1234.5"), "EUR", "metric", code=False) == "1\u202f234.50"
    True
    """
    text = f"{rounded_money(amount, currency):,}".replace(",", _GROUPS[UnitSystem(system)])
    return f"{text} {currency}" if code else text
