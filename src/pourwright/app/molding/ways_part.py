"""One way of making a mold, written into the sheet."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil

from pourwright.app.molding.look import MoldLook
from pourwright.app.setup import working_hours
from pourwright.foundation.notation import format_force, format_mass
from pourwright.jobs.mold_ways import WayMoney, WayOfMold, WayStep
from pourwright.mold.hold.master import screws_from_below
from pourwright.mold.ways.money import HOUR, Cost
from pourwright.mold.ways.way import Way
from pourwright.mold.ways.work import Step, elapsed
from pourwright.physics.constants import STANDARD_GRAVITY

LINES = ("none", "one, down one side", "all round", "two, down two sides")


def way_part(way: Way, cost: Cost, look: MoldLook, *, in_job: bool, recommended: bool) -> WayOfMold:
    """Write one way.

    Parameters
    ----------
    way : Way
        Reckoned.
    cost : Cost
        Of it.
    look : MoldLook
        For units, working day and safety factor.
    in_job, recommended : bool
        Whether the job has it, and whether it is the one to take.

    Returns
    -------
    WayOfMold
    """
    low, likely, high = way.work
    return WayOfMold(
        id=way.id,
        words=words_of(way),
        way=way.way,
        held=way.held,
        space_blocks=way.space_blocks,
        in_job=in_job,
        recommended=recommended,
        possible=way.possible,
        planned=way.planned,
        no=list(way.no),
        against=list(way.against),
        rubber_volume_m3=way.volume,
        rubber_kg=way.mass,
        mixed_kg=way.mixed,
        pours=len(way.pours),
        batches=way.batches,
        board_m2=way.panel_area,
        space_block_count=way.blocks,
        space_block_volume_m3=way.block_volume,
        shell_volume_m3=way.shell_volume,
        clay_volume_m3=way.clay_volume,
        work_h=likely / HOUR,
        work_low_h=low / HOUR,
        work_high_h=high / HOUR,
        elapsed_h=elapsed(way.steps, workday_of(look)) / HOUR,
        work_per_cast_h=way.work_each[1] / HOUR,
        parting_lines=way.lines,
        parting_length_m=way.line,
        lift_N=way.lift,
        floats=floats_words(way, look),
        turned_kg=way.turned,
        casts_low=_told(way.life[0]),
        casts=_told(way.life[1]),
        casts_high=_told(way.life[2]),
        money=_money(cost),
        steps=_steps(way.steps),
        each_cast=_steps(way.each),
        job_lines=job_lines(way),
    )


def words_of(way: Way) -> str:
    """Name a way."""
    if way.way == "two-part":
        return "two pours, parting bed"
    if way.way == "skin":
        return "skin in a shell"
    opened = "cut open" if way.lines else "uncut"
    return f"one block, {opened}{', space blocks' if way.space_blocks else ''}"


def job_lines(way: Way) -> list[str]:
    """Lines of the job file that ask for a way."""
    lines = ["[mold]", f'way = "{way.way}"']
    if way.way == "two-part":
        return lines
    lines.append(f'method = "{way.held}"')
    return lines if way.way == "skin" else [*lines, f"space_blocks = {str(way.space_blocks).lower()}"]


def floats_words(way: Way, look: MoldLook) -> str:
    """Say what lifts the master, and what holds it."""
    if way.way == "skin":
        return "no, brushed on"
    if way.held == "bed":
        return "no, it lies in the bed, then in rubber"
    if way.lift <= 0:
        return "no, it is heavier than the rubber it displaces"
    factor = look.mold.choices.safety_factor
    lift = format_force(way.lift, look.system)
    if way.held == "screwed":
        count = screws_from_below(factor * way.lift, look.mold.choices, look.mold.pour.master_height)
        return f"{lift}: {count} screws"
    weight = ceil(factor * way.lift / STANDARD_GRAVITY)
    return f"{lift}: {format_mass(weight, look.system, step=1.0)} on the bars"


def workday_of(look: MoldLook) -> float:
    """Length of the shop's working day [s]."""
    hours = working_hours(look.job)
    opens, closes = (time.hour * 3600 + time.minute * 60 for time in (hours.opens, hours.closes))
    return float(closes - opens)


def _told(casts: float) -> float:
    """Casts to two digits: the range is wider than that."""
    return float(f"{casts:.2g}")


def _money(cost: Cost) -> WayMoney:
    parts = {"rubber": cost.rubber, "board": cost.wood, "mineral": cost.shell, "hour": cost.work}
    return WayMoney(
        rubber=_rounded(cost.rubber),
        wood=_rounded(cost.wood),
        shell=_rounded(cost.shell),
        work=_rounded(cost.work),
        mold=_rounded(cost.total),
        per_cast=_rounded(cost.each),
        missing=[f"prices.{name}" for name, part in parts.items() if part is None],
    )


def _rounded(money: float | None) -> float | None:
    return None if money is None else round(money, 2)


def _steps(steps: Iterable[Step]) -> list[WayStep]:
    return [
        WayStep(
            name=step.name,
            work_h=step.work / HOUR,
            low_h=step.low / HOUR,
            high_h=step.high / HOUR,
            wait_h=step.wait / HOUR,
        )
        for step in steps
        if step.work > 0
    ]
