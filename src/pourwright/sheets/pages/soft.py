"""What stays soft, the warm box, and where the shop is too damp."""

from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.plan_soft import Damp, PourDamp, Soft, SoftPlace, WarmBox
from pourwright.sheets.pages.common import Page, table
from pourwright.sheets.wording import Wording

MOMENTS = {"next pour": "next pour", "demold": "demolding"}


def soft_page(plan: PlanDocument) -> Page:
    """Fill the pages of under-cure and damp.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        Empty where nobody looked at it.
    """
    if plan.soft is None:
        return {}
    words, soft = Wording(plan.job), plan.soft
    heads = ["pour", "at the", "on", "cured", "soft above", "shop then", "least-cured place"]
    return {
        "stall": soft.stall.text,
        "places": table(heads, [_place_row(place, words) for place in soft.places], "lllrrrl"),
        "thin": [each.text for each in soft.thin],
        "least": table(["what is poured", "gets hard"], _least_rows(soft, words), "ll"),
        "within": f"Hard in time means within {words.duration(soft.least[0].within_h)} of the pour.",
        "notes": soft.notes,
        "box": _box(soft.warm_box, words),
        "damp": _damp(soft.damp),
        "rubbery": (
            "As the next pour comes, a place below it is meant to be soft still: so it bonds. At demolding "
            "it must be soft only above the warmth it will meet."
        ),
    }


def _place_row(place: SoftPlace, words: Wording) -> list[str]:
    return [
        str(place.pour),
        MOMENTS[place.moment],
        "" if place.at is None else words.moment(place.at),
        words.share(place.cured),
        words.temperature(place.glass_transition_degC),
        words.temperature(place.shop_degC),
        place.place,
    ]


def _least_rows(soft: Soft, words: Wording) -> list[list[str]]:
    shown = {"layer": "layer on rubber", "rib": "rib between rubber walls"}
    rows = []
    for each in soft.least:
        name = f"{'glass-filled' if each.solid_fraction else 'neat'} {shown[each.form]}"
        thick = words.length(each.thickness_m)
        after = "" if each.hard_after_h is None else words.duration(each.hard_after_h)
        told = {
            "any": f"however thin: {thick} is hard after {after}",
            "from": f"in time from {thick} on, after {after}; thinner, it may stall",
            "none": f"not in time up to {thick}: it stalls, or goes over the limit",
        }
        rows.append([name, told[each.verdict]])
    return rows


def _box(box: WarmBox | None, words: Wording) -> Page:
    if box is None:
        return {}
    return {
        "gain": box.gain,
        "steps": box.steps,
        "cautions": box.cautions,
        "limit": (
            f"The piece gets up to {words.temperature(box.peak_degC)} in it, resin and rubber bear "
            f"{words.temperature(box.peak_limit_degC)}. Pace, air and hours are common practice, followed "
            "through by the heat run: the data sheet decides."
        ),
    }


def _damp(damp: Damp) -> Page:
    return {
        "text": damp.text,
        "pours": [{"text": each.text, "wash": each.wash, "dry": each.dry} for each in damp.pours],
    }


def wash_first(pour: int, plan: PlanDocument) -> PourDamp | None:
    """The damp of a pour whose top blushes, so that it is washed and sanded before the next one.

    Parameters
    ----------
    pour : int
        Number of the pour below.
    plan : PlanDocument
        The plan.

    Returns
    -------
    PourDamp or None
        None where its top stays dry, or nobody looked.
    """
    if plan.soft is None:
        return None
    return next((each for each in plan.soft.damp.pours if each.number == pour and each.blushes), None)


def sanded(pour: int, plan: PlanDocument) -> bool:
    """Whether the next pour comes too late to bond to this one.

    Parameters
    ----------
    pour : int
        Number of the pour below.
    plan : PlanDocument
        The plan.

    Returns
    -------
    bool
        As planned: nobody is there while it bonds.
    """
    return any(each.number == pour + 1 and each.sand_first for each in plan.pours)


def too_damp(pour: int, plan: PlanDocument) -> list[str]:
    """What to do before a pour whose mold or air is too damp.

    Parameters
    ----------
    pour : int
        Its number.
    plan : PlanDocument
        The plan.

    Returns
    -------
    list of str
        One line, or none.
    """
    if plan.soft is None:
        return []
    damp = [each for each in plan.soft.damp.pours if each.number == pour and not each.dry]
    told = [each.text.partition(": ")[2] for each in damp]
    return [f"{text[:1].upper()}{text[1:]}" for text in told]
