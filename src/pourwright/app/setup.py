"""From the words of a job to the choices that the rooms below take, in SI."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime, time
from functools import cached_property
from zoneinfo import ZoneInfo

from pourwright.app.box_sheets import refuse_larger_than_a_sheet
from pourwright.app.crushing import crushing_of
from pourwright.app.densest import densest_ever
from pourwright.app.doubts import refuse_doubtful
from pourwright.app.glass import glass_of, grade_of
from pourwright.app.hollowing import Hollowed, hollowed
from pourwright.app.inserting import inserted
from pourwright.app.learnt.cavity import measured_fill
from pourwright.app.learnt.in_force import learnt_choices, of_mold, shop_materials
from pourwright.app.learnt.paces import USUAL, Paces, paces_of
from pourwright.app.mineral_mix import mineral_mix
from pourwright.app.shaping.piece import PieceRead
from pourwright.fill import BandChoice, BucketTest, FillChoices, FillResult, design_fill
from pourwright.fill.choices import ShellChoice, Stock
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.foundation.quantities import Dimension, Quantity
from pourwright.geometry import Mesh, Solid
from pourwright.jobs.job import Job
from pourwright.jobs.sections import Band, BucketTest as TestWritten, ShellOfColour
from pourwright.materials import Materials, Resin
from pourwright.materials.batches import Batch, Tools
from pourwright.mold import DEFAULTS as MOLD, MoldChoices, MoldResult, design_mold
from pourwright.mold.bar_choices import BarChoices
from pourwright.mold.block_choices import BlockChoices
from pourwright.mold.blocks.placed import placed_blocks
from pourwright.mold.box.joints import JOINTS
from pourwright.mold.design import Finder
from pourwright.mold.hollow.insert import Insert
from pourwright.physics.permeability import mean_grain
from pourwright.planner.hours import WorkingHours
from pourwright.pour.bucket import most_in_pail
from pourwright.pour.climate import HOURS, Climate
from pourwright.pour.site import Bed, Block, Site, Space

OPENS, CLOSES = time(8), time(18)
ANY_DAY = datetime(2001, 1, 1, tzinfo=UTC)
BAR_SIDE = (0.010, 0.300)
"""Sides that a bar may have [m]."""
DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@dataclass(frozen=True)
class Setup:
    """A job with its piece, mold and fill designed: everything before the first pour.

    Parameters
    ----------
    job : Job
        As written.
    materials : Materials
        The families and the shop's own records.
    piece : PieceRead
        Measured.
    mold : MoldResult
        Rubber and box.
    fill : FillResult
        Glass and resin.
    hollow : Hollowed, optional
        The core, and the room around it; None for a piece cast solid.
    inserts : tuple of Insert
        What is set into the casting.
    paces : Paces
        How much longer the shop takes than is usual.
    """

    job: Job
    materials: Materials
    piece: PieceRead
    mold: MoldResult
    fill: FillResult
    hollow: Hollowed | None = None
    inserts: tuple[Insert, ...] = ()
    paces: Paces = USUAL

    @property
    def system(self) -> UnitSystem:
        """Units of what is printed."""
        return UnitSystem(self.job.units)

    @property
    def resin(self) -> Resin:
        """The casting resin."""
        return self.fill.choices.resin

    @property
    def room(self) -> Mesh:
        """What is filled: the cavity, less the core."""
        return self.piece.mesh if self.hollow is None else self.hollow.body.room

    @property
    def room_solid(self) -> Solid:
        """What is filled, measured."""
        return self.piece.solid if self.hollow is None else self.hollow.solid

    @property
    def piece_mass(self) -> float:
        """Of the cast piece, with a core that stays [kg]."""
        return self.fill.piece_mass + (0.0 if self.hollow is None else self.hollow.kept_mass)

    @property
    def in_mold(self) -> float:
        """What stands in the full mold: fill and core [kg]."""
        return self.fill.piece_mass + (0.0 if self.hollow is None else self.hollow.core_mass)

    @cached_property
    def solid_fill(self) -> FillResult:
        """Glass and resin of the piece cast solid."""
        if self.hollow is None:
            return self.fill
        return measured_fill(self.job, self.piece.mesh, self.piece.levels, self.fill.choices)

    @cached_property
    def most_in_pail(self) -> float:
        """Most that one batch of resin may weigh to be in the mold before its own heat forbids it [kg]."""
        shop, start = climate(self.job, ANY_DAY).warmest, self.job.casting.start_temperature
        return most_in_pail(self.resin, tools(self.job), shop if start is None else start.si, shop)

    def batches(self, mass: float) -> tuple[Batch, ...]:
        """Split a mass of resin [kg] by pail, scale and the pail's own heat."""
        return self.fill.batches(mass, self.most_in_pail)


