"""How sure the plan is: chances, bands, cliffs, what matters most, and the plans that were not taken."""

import re

from pourwright.jobs.plan import PlanDocument, Pour
from pourwright.jobs.plan_chances import Chances, Compared, Doubtful, PourChance
from pourwright.sheets.pages.common import Page, as_standing, fact, table
from pourwright.sheets.pages.heat import gel_words, peak_words
from pourwright.sheets.pages.soft import sanded, wash_first
from pourwright.sheets.wording import Wording, readings_differ

RARE = 1e-3
OFTEN = 0.3
COUNT = re.compile(r"^with \d+ pours?, ")
CLIFF = (
    "Pour {number} stands near a cliff: a little warmer, or resin a little faster than reckoned with, and it "
    "gets not a little but far hotter. Keep its hours, its level and its temperature to the letter."
)


def chances_page(plan: PlanDocument) -> Page:
    """Fill the page of chances.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        Facts, tables, warnings and notes; empty where the plan has no chances.
    """
    if plan.chances is None:
        return {}
    words, chances = Wording(plan.job), plan.chances
    return {
        "lead": _lead(chances),
        "facts": _facts(chances),
        "heat": _heat_table(plan, chances, words),
        "over": [each.over_limit > 1.0 - chances.probability for each in chances.pours],
        "times": _times_table(plan, chances, words),
        "cliffs": [CLIFF.format(number=each.number) for each in chances.pours if each.cliff],
        "compared": _compared_table(plan, chances, words),
        "chosen": [each.chosen for each in chances.compared],
        "what_if": [_sentence(each.text) for each in plan.what_if],
        "method": f"Reckoned by: {chances.method}.",
        "doubts": _doubt_table(chances, words),
        "resin": f"The resin: {chances.resin}.",
        "made": _made(chances),
        "notes": [_sentence(note) for note in chances.notes],
    }


def chance_words(share: float, one_in: int | None = None) -> str:
    """A chance as a maker says it.

    Parameters
    ----------
    share : float
        Share of cases [-].
    one_in : int, optional
        What the plan says already; else two digits of it are told.

    Returns
    -------
    str
        As ``about 1 in 40``.

    Examples
    --------
    >>> chance_words(0.026), chance_words(0.62), chance_words(0.0)
    ('about 1 in 38', 'about 6 in 10', 'fewer than 1 in 1000')
    """
    if share < RARE:
        return "fewer than 1 in 1000"
    if share <= OFTEN:
        return f"about 1 in {one_in or float(f'{1.0 / share:.2g}'):.0f}"
    return f"about {round(10.0 * share)} in 10" if share < 0.95 else "nearly all"


def _sentence(note: str) -> str:
    return f"{note[:1].upper()}{note[1:].removesuffix('.')}."


def _kept(chances: Chances) -> str:
    return f"{100.0 * chances.probability:g} in 100"


def _lead(chances: Chances) -> str:
    return (
        "Resin, shop and glass are never known exactly. So it was reckoned many times over, each time with "
        "other values that they may well have. The number before a bracket is what to expect; eight of ten "
        f"such castings lie within the bracket. Limits are to be kept in at least {_kept(chances)}."
    )


def _facts(chances: Chances) -> list[dict[str, str]]:
    chosen = next((each.over_limit for each in chances.compared if each.chosen), None)
    shares = [("too soft when opened", chances.soft_when_opened, "leave it in then")]
    if chances.pours:
        worst = max(chances.pours, key=lambda each: each.over_limit)
        missed = max(chances.pours, key=lambda each: each.misses_bond)
        if len(chances.pours) > 1:
            note = f"pour {missed.number}: wash and sand it then"
            shares.insert(0, ("a bond is missed", missed.misses_bond, note))
        shares.insert(0, ("worst pour goes over the limit", worst.over_limit, f"pour {worst.number}"))
    if chosen is not None:
        shares.insert(
            0, ("any pour goes over a limit", chosen, f"accepted: {chance_words(_accepted(chances))}")
        )
    return [fact(label, chance_words(share), note) for label, share, note in shares]


