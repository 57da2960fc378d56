"""Piece, mold and fill as parts of the plan document."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pourwright.app.hollowing import Hollowed
from pourwright.app.setup import Setup
from pourwright.app.shaping.piece import PieceRead
from pourwright.fill import FillResult
from pourwright.geometry import Solid, measure
from pourwright.jobs import plan
from pourwright.jobs.mold_contact import Patch
from pourwright.materials import Materials
from pourwright.materials.batches import Batch
from pourwright.mold import MoldResult
from pourwright.mold.blocks.letter import letter

USUAL_SOLID = 0.55


def piece_part(
    piece: PieceRead, mass: float, material: str, materials: Materials, hollow: Hollowed | None = None
) -> plan.Piece:
    """Write the piece.

    Parameters
    ----------
    piece : PieceRead
        Measured in the pour frame.
    mass : float
        Of the cast piece [kg].
    material : str
        Id of the casting material.
    materials : Materials
        For its weight in everything else.
    hollow : Hollowed, optional
        Its core; volume, area and centroid are those of the room around it.

    Returns
    -------
    plan.Piece
        Part of the document.
    """
    solid, core = (piece.solid, 0.0) if hollow is None else (hollow.solid, hollow.body.volume)
    x, y, z = (float(value) for value in solid.centroid)
    return plan.Piece(
        name=piece.name,
        volume_m3=solid.volume,
        volume_m3_p10=None if piece.doubt is None else piece.doubt.low - core,
        volume_m3_p90=None if piece.doubt is None else piece.doubt.high - core,
        area_m2=solid.area,
        height_m=piece.frame.height,
        mass_kg=mass,
        size_m=piece.size,
        centroid_m=(x, y, z),
        up=piece.frame.up,
        flipped=piece.frame.flipped,
        casting_material=material,
        casting_material_name=(materials.mineral.get(material) or materials.resin[material]).name,
        mass_by_material_kg=masses(solid, materials),
        **_finished(piece),
    )


def _finished(piece: PieceRead) -> dict[str, Any]:
    """Size and volume of the cold, sanded piece, where a job says how it comes to them."""
    if piece.sizes is None:
        return {}
    x, y, z = (float(side) for side in piece.sizes.cast - piece.sizes.sanded)
    return {"finished_size_m": (x, y, z), "finished_volume_m3": measure(piece.sizes.piece).volume}


def masses(solid: Solid, materials: Materials) -> dict[str, float]:
    """Weigh a shape in every casting material.

    Parameters
    ----------
    solid : Solid
        Measured shape.
    materials : Materials
        Records.

    Returns
    -------
    dict
        Mass [kg] by name; resins neat and with a usual bed of glass.
    """
    glass = next(iter(materials.glass.values())).density.value
    weights: dict[str, float] = {}
    for resin in materials.resin.values():
        filled = USUAL_SOLID * glass + (1 - USUAL_SOLID) * resin.density.value
        weights[f"{resin.id}, neat"] = solid.volume * resin.density.value
        weights[f"{resin.id}, {USUAL_SOLID:.0%} glass"] = solid.volume * filled
    return weights | {
        mineral.id: solid.volume * mineral.density.value for mineral in materials.mineral.values()
    }


def mold_part(mold: MoldResult, fill_mass: float, patch: Patch | None = None) -> plan.Mold:
    """Write the mold; ``fill_mass`` [kg] is what stands in it when it is full."""
    return plan.Mold(
        method=mold.method,
        rubber=_rubber(mold),
        hold_down=_hold_down(mold),
        box=_box(mold),
        seams=[
            plan.Seam(name=seam.name, length_m=seam.length, pressure_Pa=seam.pressure) for seam in mold.seams
        ],
        empty_mass_kg=mold.empty_mass,
        filled_mass_kg=mold.filled_mass(fill_mass),
        patch=patch or Patch(),
        blocks=[
            plan.Block(
                letter=letter(number),
                lower_m=block.lower,
                upper_m=block.upper,
                wall=block.wall,
                layers=block.layers,
            )
            for number, block in enumerate(mold.blocks)
        ],
    )


def batches(made: Sequence[Batch], levels: Sequence[float] = ()) -> list[plan.Batch]:
    """Write batches, with the level [m] after each where it is known."""
    after = [*levels, *[None] * (len(made) - len(levels))]
    return [
        plan.Batch(
            number=batch.number,
            mass_kg=batch.mass,
            part_a_kg=batch.part_a,
            part_b_kg=batch.part_b,
            ratio_error=batch.ratio_error,
            level_after_m=level,
        )
        for batch, level in zip(made, after, strict=True)
    ]


def _rubber(mold: MoldResult) -> plan.Rubber:
    record, mix = mold.choices.rubber, mold.rubber
    return plan.Rubber(
        id=record.id,
        name=record.name,
        wall_m=mold.wall,
        base_m=mold.base,
        cover_m=mold.cover,
        volume_m3=mix.volume,
        mass_kg=mix.mass,
        mixed_kg=mix.mass_mixed,
        part_a_kg=mix.part_a,
        part_b_kg=mix.part_b,
        parts_by_weight=(record.parts_a.value, record.parts_b.value),
        fill_mark_before_master_m=mix.fill_mark,
        level_after_master_m=mix.level_after,
        head_at_bottom_Pa=mix.head_at_bottom,
        working_time_h=mold.choices.works_for / 3600,
        demold_time_h=record.demold_time.value / 3600,
        batches=batches(mix.batches, _rubber_levels(mold)),
    )


def _rubber_levels(mold: MoldResult) -> list[float]:
    return [mold.level_after_batch(batch.number) for batch in mold.rubber.batches]


def _hold_down(mold: MoldResult) -> plan.HoldDown:
    hold = mold.hold_down
    return plan.HoldDown(
        method=mold.method,
        buoyancy_N=hold.buoyancy,
        master_mass_kg=hold.master_mass,
        net_force_N=hold.net_force,
        worst_level_m=hold.worst_level,
        safety_factor=hold.safety_factor,
        weight_needed_kg=hold.weight_needed,
        screws_needed=hold.screws_needed,
        bar_load_N=hold.bar_load,
        sealed_force_N=hold.sealed_force,
    )


def _box(mold: MoldResult) -> plan.Box:
    return plan.Box(
        inside_m=mold.inside,
        outside_m=mold.outside,
        board=mold.choices.board.name,
        panels=[
            plan.Panel(
                name=panel.name,
                count=panel.count,
                length_m=panel.length,
                width_m=panel.width,
                thickness_m=panel.thickness,
                pressure_at_bottom_Pa=panel.pressure_at_bottom,
                thrust_N=panel.thrust,
            )
            for panel in mold.panels
        ],
    )


def fill_part(setup: Setup) -> plan.Fill:
    """Write glass and resin."""
    fill = setup.fill
    ledger = fill.ledger
    return plan.Fill(
        glass_kg=fill.glass_mass,
        resin_kg=fill.resin_mixed,
        bands=[_band(setup, number) for number in range(len(fill.bands))],
        glass=_lots(fill),
        resin=plan.ResinLedger(
            voids_kg=ledger.voids,
            neat_kg=ledger.neat,
            film_kg=ledger.film,
            bucket_kg=ledger.bucket,
            allowance_kg=ledger.allowance,
            overfill_kg=ledger.overfill,
        ),
        neat_cover_m=fill.neat_cover,
        overfill_m=fill.choices.overfill,
        parts_by_weight=(setup.resin.parts_a.value, setup.resin.parts_b.value),
    )


def _band(setup: Setup, number: int) -> plan.Band:
    band, standing = setup.fill.bands[number], setup.piece.frame.as_standing
    return plan.Band(
        name=band.name,
        from_m=band.lower,
        to_m=band.upper,
        from_standing_m=standing(band.lower),
        to_standing_m=standing(band.upper),
        kind="neat" if band.neat else "glass",
        grade=band.grade,
        colour=band.colour,
        volume_m3=band.volume,
        void_fraction=band.void_fraction,
        void_fraction_low=band.void_low,
        void_fraction_high=band.void_high,
        void_source=band.void_source,
        glass_kg=band.glass_mass,
        resin_kg=band.resin_mass,
    )


def _lots(fill: FillResult) -> list[plan.GlassLot]:
    return [
        plan.GlassLot(
            grade=lot.grade,
            colour=lot.colour,
            mass_kg=lot.mass,
            bottles=lot.bottles,
            sieve_from_m=lot.sieve_from,
            sieve_to_m=lot.sieve_to,
        )
        for lot in fill.glass
    ]
