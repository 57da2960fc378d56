"""First page: what it is, the numbers that decide, what to mind."""

from pourwright.jobs.plan import PlanDocument, Pour
from pourwright.sheets.pages.common import Page, fact, plural
from pourwright.sheets.pages.heat import peak_words
from pourwright.sheets.wording import UPRIGHT, Wording, lies


def summary_page(plan: PlanDocument) -> Page:
    """Fill the first page.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        Lead, headline numbers, decisions, warnings.
    """
    words = Wording(plan.job)
    return {
        "lead": _lead(plan, words),
        "why": [reason.text for reason in plan.reasons if reason.key == "pours"],
        "facts": _facts(plan, words),
        "warnings": list(plan.warnings),
        "reading": _reading(plan),
    }


def _volume(plan: PlanDocument, words: Wording) -> str:
    """Of the piece, with its band where it was measured and not drawn."""
    text, low, high = words.volume(plan.piece.volume_m3), plan.piece.volume_m3_p10, plan.piece.volume_m3_p90
    return text if low is None or high is None else f"{text} ({words.volume(low)} to {words.volume(high)})"


def _lead(plan: PlanDocument, words: Wording) -> str:
    first, last = plan.pours[0], plan.pours[-1]
    glass = f", with {words.mass(plan.fill.glass_kg)} of crushed glass" if plan.fill.glass_kg > 0.0 else ""
    when = f"on {words.day(first.start)}"
    if words.day(first.start) != words.day(last.start):
        when = f"from {words.day(first.start)} to {words.day(last.start)}"
    size = f"{words.size(plan.piece.size_m)}, {_volume(plan, words)}"
    material = plan.piece.casting_material_name or plan.piece.casting_material
    return (
        f"Piece: {plan.piece.name}, {size}, cast in {material}{glass}. "
        f"{plural(len(plan.pours), 'pour')} {when}; "
        f"it leaves the mold {_leaves(plan, words)}."
    )


def _leaves(plan: PlanDocument, words: Wording) -> str:
    if plan.demold.at is None:
        return "only once it is warmed"
    return f"on {words.moment(plan.demold.at)}{_hard_between(plan, words)}"


def _facts(plan: PlanDocument, words: Wording) -> list[dict[str, str]]:
    return [
        fact("the piece weighs", words.mass(plan.piece.mass_kg), _high(plan, words)),
        fact("pours", str(len(plan.pours)), f"first {words.moment(plan.pours[0].start)}"),
        _out_of_the_mold(plan, words),
        _hottest(plan, words),
        fact("resin to mix", words.mass(plan.fill.resin_kg), _parts_note(plan, words)),
        fact("crushed glass", words.mass(plan.fill.glass_kg), _glass_note(plan)),
        _rubber(plan, words),
        fact("filled mold", words.load(plan.mold.filled_mass_kg), "mind how it is moved"),
    ]


def _high(plan: PlanDocument, words: Wording) -> str:
    high = f"{words.length(plan.piece.height_m)} high"
    if plan.hollow is None:
        return high
    return f"{high}, hollow to {words.length(plan.hollow.wall_m)}; solid {words.mass(plan.hollow.solid_kg)}"


def _rubber(plan: PlanDocument, words: Wording) -> dict[str, str]:
    rubber = plan.mold.rubber
    # what is mixed, with the allowance; what the box takes is less
    mixed = words.mass(rubber.part_a_kg + rubber.part_b_kg)
    return fact("rubber to mix", mixed, f"A {words.mass(rubber.part_a_kg)}, B {words.mass(rubber.part_b_kg)}")


def _out_of_the_mold(plan: PlanDocument, words: Wording) -> dict[str, str]:
    cured = f"{words.share(plan.demold.cured)} cured"
    if plan.demold.at is None:
        return fact("out of the mold", "not in this shop", f"{cured}: warm it")
    return fact("out of the mold", words.day(plan.demold.at), f"{words.clock(plan.demold.at)}, {cured}")


def _hard_between(plan: PlanDocument, words: Wording) -> str:
    """The days between which it gets hard enough, where their band is known."""
    demold, start = plan.demold, plan.pours[-1].start
    if demold.after_h_p10 is None or demold.after_h_p90 is None:
        return ""
    first, last = (words.day(words.after(start, hours)) for hours in (demold.after_h_p10, demold.after_h_p90))
    return "" if first == last else f" (hard between {first} and {last})"


def _hottest(plan: PlanDocument, words: Wording) -> dict[str, str]:
    pour = hottest_pour(plan)
    limit = words.temperature(pour.peak_limit_degC)
    over = pour.peak_temperature_degC > pour.peak_limit_degC
    note = f"pour {pour.number}, {'goes over the limit of' if over else 'limit'} {limit}"
    return fact("hottest", peak_words(pour, words), note)


def hottest_pour(plan: PlanDocument) -> Pour:
    """The pour that comes nearest to its limit, or goes furthest over it.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    Pour
        The pour with the least room left.
    """
    return max(plan.pours, key=lambda pour: pour.peak_temperature_degC - pour.peak_limit_degC)


def _parts_note(plan: PlanDocument, words: Wording) -> str:
    part_a = sum(pour.part_a_kg for pour in plan.pours)
    part_b = sum(pour.part_b_kg for pour in plan.pours)
    return f"A {words.mass(part_a)}, B {words.mass(part_b)}"


def _glass_note(plan: PlanDocument) -> str:
    counts = [lot.bottles for lot in plan.fill.glass]
    known = [count for count in counts if count is not None]
    if not counts:
        return "no glass in this piece"
    return plural(sum(known), "bottle") if len(known) == len(counts) else plural(len(counts), "lot")


def _reading(plan: PlanDocument) -> str:
    text = "Heights go up from the mold's floor as it is poured; dips go down from the rim."
    if plan.piece.flipped:
        text += " It is poured upside down: in brackets, the height from the floor as the piece stands."
    elif plan.piece.up not in UPRIGHT:
        text += f" It is {lies(plan.piece)}: no level in the mold is a level as the piece stands."
    return text
