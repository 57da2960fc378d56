"""Cracks and halos: a light for each place with its reason, slow cooling, opening, sinking tops."""

from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.plan_cracks import CrackPlace, Cracks
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording, with_band

INCH = 0.0254
LEADS = {
    "green": "Nothing to fear, as far as can be told: it holds even towards the poor end of the numbers.",
    "amber": "It will most likely hold, but not towards the poor end of the numbers: cool it slowly.",
    "red": "Expect a crack or a halo at the places marked red, unless something is changed.",
}
CAUTION = "An indication, not a prediction."


def cracks_page(plan: PlanDocument) -> Page:
    """Fill the page of cracks and halos.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        Lead, facts, tables and notes; empty where the plan was not looked at for cracks.
    """
    found = plan.cracks
    if found is None:
        return {}
    words = Wording(plan.job)
    return {
        "lead": LEADS[found.light],
        "caution": CAUTION,
        "facts": _facts(found, words),
        "places": table(
            ["", "place", "light", "uses", "why, and what to do"],
            [_row(place, words) for place in found.places],
            "lllll",
        ),
        "cooling": [
            found.cooling.text,
            found.opening.text,
            *([] if found.warm_box is None else [found.warm_box.text]),
        ],
        "tops": [*(top.text for top in found.tops), *([found.cover_text] if found.cover_text else [])],
        "notes": list(found.notes),
    }


def _facts(found: Cracks, words: Wording) -> list[dict[str, str]]:
    worst = max(found.places, key=lambda place: (place.load, place.load_high))
    cool, sinks = found.opening.cool_after_h, max(found.tops[-1].sink_most_m, 0.0)
    opens = "not seen" if cool is None else "once hard" if cool < 1.0 else words.duration(cool)
    return [
        fact("worst place", f"{worst.mark}, {worst.light}", f"uses {words.share(worst.load)} of its limit"),
        _rate(found, words),
        fact("core cool after", opens, f"within {words.difference(found.opening.within_K)} of the shop"),
        fact("the open face sinks", _thin(sinks, words), "at most, before it gels"),
    ]


def _thin(length: float, words: Wording) -> str:
    return f"{1e3 * length:.1f} mm" if words.system is UnitSystem.METRIC else f"{length / INCH:.2f} in"


def _rate(found: Cracks, words: Wording) -> dict[str, str]:
    rate = f"{words.difference(found.cooling.most_K_per_h)} an hour"
    if found.cooling.mind:
        return fact("let it cool no faster than", rate, "the skin, steadily")
    return fact("let it cool", "as the shop does", f"it would bear {rate}")


def _row(place: CrackPlace, words: Wording) -> list[str]:
    used = with_band(*(words.share(share) for share in (place.load, place.load_low, place.load_high)))
    return [place.mark, place.where, place.light, used, f"{place.reason} {place.remedy}".strip()]
