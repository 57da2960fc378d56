"""What is told of glass, resin, powder and water, and of mixing."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.answering.document import Cell, Number, Section, Table
from pourwright.app.answering.looked import CheapLook
from pourwright.app.answering.numbers import cell, in_degrees_of, measured, number, table
from pourwright.app.filling.batches import batches_look
from pourwright.app.filling.look import FillLook
from pourwright.app.setup import Setup
from pourwright.fill import MineralMix
from pourwright.foundation.notation import UnitSystem, format_openings
from pourwright.foundation.progress import SILENT
from pourwright.jobs.fill_batches import Batches


def fill_section(look: CheapLook) -> Section:
    """Tell what goes into the mold.

    Parameters
    ----------
    look : CheapLook
        The job.

    Returns
    -------
    Section
    """
    if look.setup is None:
        assert look.mix is not None
        return Section(numbers=list(_mixed(look.mix, look.system)))
    return Section(numbers=list(_resin(look.setup)), tables=list(_glass(look.setup)))


def pour_section(look: CheapLook) -> Section:
    """Tell how the resin is mixed; hours and temperatures are the plan's.

    Parameters
    ----------
    look : CheapLook
        The job.

    Returns
    -------
    Section
    """
    setup = look.setup
    if setup is None:
        return Section(notes=["It is mixed with water and goes in at once: no pours are planned."])
    told = batches_look(
        FillLook(look.job, setup.materials, setup.piece, setup.resin, setup=setup, hollow=setup.hollow),
        SILENT,
    )
    assert told is not None
    return Section(numbers=list(_mixing(told, look.system)), tables=[_batches(told, setup)])


def _mixed(mix: MineralMix, system: UnitSystem) -> Iterator[Number]:
    yield number("powder_kg", "dry powder", mix.powder, system)
    yield number("water_kg", "water", mix.water, system)
    if mix.aggregate:
        yield number("aggregate_kg", "glass stirred in", mix.aggregate, system)
    yield number("mixed_kg", "to mix", mix.mixed, system, "spare in it")
    yield number("wet_mass_kg", "the piece as it comes out", mix.wet_mass, system)
    yield number("dry_mass_kg", "the piece once dry", mix.piece_mass, system)


def _resin(setup: Setup) -> Iterator[Number]:
    fill, system = setup.fill, setup.system
    ledger = fill.ledger
    yield number("glass_kg", "glass", fill.glass_mass, system)
    yield number("mixed_kg", "resin to mix", ledger.total, system, setup.resin.name)
    yield number("voids_kg", "of it between the grains", ledger.voids, system)
    yield number("neat_kg", "in neat resin", ledger.neat, system)
    yield number("film_kg", "clings to mold and tools", ledger.film, system)
    yield number("bucket_kg", "stays in the pail", ledger.bucket, system)
    yield number("allowance_kg", "mixed on top", ledger.allowance, system)
    if ledger.overfill:
        yield number("overfill_kg", "to be planed off", ledger.overfill, system)
    if fill.neat_cover:
        yield number("neat_cover_m", "neat cover over the topmost glass", fill.neat_cover, system)


def _glass(setup: Setup) -> Iterator[Table]:
    fill, system = setup.fill, setup.system
    if not fill.glass:
        return
    heads = (("colour", "colour"), ("grade", "grade"), ("mass_kg", "dry glass"), ("bottles_count", "bottles"))
    rows = [
        [
            cell(lot.colour),
            cell(lot.grade, f"{lot.grade}, {format_openings(lot.sieve_from, lot.sieve_to, system)}"),
            measured("mass_kg", lot.mass, system),
            cell(lot.bottles, "bought graded" if lot.bottles is None else f"{lot.bottles}"),
        ]
        for lot in fill.glass
    ]
    caption = "Glass to have ready; bottles of one colour yield all their grades at once"
    yield table("glass", caption, heads, rows)


def _mixing(told: Batches, system: UnitSystem) -> Iterator[Number]:
    whole = sum(band.resin_kg for band in told.bands)
    parts = ":".join(f"{part:g}" for part in told.parts_by_weight)
    yield number("mixed_kg", "resin to mix", whole, system, f"A to B {parts} by weight")
    count = sum(len(band.batches) for band in told.bands)
    yield number("batches_count", "batches", count, system, "mixed band by band")
    limits = {"pail": "the pail", "scale": "the scale", "heat": "its own heat in the pail"}
    yield number("batch_most_kg", "one batch at most", told.most_kg, system, f"for {limits[told.most_by]}")
    yield number("in_mold_within_h", "in the mold within", told.in_mold_within_h, system, "from mixing")
    stood = in_degrees_of(system, told.pot_life_of)
    yield number("pot_life_h", "pot life", told.pot_life_h, system, stood)


def _batches(told: Batches, setup: Setup) -> Table:
    heads = (
        ("band", "band"),
        ("batch_count", "batch"),
        ("part_a_kg", "part A"),
        ("part_b_kg", "part B"),
        ("level_m", "level after it"),
        ("dip_m", "down from the rim"),
    )
    system = setup.system

    def row(band: str, batch: tuple[int, float, float, float, float]) -> list[Cell]:
        keys = [key for key, _ in heads[1:]]
        return [cell(band), *(measured(key, each, system) for key, each in zip(keys, batch, strict=True))]

    rows = [
        row(band.band, (one.number, one.part_a_kg, one.part_b_kg, one.level_m, one.dip_m))
        for band in told.bands
        for one in band.batches
    ]
    return table("batches", "Batches of resin, as they are weighed", heads, rows)
