"""Every way the mold of a job can be made, weighed against each other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.way_out import way_out_of
from pourwright.app.molding.ways_part import way_part
from pourwright.app.molding.ways_words import change_words, why_words
from pourwright.app.thin_findings import thin_findings
from pourwright.foundation.notation import format_share, parse_quantity
from pourwright.foundation.progress import Progress
from pourwright.foundation.quantities import Dimension, Quantity
from pourwright.jobs.mold_ways import Ways
from pourwright.materials import Mineral
from pourwright.mold import DEFAULTS, MoldResult, design_mold, lifting_caution
from pourwright.mold.choices import Method, MoldChoices
from pourwright.mold.ways.ask import Ask
from pourwright.mold.ways.block import block_way
from pourwright.mold.ways.choose import NEAR, recommended
from pourwright.mold.ways.defaults import AMOUNTS
from pourwright.mold.ways.facts import facts_of, skin_volume
from pourwright.mold.ways.life import Cast
from pourwright.mold.ways.money import Prices, cost_of
from pourwright.mold.ways.skin import skin_way
from pourwright.mold.ways.two_part import two_part_way
from pourwright.mold.ways.way import Way
from pourwright.mold.ways.work import sawing

PLASTER = "gypsum-casting"
_THICK_PASTE = 0.3
"""Water to powder by mass below which a casting material is a concrete, not a gypsum."""
RULE = (
    "Recommended is the cheapest cast among what can be made and planned: rubber, wood, shell and work of "
    "the mold over its life or the casts wanted, and opening it each time. "
    f"Within {format_share(NEAR - 1)} of each other the one with least trouble wins. "
    f"Where a price is missing, rubber and work count, an hour as {AMOUNTS['hour_in_rubber'].value:g} kg of "
    "rubber."
)


def ways_look(look: MoldLook, progress: Progress) -> Ways:
    """Weigh the ways of making a mold.

    Parameters
    ----------
    look : MoldLook
        The mold as the job has it.
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    Ways
    """
    ways = all_ways(look, progress)
    prices, currency = _prices(look), None if look.job.prices is None else look.job.prices.currency
    dry = look.materials.mineral[PLASTER].density.value
    casts = look.job.mold.casts
    costs = [cost_of(way, prices, look.mold.choices.thickness, dry, casts) for way in ways]
    best = recommended(ways, costs, casts)
    now = _now(look)
    parts = [
        way_part(way, cost, look, in_job=way.id == now, recommended=number == best)
        for number, (way, cost) in enumerate(zip(ways, costs, strict=True))
    ]
    return Ways(
        ways=parts,
        recommended=None if best is None else parts[best].id,
        why=why_words(parts, look.system, currency, casts),
        change=change_words(parts, look.system, currency),
        rule=RULE,
        currency=currency,
        casts_wanted=casts,
        skin_m=_skin(look),
        shell_m=DEFAULTS["shell"].value,
        warnings=list(_warnings(ways, now, look)),
        cautions=list(_cautions(ways, now, look)),
    )


def all_ways(look: MoldLook, progress: Progress) -> list[Way]:
    """Reckon every way, least trouble first.

    Parameters
    ----------
    look : MoldLook
        The mold as the job has it.
    progress : Progress
        May raise Cancelled.

    Returns
    -------
    list of Way
    """
    ask = ask_of(look)
    methods: tuple[Method, Method] = ("hung", "screwed")
    made = {(held, wood): designed(look, held, wood=wood) for wood in (False, True) for held in methods}
    progress.step("ways", 1, 2)
    blocks = [
        block_way(ask, mold, sawing(mold.choices, len(mold.blocks)) if mold.blocks else None)
        for (_, wood), mold in made.items()
        if mold.blocks or not wood
    ]
    plain = made["screwed", False]
    return [*blocks, two_part_way(ask, plain), skin_way(ask, plain)]


def ask_of(look: MoldLook) -> Ask:
    """Measure what the ways are reckoned from."""
    mesh, skin, shell = look.piece.mesh, _skin(look), DEFAULTS["shell"].value
    inner = skin_volume(mesh, skin)
    return Ask(
        facts=facts_of(mesh),
        choices=look.mold.choices,
        cast=cast_of(look),
        skin=skin,
        skin_volume=inner,
        shell=shell,
        shell_volume=skin_volume(mesh, skin + shell) - inner,
        cuts=len(way_out_of(look).cuts),
    )


def cast_of(look: MoldLook) -> Cast:
    """Which kind of casting material wears the mold."""
    if not isinstance(look.casting, Mineral):
        return "resin"
    return "concrete" if look.casting.water_ratio.value < _THICK_PASTE else "gypsum"


def designed(look: MoldLook, held: Method, *, wood: bool) -> MoldResult:
    """Design the block of a way.

    Parameters
    ----------
    look : MoldLook
        The mold as the job has it.
    held : str
        "hung" or "screwed".
    wood : bool
        With space blocks.

    Returns
    -------
    MoldResult
    """
    changes: dict[str, Any] = {"method": held}
    if "space_blocks" in MoldChoices.__dataclass_fields__:
        changes["space_blocks"] = wood
    mold = look.mold
    if mold.method == held and bool(mold.blocks) == wood:
        return mold
    return design_mold(look.piece.size, look.piece.levels, replace(mold.choices, **changes))


def _skin(look: MoldLook) -> float:
    given = look.job.mold.skin
    return DEFAULTS["skin"].value if given is None else given.si


def _now(look: MoldLook) -> str:
    mold = look.job.mold
    if mold.way != "block":
        return mold.way
    return f"block-{mold.method}{'-space-blocks' if look.mold.blocks else ''}"


def _prices(look: MoldLook) -> Prices:
    prices = look.job.prices
    if prices is None:
        return Prices()
    rubber = look.mold.choices.rubber.density.value
    plaster = look.materials.mineral[PLASTER].density.value
    hour: Quantity | None = getattr(prices, "hour", None)
    return Prices(
        rubber=_by_mass(prices.rubber, rubber),
        sheet=None if prices.board is None else prices.board.si,
        shell=_by_mass(prices.mineral, plaster),
        hour=None if hour is None else hour.si / parse_quantity(f"1 {prices.currency}/h", hour.dimension).si,
    )


def _by_mass(price: Quantity | None, density: float) -> float | None:
    """A price of a kilogram, from one of a kilogram or of a cubic metre."""
    if price is None:
        return None
    return price.si / density if price.dimension is Dimension.MONEY_PER_VOLUME else price.si


def _warnings(ways: list[Way], now: str, look: MoldLook) -> Iterator[str]:
    chosen = next(way for way in ways if way.id == now)
    for reason in chosen.no:
        # the design of a hung master says it itself, and what mends it
        if "setting rubber" not in reason:
            yield f"As the job has it the mold cannot be made: {reason}."
    for finding in thin_findings(look.piece, look.system):
        if finding.level != "ok":
            yield f"{finding.line[:1].upper()}{finding.line[1:]}."


def _cautions(ways: list[Way], now: str, look: MoldLook) -> Iterator[str]:
    chosen = next(way for way in ways if way.id == now)
    heavy = lifting_caution("The box that is turned over with the master in it", chosen.turned, look.system)
    if chosen.turned and heavy:
        yield heavy