def _given(**values: Quantity | float | None) -> dict[str, float]:
    """Keep what was written, in SI; the rooms below know their own defaults."""
    return {
        name: value.si if isinstance(value, Quantity) else value
        for name, value in values.items()
        if value is not None
    }


def set_up(job: Job, piece: PieceRead, find: Finder = placed_blocks) -> Setup:
    """Design mold and fill of a job.

    Parameters
    ----------
    job : Job
        As written.
    piece : PieceRead
        Its piece.
    find : callable
        Places the space blocks; the search where left out.

    Returns
    -------
    Setup
        Everything before the first pour.

    Raises
    ------
    UserError
        For unknown materials and choices that do not fit, with the line they stand on.
    """
    materials = shop_materials(job)
    resin = casting_resin(job, materials)
    refuse_doubtful(job, piece, materials)
    hollow = hollowed(job, piece, materials)
    room, levels = (piece.mesh, piece.levels) if hollow is None else (hollow.body.room, hollow.levels)
    fill = measured_fill(job, room, levels, fill_choices(job, materials, resin))
    mold = designed_mold(job, materials, piece, fill.densest, find)
    inserts = inserted(job, piece, hollow, materials)
    return Setup(job, materials, piece, mold, fill, hollow, inserts, paces_of(job))


def designed_mold(
    job: Job, materials: Materials, piece: PieceRead, density: float, find: Finder = placed_blocks
) -> MoldResult:
    """Design a mold for the densest thing that any variant pours into it.

    Parameters
    ----------
    job : Job
        As written.
    materials : Materials
        The families and the shop's own records.
    piece : PieceRead
        Its piece.
    density : float
        Of what this variant pours [kg/m3].
    find : callable
        Places the space blocks; the search where left out.

    Returns
    -------
    MoldResult

    Raises
    ------
    UserError
        For choices that make no mold, and panels larger than any sheet.
    """
    densest = densest_ever(job, density, lambda other: _poured_density(other, materials, piece))
    mold = design_mold(piece.size, piece.levels, mold_choices(job, materials, densest), find)
    # a pinned heat run stands for a published case: nobody saws its box
    if job.pin is None:
        refuse_larger_than_a_sheet(job, mold)
    return mold


def _poured_density(job: Job, materials: Materials, piece: PieceRead) -> float:
    """Of what a variant pours, glass in it [kg/m3]."""
    mineral = materials.mineral.get(job.casting.material)
    if mineral is not None:
        return mineral_mix(job, materials, mineral, piece.solid.volume).wet_density
    choices = fill_choices(job, materials, casting_resin(job, materials))
    return design_fill(piece.mesh, piece.levels, choices).densest


def casting_resin(job: Job, materials: Materials) -> Resin:
    """Look up the casting material, which must be a resin."""
    name, where = job.casting.material, job.where("casting.material")
    if name in materials.mineral:
        raise UserError(
            f"'{name}' is mixed with water and goes in at once: no pours are planned",
            where=where,
            allowed=", ".join(sorted(materials.resin)),
            todo=f"see water, times and heat with: pourwright fill {job.path} --heat; or choose a resin",
        )
    found = materials.casting(name, where)
    assert isinstance(found, Resin)  # the minerals are refused above
    return found


def tools(job: Job) -> Tools:
    """Pail and scale of the shop."""
    shop = job.shop
    return Tools(**_given(pail=shop.pail, scale_capacity=shop.scale_capacity, scale_step=shop.scale_step))


