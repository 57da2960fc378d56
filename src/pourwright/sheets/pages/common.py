"""Pieces that several pages share."""

import re
from collections.abc import Iterable, Sequence

from pourwright.jobs.plan import Batch, PlanDocument
from pourwright.sheets.svg import printable
from pourwright.sheets.wording import Wording, readings_differ

Page = dict[str, object]
LONG_WORD = 22
PATHS = frozenset({"drawing", "drawings"})
"""Keys of file names."""
# a line never ends between a number and its unit, or between inches and their fraction
UNIT_AFTER = re.compile(r"(\d) (?=(?:%|°[CF]|mm|in|k?g|lb|oz|N|lbf|kPa|psi|h|min|days?|l|ml|qt|gal)\b|[%°])")
FRACTION_AFTER = re.compile(r"(\d) (?=\d+/\d+)")


def fact(label: str, value: str, note: str = "") -> dict[str, str]:
    """One number in a box: what it is, the number, what to mind.

    Parameters
    ----------
    label, value, note : str
        As printed.

    Returns
    -------
    dict
        For the template.
    """
    return {"label": label, "value": value, "note": note}


def table(heads: Sequence[str], rows: Iterable[Sequence[str]], align: str) -> Page:
    """A table with its columns' sides.

    Parameters
    ----------
    heads : sequence of str
        Heads of the columns.
    rows : iterable of sequences of str
        Cells.
    align : str
        One letter per column, ``l`` or ``r``.

    Returns
    -------
    dict
        For the template.
    """
    return {"heads": list(heads), "rows": [list(row) for row in rows], "align": list(align)}


def plural(count: int, one: str, many: str = "") -> str:
    """A count with its noun.

    Parameters
    ----------
    count : int
        How many.
    one, many : str
        The noun, and its plural where it is not ``one`` with an s.

    Returns
    -------
    str
        As ``1 pour`` or ``4 pours``.
    """
    return f"{count} {one if count == 1 else many or one + 's'}"


def both_readings(up: float, standing: float, plan: PlanDocument, words: Wording) -> str:
    """A height as poured, with the height as the piece stands in brackets where it differs.

    Parameters
    ----------
    up : float
        Height from the mold's floor as poured [m].
    standing : float
        Height from the floor as the piece stands [m].
    plan : PlanDocument
        The plan.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        As ``200 mm (250 mm)``.
    """
    text = words.length(up)
    return f"{text} ({words.length(standing)})" if readings_differ(plan) else text


def as_standing(up: float, plan: PlanDocument) -> float:
    """A height from the floor as the piece stands.

    Parameters
    ----------
    up : float
        The same place from the mold's floor as poured [m].
    plan : PlanDocument
        The plan.

    Returns
    -------
    float
        Height [m], to the micrometre.
    """
    return round(plan.piece.height_m - up, 6) if readings_differ(plan) else up


def batch_rows(
    batches: Sequence[Batch], words: Wording, plan: PlanDocument | None = None
) -> list[dict[str, str]]:
    """Batches as a ticket shows them: weights to the scale's step.

    Parameters
    ----------
    batches : sequence of Batch
        Batches of one pour or of the rubber.
    words : Wording
        The maker's units.
    plan : PlanDocument, optional
        Of a pour: its levels then stand in both readings.

    Returns
    -------
    list of dict
        Number, part A, part B, sum, level after; grams below where the shop weighs in pounds.
    """
    return [
        {
            "number": str(batch.number),
            "a": words.weighed(batch.part_a_kg),
            "b": words.weighed(batch.part_b_kg),
            "total": words.weighed(batch.mass_kg),
            "grams_a": words.grams(batch.part_a_kg),
            "grams_b": words.grams(batch.part_b_kg),
            "level": ""
            if batch.level_after_m is None
            else f"then up {_level(batch.level_after_m, words, plan)}",
        }
        for batch in batches
    ]


def _level(up: float, words: Wording, plan: PlanDocument | None) -> str:
    if plan is None:
        return words.length(up)
    return both_readings(up, as_standing(up, plan), plan, words)


def weight_size(batches: int) -> int:
    """Size of the weights on a ticket: as large as the page allows.

    Parameters
    ----------
    batches : int
        Rows on the ticket.

    Returns
    -------
    int
        Size [pt].
    """
    return next((size for most, size in ((3, 32), (5, 28)) if batches <= most), 22)


def ratio(parts: tuple[float, float] | None) -> str:
    """Parts by weight as printed on a can.

    Parameters
    ----------
    parts : tuple of float or None
        A and B.

    Returns
    -------
    str
        As ``100 : 45``, ``1 : 1`` for equal parts; empty when unknown.
    """
    if parts is None:
        return ""
    a, b = (1.0, 1.0) if parts[0] == parts[1] else parts
    return f"{a:g} : {b:g}"


def breakable(value: object) -> object:
    """Let very long words break across lines, in every text of a page.

    Parameters
    ----------
    value : object
        Text, list or dict of texts.

    Returns
    -------
    object
        The same with zero-width spaces in words of more than 22 letters, and no control characters;
        file names under ``drawings`` stay as they are.
    """
    if isinstance(value, str):
        together = UNIT_AFTER.sub("\\1\u00a0", FRACTION_AFTER.sub("\\1\u00a0", printable(value)))
        return " ".join(_broken(word) for word in together.split(" "))
    if isinstance(value, dict):
        return {key: item if key in PATHS else breakable(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [breakable(item) for item in value]
    return value


def _broken(word: str) -> str:
    if len(word) <= LONG_WORD:
        return word
    return "\u200b".join(word[i : i + 8] for i in range(0, len(word), 8))
