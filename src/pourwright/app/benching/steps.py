"""From a plan to the steps of its pours, in their order."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from pourwright.app.benching.step import (
    AS_EXPECTED,
    AS_PLANNED,
    BY_WEIGHT,
    GOES_IN,
    STEP,
    TOGETHER,
    Button,
    Mark,
    Step,
    Timer,
)
from pourwright.jobs.plan import Batch, Demold, PlanDocument, Pour
from pourwright.materials.batches import MIXING_TIME
from pourwright.sheets.pages.tickets import ticket_pages
from pourwright.sheets.wording import Wording, readings_differ

HOUR = 3600.0
BUBBLES = ("none to be seen", "a few, at the rim", "many, all over")
FAILED = "failed"
"""How the words of a piece begin that came out and is none."""
LEARN = "Then let the shop learn from it: pourwright book learn, or What the shop has learnt on the laptop."
IN_MOLD, READY, BEGUN = "in the mold", "ready for", "begun: "
"""How the words of an entry begin by which these steps are known."""


def steps_of(plan: PlanDocument) -> tuple[Step, ...]:
    """List the steps of a plan.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    tuple of Step
        Every pour's, then the piece's.
    """
    words = Wording(plan.job)
    tickets = {page["key"]: page for page in ticket_pages(plan)}
    steps: list[Step] = []
    for before, pour in pairwise([None, *plan.pours]):
        assert pour is not None
        steps += _pour_steps(pour, before, plan, words, tickets[f"pour-{pour.number}"])
    return (*steps, _out(plan.demold, plan.pours[-1], words)) if plan.pours else ()


def _pour_steps(
    pour: Pour, before: Pour | None, plan: PlanDocument, words: Wording, ticket: dict[str, object]
) -> Iterator[Step]:
    yield _ready(pour, before, plan, ticket)
    for batch in pour.batches:
        yield from _batch_steps(batch, pour, plan, words)
    yield _level(pour, plan, words)
    yield _bubbles(pour)
    yield _gel(pour, words)
    yield _close(pour)


def _texts(ticket: dict[str, object], key: str) -> tuple[str, ...]:
    found = ticket[key]
    return tuple(map(str, found)) if isinstance(found, list) else (str(found),)


def _ready(pour: Pour, before: Pour | None, plan: PlanDocument, ticket: dict[str, object]) -> Step:
    said = f"{READY} pour {pour.number}"
    first = before is None
    checks = tuple(f"{each.text}: {each.why.rstrip('.')}." for each in plan.go_no_go) if first else ()
    cautions = tuple(plan.cautions) if first else _texts(ticket, "caution")
    return Step(
        id=f"{pour.number}.ready",
        pour=pour.number,
        head=f"Get ready for pour {pour.number}",
        lines=(*_texts(ticket, "before"), *checks),
        cautions=cautions,
        buttons=(
            Button(label="All of it is done", kind=STEP, text=said),
            Button(label="I begin now", kind=STEP, text=f"{BEGUN}{said}"),
        ),
        done=(Mark(pour=pour.number, kinds=GOES_IN, words=said),),
        timers=() if before is None else _bond(before),
    )


def _bond(before: Pour) -> tuple[Timer, ...]:
    """When the pour below takes the next one, from when it really went in."""
    went_in = _mixed(before.number)
    return (
        Timer(words="bonds", when="from", after_s=before.bonds_from_h * HOUR, mark=went_in),
        Timer(words="bonds without sanding", when="until", after_s=before.bonds_until_h * HOUR, mark=went_in),
    )


def _mixed(pour: int, count: int = 1) -> Mark:
    return Mark(pour=pour, kinds=("mixed", "poured"), count=count)


def _batch_steps(batch: Batch, pour: Pour, plan: PlanDocument, words: Wording) -> Iterator[Step]:
    name = f"batch {batch.number} of {len(pour.batches)}"
    number, count = pour.number, batch.number
    later = tuple(Mark(pour=number, kinds=(kind,), count=count) for kind in ("mixed", "poured"))
    parts = plan.fill.parts_by_weight
    ratio = parts[1] / parts[0] if parts else batch.part_b_kg / batch.part_a_kg
    for part, mass in (("a", batch.part_a_kg), ("b", batch.part_b_kg)):
        yield Step(
            id=f"{number}.{count}.weigh_{part}",
            pour=number,
            head=f"Weigh {part.upper()}, {name}",
            big=_weight(mass, words),
            lines=_weigh_lines(part),
            buttons=(
                Button(label="As planned", kind=f"weigh_{part}", text=f"{name}, {AS_PLANNED}", value=mass),
            ),
            ask="mass",
            ask_kind=f"weigh_{part}",
            ask_text=name,
            done=(Mark(pour=number, kinds=(f"weigh_{part}",), count=count), *later),
            value=mass,
            ratio=ratio if part == "b" else None,
        )
    yield _mix(batch, pour, words, name)
    yield _into_mold(batch, pour, plan, words, name)


def _weight(mass: float, words: Wording) -> str:
    grams = words.grams(mass)
    return f"{words.weighed(mass)} ({grams})" if grams else words.weighed(mass)


def _weigh_lines(part: str) -> tuple[str, ...]:
    if part == "a":
        return ("Empty pail on the scale, scale to zero.",)
    return ("Scale to zero again, then B. B follows what A really was.",)


def _mix(batch: Batch, pour: Pour, words: Wording, name: str) -> Step:
    weighed = Mark(pour=pour.number, kinds=("weigh_b",), count=batch.number)
    return Step(
        id=f"{pour.number}.{batch.number}.mixed",
        pour=pour.number,
        head=f"Mix, {name}",
        big=words.duration(MIXING_TIME.value / HOUR),
        lines=("Scrape sides and floor of the pail; stir again in a second, clean pail.",),
        buttons=(Button(label="Mixed", kind="mixed", text=f"{name}, {TOGETHER}", value=batch.mass_kg),),
        done=tuple(Mark(pour=pour.number, kinds=(kind,), count=batch.number) for kind in ("mixed", "poured")),
        value=batch.mass_kg,
        timers=(Timer(words="stir", when="until", after_s=MIXING_TIME.value, mark=weighed),),
    )


def _into_mold(batch: Batch, pour: Pour, plan: PlanDocument, words: Wording, name: str) -> Step:
    said = f"{IN_MOLD}: {name}"
    return Step(
        id=f"{pour.number}.{batch.number}.in",
        pour=pour.number,
        head=f"Into the mold, {name}",
        big=words.weighed(batch.mass_kg),
        lines=_rise(batch, plan, words),
        buttons=(Button(label="It is in the mold", kind=STEP, text=said),),
        ask="mass",
        ask_kind="poured",
        ask_text=said,
        done=(Mark(pour=pour.number, kinds=("poured",), words=IN_MOLD, count=batch.number),),
        timers=_pot_life(batch, pour),
    )


def _rise(batch: Batch, plan: PlanDocument, words: Wording) -> tuple[str, ...]:
    pail = "Weighed the pail full and empty? Then type what went in."
    if batch.level_after_m is None:
        return (pail,)
    standing = plan.piece.height_m - batch.level_after_m
    return (f"Then it stands {_reading(batch.level_after_m, standing, plan, words)}.", pail)


def _reading(up: float, standing: float, plan: PlanDocument, words: Wording) -> str:
    also = f", {words.length(max(standing, 0.0))} as the piece stands" if readings_differ(plan) else ""
    return f"{words.length(up)} up from the mold's floor{also}"


def _pot_life(batch: Batch, pour: Pour) -> tuple[Timer, ...]:
    """Counted from when mixing began, which is so long before it was done."""
    if pour.work_within_h is None:
        return ()
    left = max(pour.work_within_h * HOUR - MIXING_TIME.value, 0.0)
    mark = Mark(pour=pour.number, kinds=("mixed",), count=batch.number)
    return (Timer(words="in the mold", when="until", after_s=left, mark=mark),)


def _all_in(pour: Pour) -> Mark:
    return Mark(pour=pour.number, kinds=("poured",), words=IN_MOLD, count=len(pour.batches))


def _level(pour: Pour, plan: PlanDocument, words: Wording) -> Step:
    reading = _reading(pour.to_m, pour.to_standing_m, plan, words)
    return Step(
        id=f"{pour.number}.level",
        pour=pour.number,
        head="Read the level",
        big=f"dip {words.length(pour.dip_to_m)}",
        lines=(
            f"Expected: {reading}; dip {words.length(pour.dip_to_m)} down from the rim.",
            "With a sight tube, read the tube. More than a finger's breadth lower: look for a leak now.",
        ),
        buttons=(
            Button(label="Just as expected", kind="level", text=AS_EXPECTED, value=pour.to_m),
            Button(label="Cannot be read below the glass", kind="no_level"),
            Button(label="By weight: all batches are in", kind="no_level", text=BY_WEIGHT),
        ),
        ask="level",
        ask_kind="level",
        done=(Mark(pour=pour.number, kinds=("level", "no_level"), since=_all_in(pour)),),
        passed=f"passed over: level of pour {pour.number}",
        value=pour.to_m,
    )


def _bubbles(pour: Pour) -> Step:
    return Step(
        id=f"{pour.number}.bubbles",
        pour=pour.number,
        head="Look for bubbles",
        lines=("Look at the top and along the faces, with a lamp from the side.",),
        buttons=tuple(Button(label=each.capitalize(), kind="bubbles", text=each) for each in BUBBLES),
        ask="words",
        ask_kind="bubbles",
        done=(Mark(pour=pour.number, kinds=("bubbles",), since=_all_in(pour)),),
        passed=f"passed over: bubbles of pour {pour.number}",
    )


def _gel(pour: Pour, words: Wording) -> Step:
    went_in = _mixed(pour.number)
    spread = [
        ("at the earliest, one in ten", pour.gel_after_h_p10),
        ("at the latest, nine in ten", pour.gel_after_h_p90),
    ]
    return Step(
        id=f"{pour.number}.gel",
        pour=pour.number,
        head="Has it gelled?",
        big=words.duration(pour.gel_after_h),
        lines=(
            "Touch the top at the rim with a stick: gelled, it no longer runs together.",
            "Until then look again for leaks; a level that sinks is a leak.",
        ),
        buttons=(Button(label="Gelled", kind="gel"),),
        done=(Mark(pour=pour.number, kinds=("gel",)),),
        passed=f"passed over: gel of pour {pour.number}",
        timers=(
            Timer(words="gelled", when="about", after_s=pour.gel_after_h * HOUR, mark=went_in),
            *(
                Timer(words=name, when="about", after_s=hours * HOUR, mark=went_in)
                for name, hours in spread
                if hours is not None
            ),
        ),
    )


def _close(pour: Pour) -> Step:
    said = f"pour {pour.number} is done"
    return Step(
        id=f"{pour.number}.close",
        pour=pour.number,
        head="Photo and note",
        lines=("A photo of the top, and whatever was not as planned: both help the next plan.",),
        buttons=(Button(label="Nothing more to say", kind=STEP, text=said),),
        done=(Mark(pour=pour.number, words=said),),
    )


def _out(demold: Demold, last: Pour, words: Wording) -> Step:
    after = demold.after_h if demold.kept_after_h is None else demold.kept_after_h
    hard = () if after is None else (
        Timer(words="hard enough", when="from", after_s=after * HOUR, mark=_mixed(last.number)),
    )  # fmt: skip
    never = ("It does not get hard in this shop as it is: warm it first, as the plan says.",)
    return Step(
        id="0.out",
        pour=0,
        head="Out of the mold",
        big="" if after is None else words.duration(after),
        lines=(f"Rule: {demold.rule}.", *(never if after is None else ()), LEARN),
        buttons=(
            Button(label="It is out of the mold", kind="demolded"),
            Button(label="It is out, and it failed", kind="demolded", text=FAILED),
        ),
        done=(Mark(pour=0, kinds=("demolded",)),),
        timers=hard,
    )