def fill_choices(job: Job, materials: Materials, resin: Resin) -> FillChoices:
    """Glass, bands and losses in SI."""
    job = learnt_choices(job)
    fill, crushing = job.fill, crushing_of(job, materials)
    bands = tuple(_band(job, number, band) for number, band in enumerate(job.band, 1))
    return FillChoices(
        resin=resin,
        glass=glass_of(job, materials),
        bands=bands or (BandChoice(where=job.where("band")),),
        stock=tuple(Stock(each.grade, each.colour, each.mass.si) for each in fill.stock),
        neat_cover=None if fill.neat_cover is None else fill.neat_cover.si,
        bottle_mass=crushing.usual,
        bottle_masses=crushing.masses,
        bought=crushing.bought,
        crush_yield=dict(crushing.yields.shares),
        tools=tools(job),
        units=UnitSystem(job.units),
        **_given(
            film=fill.film,
            bucket_loss=fill.bucket_loss,
            allowance=fill.allowance,
            overfill=fill.overfill,
        ),
    )


def _band(job: Job, number: int, band: Band) -> BandChoice:
    test, name = band.bucket_test, f"band[{number}]"
    return BandChoice(
        to=None if band.to is None else band.to.si,
        grade=grade_of(band),
        blend=band.blend,
        colour=band.colour,
        void_fraction=band.void_fraction,
        tapped=band.tapped,
        bucket_test=None if test is None else _bucket_test(test),
        where=job.where(f"{name}.to"),
        grade_where=job.where(f"{name}.grade"),
        colour_where=job.where(f"{name}.colour"),
        soft=None if band.soft is None else band.soft.si,
        soft_where=job.where(f"{name}.soft"),
        shell=None if band.shell is None else _shell(job, f"{name}.shell", band.shell),
    )


def _shell(job: Job, name: str, shell: ShellOfColour) -> ShellChoice:
    return ShellChoice(
        colour=shell.colour,
        thickness=shell.thickness.si,
        where=job.where(f"{name}.thickness"),
        colour_where=job.where(f"{name}.colour"),
    )


def _bucket_test(test: TestWritten) -> BucketTest:
    mass, water = (None if each is None else each.si for each in (test.mass, test.water))
    return BucketTest(volume=test.volume.si, mass=mass, water=water)


def mold_choices(job: Job, materials: Materials, densest: float) -> MoldChoices:
    """Rubber, box and master in SI."""
    mold, master = job.mold, job.master
    optional = _given(
        wall=mold.wall,
        base=mold.base,
        cover=mold.cover,
        freeboard=mold.freeboard,
        board_thickness=mold.board_thickness,
        bulge_limit=mold.bulge_limit,
        safety_factor=mold.safety_factor,
        rubber_pour_allowance=mold.rubber_pour_allowance,
        master_density=master.density,
        master_mass=master.mass,
        vacuum_pot=job.shop.vacuum_pot,
    )
    return MoldChoices(
        rubber=materials.find("rubber", mold.rubber, job.where("mold.rubber")),
        board=materials.find("board", mold.board, job.where("mold.board")),
        master_board=materials.find("board", master.board, job.where("master.board")),
        joint=JOINTS[mold.joint],
        method=mold.method,
        way=mold.way,
        casting_density=densest,
        space_blocks=mold.space_blocks,
        blocks=_block_choices(job, materials),
        bars=_bar_choices(job, materials),
        tools=tools(job),
        shop=climate(job, ANY_DAY).warmest,
        units=UnitSystem(job.units),
        **optional,
    )


def _block_choices(job: Job, materials: Materials) -> BlockChoices:
    """Stock and effort of space blocks in SI."""
    mold, prices = job.mold, job.prices
    stock = mold.block_stock or []
    if mold.block_stock is not None and not stock:
        raise UserError(
            "mold.block_stock names no board",
            where=job.where("mold.block_stock"),
            allowed='thicknesses in the shop, as ["18 mm", "12 mm"]',
            todo="leave it out for the board's usual thickness",
        )
    for thick in stock:
        if not 0.002 <= thick.si <= 0.2:
            raise UserError(
                f"a board of {thick.text} in mold.block_stock",
                where=job.where("mold.block_stock"),
                allowed="2 mm to 200 mm",
                todo="write the thickness that lies in the shop",
            )
    board = None
    if mold.block_board is not None:
        board = materials.find("board", mold.block_board, job.where("mold.block_board"))
    rubber = materials.find("rubber", mold.rubber, job.where("mold.rubber"))
    return BlockChoices(
        board=board,
        stock=tuple(sorted(each.si for each in stock)),
        hour_price=None if prices is None or prices.hour is None else prices.hour.si,
        rubber_price=_by_mass(prices.rubber if prices else None, rubber.density.value),
        seed=job.seed,
        where=job.where("mold.least_block"),
        most=int(MOLD["most_blocks"].value) if mold.most_blocks is None else mold.most_blocks,
        **_given(least=mold.least_block, sawing_time=mold.sawing_time),
    )


