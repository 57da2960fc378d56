"""A reason for every value that a plan leaves empty."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Any

from pourwright.jobs import plan

REASONS: Mapping[str, str] = MappingProxyType(
    {
        "job.scale_step_kg": "the job does not say how finely its scale reads",
        "job.opens": "when somebody is in the shop is not told",
        "job.closes": "when somebody is in the shop is not told",
        "piece.volume_m3_p10": "the body is known exactly: it was read from a file or written down",
        "piece.volume_m3_p90": "the body is known exactly: it was read from a file or written down",
        "piece.finished_size_m": "no job says how it shrinks and what is sanded off",
        "piece.finished_volume_m3": "no job says how it shrinks and what is sanded off",
        "sizes": "no job says how it shrinks and what is sanded off",
        "sizes.run": "no heat run tells when it gels, or the job says it itself",
        "sizes.faces[].skin_m": "there is no glass behind it",
        "sizes.faces[].glass_share": "there is no glass behind it",
        "mold.rubber.fill_mark_before_master_m": "no mark is needed: the master stands in the box already",
        "mold.rubber.batches[].level_after_m": "the level is read once the master is in",
        "mold.hold_down.screws_needed": "no screws: the master hangs from bars, and weight holds it down",
        "hollow.peak_limit_degC": "the core bears any heat that the casting gets to",
        "hollow.money_saved": "the job gives no prices for resin and glass: none are guessed",
        "hollow.currency": "the job gives no prices",
        "hollow.hold_down.rises_at_m": "the core is heavier than what is poured around it",
        "inserts[].most_heat_W": "it is no light",
        "hollow": "the job has no [hollow]: the piece is cast solid",
        "fill.bands[].grade": "a neat band has no glass",
        "fill.bands[].colour": "a neat band has no glass, or any colour will do",
        "fill.glass[].bottles": "no bottle is known that this colour comes from, or it is bought graded",
        "fill.parts_by_weight": "the casting material is not mixed of two parts",
        "pours[].batches[].level_after_m": "the level is read at the end of the pour",
        "pours[].start_temperature_degC": "the mix is as warm as the shop at that hour",
        "pours[].work_within_h": "the resin's record gives no pot life",
        "pours[].standing": "a resin that was planned without looking at its pail",
        "pours[].standing.warm_after_h": "not within the time that is watched",
        "pours[].standing.thick_after_h": "not before it is hot, or not within the time that is watched",
        "pours[].standing.hot_after_h": "not within the time that is watched",
        "pours[].standing.hot_stirred_after_h": "not within the time that is watched",
        "pours[].standing.tray_hot_after_h": "spread in a tray it does not run hot",
        "pours[].standing.prewarmed_until_h": "not within the time that is watched",
        "pours[].standing.prewarmed_hot_after_h": "not within the time that is watched",
        "pours[].soaks_after_h": "no dry glass in this pour, or the resin is too thick before it is through",
        "pours[].soak_limit_h": "no dry glass in this pour",
        "pours[].soak_margin": "no dry glass in this pour",
        "pours[].bubbles_from_m": "bubbles were not looked at",
        "pours[].next_from": "nothing comes after the last pour",
        "pours[].next_until": "nothing comes after the last pour",
        "demold.after_h": "it never gets hard enough in this shop: warm the mold",
        "demold.kept_after_h": "how sure it is was not reckoned, or in too many cases it never gets hard",
        "demold.at": "it never gets hard enough in this shop: warm the mold",
        "heat.rubber_limit_degC": "the rubber's record gives no limit",
        "heat.sections[].temperature_degC[][]": "nothing was poured there yet",
        "heat.sections[].cured[][]": "only the casting cures",
        "chances": "how sure this plan is was not reckoned",
        "pours[].box_peak_degC": "the box was not looked at",
        "chances.pours[].one_in": "fewer than 1 in 1000 such pours go over the limit",
        "chances.compared[].days": "no plan with so many pours keeps the limits, or it never gets hard",
        "chances.compared[].over_limit": "no plan with so many pours keeps the limits",
        "chances.compared[].constraint": "so many pours keep all limits",
        "chances.compared[].amount": "nothing failed, or by how much cannot be told",
        "chances.compared[].unit": "nothing failed, or by how much cannot be told",
        "what_if[].pours": "no plan keeps the limits then",
        "what_if[].days": "no plan keeps the limits then, or it never gets hard",
        "soft": "what stays soft and what is damp was not looked at",
        "soft.places[].at": "it never gets hard enough in this shop: warm the mold",
        "soft.least[].hard_after_h": "none gets hard in that time: it stalls",
        "soft.thin[].pour": "a section of the piece belongs to no pour alone",
        "soft.thin[].place_m": "a pour takes up its whole level",
        "soft.thin[].hard_after_h": "it is no thin place, or it stalls",
        "soft.warm_box": "nothing was recorded to start from, or the limits leave no warmth",
        "soft.warm_box.lag_h": "the coldest place does not come up all the way in that time",
        "soft.warm_box.hard_at": "not even the warm box makes it hard enough",
        "soft.damp.hours.top_degC[]": "nothing was poured yet",
        "soft.damp.pours[].dry_from": "it is too damp at the start of this pour",
        "soft.damp.pours[].dry_until": "it is too damp at the start of this pour",
        "cracks": "the run was not looked at for cracks and halos",
        "cracks.places[].soft_shrinkage": "judged by core against skin",
        "cracks.places[].glass_shrinkage": "judged by core against skin",
        "cracks.places[].hottest_degC": "judged by core against skin",
        "cracks.places[].glass_at_degC": "judged by core against skin",
        "cracks.places[].core_above_skin_K": "judged by what it shrinks",
        "cracks.warm_box": "no warm box is planned, or it is not warm enough to soften the casting",
        "cracks.opening.cool_after_h": "the core was not that cool when the reckoning ended",
        "cracks.cover_m": "no glass in the piece",
        "cracks.grain_m": "no glass in the piece",
        "shopping[].price": "the job gives no price for it: none is guessed",
    }
)
"""Why a value may be missing, by its place; ``[]`` stands for every entry of a list."""


UNTOLD_BAND = "its band was not reckoned, or it is not reached in so many cases"


def _reason(place: str) -> str:
    untold = place not in REASONS and place.endswith(("_p10", "_p90"))
    return UNTOLD_BAND if untold else REASONS[place]


def empty_places(value: Any, place: str = "") -> Iterator[str]:
    """Find every empty value of a document.

    Parameters
    ----------
    value : object
        Of JSON: dict, list, number, text or None.
    place : str
        Where it stands.

    Yields
    ------
    str
        As in ``pours[].next_from``; once for each empty value.

    Examples
    --------
    >>> list(empty_places({"a": [{"b": None}, {"b": 1}], "c": None}))
    ['a[].b', 'c']
    """
    if value is None:
        yield place
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from empty_places(inner, f"{place}.{key}".lstrip("."))
    elif isinstance(value, list):
        for inner in value:
            yield from empty_places(inner, f"{place}[]")


def with_reasons(document: plan.PlanDocument) -> plan.PlanDocument:
    """Add a reason for every empty value that has none yet.

    Parameters
    ----------
    document : PlanDocument
        The plan.

    Returns
    -------
    PlanDocument
        The same with more reasons.
    """
    content = document.model_dump(mode="json")
    told = {re.sub(r"\[\d+\]", "[]", reason.key) for reason in document.reasons}
    places = dict.fromkeys(place for place in empty_places(content) if place not in told)
    added = [plan.Reason(key=place, text=_reason(place)) for place in places]
    return document.model_copy(update={"reasons": [*document.reasons, *added]})
