"""The recipe of a test cube."""

import pytest
from hypothesis import given, strategies as st

from pourwright.fill import BandChoice
from pourwright.fill.cube import cube_of, layer_heights
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem
from pourwright.materials.batches import Tools

NEAT = BandChoice(to=0.09)
COARSE = BandChoice(to=0.24, grade="coarse", colour="green")
MEDIUM = BandChoice(grade="medium", colour="amber")


@given(st.lists(st.tuples(st.floats(0.001, 1.0), st.floats(0.001, 0.05)), min_size=1, max_size=8), st.data())
def test_layers_fill_the_cube_and_none_is_too_thin(bands, data) -> None:
    wanted, least = zip(*bands, strict=True)
    edge = data.draw(st.floats(sum(least), 1.0))
    heights = layer_heights(wanted, least, edge)
    assert sum(heights) == pytest.approx(edge, rel=1e-9)
    assert all(height >= low * (1 - 1e-9) for height, low in zip(heights, least, strict=True))
    free = [h / w for h, w, low in zip(heights, wanted, least, strict=True) if h > low * (1 + 1e-9)]
    assert free == pytest.approx(free[:1] * len(free), rel=1e-6)


def test_layers_that_have_room_keep_their_proportion() -> None:
    assert layer_heights([0.3, 0.1], [0.01, 0.01], 0.1) == pytest.approx((0.075, 0.025), rel=1e-12)
    # the cover needs 6 mm, so the other two share 94
    assert layer_heights([0.3, 0.1, 0.006], [0.01, 0.01, 0.006], 0.1) == pytest.approx(
        (0.0705, 0.0235, 0.006)
    )


def test_the_recipe_fills_the_cube(fill, prism, glass, resin) -> None:
    """Glass and resin over their densities are the cube, to half a step of the scale for each of them."""
    cube = cube_of(fill(prism, NEAT, COARSE, MEDIUM))
    held = sum(each.glass / glass.density.value + each.resin / resin.density.value for each in cube.layers)
    off = len(cube.layers) * 0.0005 * (1 / glass.density.value + 1 / resin.density.value)
    assert held == pytest.approx(cube.edge**3, abs=off)
    assert cube.fill.levels.total == pytest.approx(cube.edge**3, rel=1e-9)


def test_the_mixes_hold_all_the_resin_and_its_losses(fill, prism) -> None:
    cube = cube_of(fill(prism, NEAT, COARSE, MEDIUM))
    mixed = sum(batch.mass for mix in cube.mixes for batch in mix.batches)
    assert cube.fill.resin_mixed <= mixed <= cube.fill.resin_mixed + 2 * len(cube.mixes) * 0.001


@pytest.mark.parametrize("step", [0.001, 0.005, 0.02])
def test_masses_are_steps_of_the_scale(fill, prism, step) -> None:
    cube = cube_of(fill(prism, NEAT, COARSE, MEDIUM, tools=Tools(scale_step=step)))
    masses = [mass for each in cube.layers for mass in (each.glass, each.resin)]
    masses += [part for mix in cube.mixes for batch in mix.batches for part in (batch.part_a, batch.part_b)]
    assert [mass / step for mass in masses] == pytest.approx(
        [round(mass / step) for mass in masses], abs=1e-6
    )


def test_ten_grains_go_across_and_three_to_a_layer(fill, prism, glass) -> None:
    cube = cube_of(fill(prism, NEAT, COARSE, MEDIUM))
    assert cube.edge >= 10 * glass.grade("coarse").sieve_to.value
    for layer in cube.layers:
        if layer.band.grade:
            grain = glass.grade(layer.band.grade).sieve_to.value
            assert layer.band.upper - layer.band.lower >= 3 * grain * (1 - 1e-9)
    fine = cube_of(fill(prism, BandChoice(grade="fine")))
    assert fine.edge == pytest.approx(0.060)
    assert cube_of(fill(prism, BandChoice())).edge == pytest.approx(0.060)


def test_glass_is_never_laid_on_liquid_neat_resin(fill, prism) -> None:
    neat_first = cube_of(fill(prism, NEAT, COARSE, MEDIUM))
    assert [mix.layers for mix in neat_first.mixes] == [(0,), (1, 2, 3)]
    assert [mix.layers for mix in cube_of(fill(prism, COARSE, MEDIUM)).mixes] == [(0, 1, 2)]


def test_the_layers_are_the_bands_of_the_job(fill, prism) -> None:
    layers = cube_of(fill(prism, NEAT, COARSE, MEDIUM)).layers
    assert [layer.number for layer in layers] == [1, 2, 3, 0]
    assert [layer.band.grade for layer in layers] == [None, "coarse", "medium", None]


def test_many_stripes_are_shown_once_each(fill, prism) -> None:
    stripes = [
        BandChoice(to=0.04 * number, grade="coarse", colour="green" if number % 2 else "amber")
        for number in range(1, 10)
    ]
    cube = cube_of(fill(prism, *stripes, BandChoice(grade="coarse", colour="amber")))
    assert [(layer.number, layer.band.colour) for layer in cube.layers] == [
        (1, "green"),
        (2, "amber"),
        (0, None),
    ]
    assert cube.left_out == 8


def test_the_shops_own_edge_is_taken_or_refused(fill, prism) -> None:
    made = fill(prism, NEAT, COARSE, MEDIUM)
    assert cube_of(made, 0.1).edge == 0.1
    with pytest.raises(UserError, match="too small for its bands"):
        cube_of(made, 0.05, "job.toml:9")


def test_the_cube_leaves_out_the_overfill_of_the_piece(fill, prism) -> None:
    assert cube_of(fill(prism, COARSE, MEDIUM, overfill=0.01)).fill.ledger.overfill == 0.0


def test_an_inch_shop_gets_quarters_of_an_inch(fill, prism) -> None:
    """Ten grains of 12.5 mm are 4.92 in, so 5 in."""
    assert cube_of(fill(prism, COARSE, MEDIUM, units=UnitSystem.US)).edge == pytest.approx(0.127, rel=1e-12)