def _bar_choices(job: Job, materials: Materials) -> BarChoices:
    """Bars over the rim in SI."""
    mold, where = job.mold, job.where("mold.bar")
    board = materials.find("board", mold.bar_board, job.where("mold.bar_board"))
    section = mold.bar or []
    if mold.bar is not None and len(section) != len(BAR_SIDE):
        raise UserError(
            f"mold.bar has {len(section)} sizes",
            where=where,
            allowed='two, across and up as it lies on the rim: ["45 mm", "70 mm"]',
            todo="leave it out for a lath of 45 by 70 mm on edge",
        )
    for side in section:
        if not BAR_SIDE[0] <= side.si <= BAR_SIDE[1]:
            least, most = (format_length(edge, UnitSystem(job.units)) for edge in BAR_SIDE)
            raise UserError(
                f"a bar of {side.text} in mold.bar",
                where=where,
                allowed=f"{least} to {most}",
                todo="write what lies in the shop, across and up",
            )
    bars = BarChoices(board=board)
    if section:
        bars = replace(bars, width=section[0].si, height=section[1].si)
    return bars if mold.bars is None else replace(bars, count=mold.bars)


def _by_mass(price: Quantity | None, density: float) -> float | None:
    """A price of rubber, written by mass or by volume [money/kg]."""
    if price is None:
        return None
    return price.si / density if price.dimension is Dimension.MONEY_PER_VOLUME else price.si


def working_hours(job: Job) -> WorkingHours:
    """When somebody is in the shop."""
    shop = job.shop
    opens, closes = (
        (OPENS, CLOSES) if shop.working_hours is None else (shop.working_hours.start, shop.working_hours.end)
    )
    return WorkingHours(
        ZoneInfo(shop.time_zone),
        opens,
        closes,
        frozenset(DAYS.index(day) for day in shop.working_days),
        frozenset(shop.days_off),
    )


def climate(job: Job, zero: datetime) -> Climate:
    """The shop's temperature by the hour."""
    shop = job.shop
    day = shop.temperature or shop.day_temperature
    night = shop.temperature or shop.night_temperature
    assert day is not None and night is not None  # noqa: PT018 - the job file's own check
    heated = shop.day_hours or shop.working_hours
    start, end = (OPENS, CLOSES) if heated is None else (heated.start, heated.end)
    hourly = tuple(day.si if start <= time(hour) < end else night.si for hour in range(HOURS))
    return Climate(zero, ZoneInfo(shop.time_zone), hourly)


def _grain(setup: Setup, name: str | None) -> float:
    """Size of the grains of a grade [m]; 0 for a neat band."""
    if name is None:
        return 0.0
    grade = setup.fill.choices.glass.grade(name)
    return mean_grain(grade.sieve_from.value, grade.sieve_to.value)


def site(setup: Setup, zero: datetime) -> Site:
    """What stands on the bench, for the heat run."""
    job, mold = setup.job, setup.mold
    beds = tuple(
        Bed(band.lower, band.upper, 0.0 if band.neat else 1.0 - band.void_fraction, _grain(setup, band.grade))
        for band in setup.fill.bands
    )
    block = Block(mold.inside[:2], mold.base, mold.choices.thickness, setup.piece.frame.height)
    start = job.casting.start_temperature
    hollow = setup.hollow
    return Site(
        setup.room,
        block,
        beds,
        setup.resin,
        setup.fill.choices.glass,
        mold.choices.rubber,
        mold.choices.board,
        climate(job, zero),
        None if start is None else start.si,
        spaces=tuple(Space(block.lower, block.upper) for block in mold.blocks),
        space_board=mold.choices.block_board if mold.blocks else None,
        core=None if hollow is None else hollow.body.core,
        core_material=None if hollow is None else hollow.material,
        film_factor=of_mold(job, "heat_film"),
    )