def _accepted(chances: Chances) -> float:
    return 1.0 - chances.probability


def _paired(plan: PlanDocument, chances: Chances) -> list[tuple[Pour, PourChance]]:
    pours = {pour.number: pour for pour in plan.pours}
    return [(pours[each.number], each) for each in chances.pours if each.number in pours]


def _heat_table(plan: PlanDocument, chances: Chances, words: Wording) -> Page:
    heads = ["pour", "hottest", f"kept in {_kept(chances)}", "limit", "goes over the limit", ""]
    rows = [
        [
            str(pour.number),
            peak_words(pour, words),
            words.temperature(each.peak_kept_degC),
            words.temperature(pour.peak_limit_degC),
            chance_words(each.over_limit, each.one_in),
            "near a cliff" if each.cliff else "",
        ]
        for pour, each in _paired(plan, chances)
    ]
    return table(heads, rows, "lrrrll")


def _times_table(plan: PlanDocument, chances: Chances, words: Wording) -> Page:
    heads = ["pour", "all gelled after", "bonds to the next one from", "until", "nobody there in time"]
    rows = [_times_row(pour, each, plan, words) for pour, each in _paired(plan, chances)]
    return table(heads, rows, "lllll")


def _times_row(pour: Pour, each: PourChance, plan: PlanDocument, words: Wording) -> list[str]:
    row = [str(pour.number), gel_words(pour, words)]
    if pour.next_from is None:
        return [*row, "last pour", "", ""]
    if wash_first(pour.number, plan) is not None:
        return [*row, "void: its top blushes", "wash and sand it", ""]
    first = words.banded_duration(pour.bonds_from_h, pour.bonds_from_h_p10, pour.bonds_from_h_p90)
    last = words.banded_duration(pour.bonds_until_h, pour.bonds_until_h_p10, pour.bonds_until_h_p90)
    there = "as planned: sand it" if sanded(pour.number, plan) else chance_words(each.misses_bond)
    return [*row, first, last, there]


def _compared_table(plan: PlanDocument, chances: Chances, words: Wording) -> Page:
    heads = ["pours", "up to", "days", "goes over a limit", "what it comes to"]
    rows = [
        [
            str(each.pours),
            _levels(each, plan, words),
            "–" if each.days is None else f"{each.days:.1f}",
            "–" if each.over_limit is None else chance_words(each.over_limit),
            _comes_to(each),
        ]
        for each in chances.compared
    ]
    return table(heads, rows, "llrll")


def _levels(each: Compared, plan: PlanDocument, words: Wording) -> str:
    """Levels up from the mold's floor, and as the piece stands where that reads otherwise."""
    if not each.levels_m:
        return "–"
    told = _listed(each.levels_m, words)
    if not readings_differ(plan):
        return told
    return f"{told} ({_listed([as_standing(level, plan) for level in each.levels_m], words)})"


def _listed(levels: list[float], words: Wording) -> str:
    told = [words.length(level) for level in levels]
    unit = told[-1].rpartition(" ")[2]
    return ", ".join([*(level.removesuffix(f" {unit}") for level in told[:-1]), told[-1]])


def _comes_to(each: Compared) -> str:
    # the row says already with how many pours
    text = COUNT.sub("", each.text)
    if each.days is None:
        return f"fails: {text}"
    return f"chosen: {text}" if each.chosen else text


def _doubt_table(chances: Chances, words: Wording) -> Page:
    rows = [_doubt_row(each, words) for each in chances.doubts]
    return table(["what is not known exactly", "taken as", "from where"], rows, "lrl")


def _doubt_row(each: Doubtful, words: Wording) -> list[str]:
    return [each.words, words.banded(each.value, each.value_p10, each.value_p90, each.unit), each.kind]


def _made(chances: Chances) -> str:
    counted = f"Counted over {chances.members:,} draws from seed {chances.seed}"
    made = f"{counted}, with {chances.runs} heat runs behind them"
    if not chances.held_out:
        return f"{made}; every draw was run."
    return f"{made}; {chances.held_out} of them were kept apart to test what stands in for the rest."
