"""Records: complete, sourced, replaced as a whole by the shop's own."""

import dataclasses
from importlib.resources import files

import pytest

from pourwright.foundation.errors import UserError
from pourwright.foundation.sources import Kind, Sourced, load_sources
from pourwright.materials import load_materials
from pourwright.materials.records import Solid

RECORD = """
[pine]
name = "Pine from the yard"
density = { value = 31.2, unit = "lb/ft3", kind = "measured here", source = "common-practice" }
heat_capacity = { value = 1600.0, unit = "J/(kg K)", kind = "measured here", source = "common-practice" }
conductivity = { value = 0.13, unit = "W/(m K)", kind = "measured here", source = "common-practice" }
thickness = { value = 0.75, unit = "in", kind = "measured here", source = "common-practice" }
emissivity = { value = 0.9, unit = "", kind = "measured here", source = "common-practice" }
"""


def numbers(record):
    for item in dataclasses.fields(record):
        value = getattr(record, item.name)
        if isinstance(value, Sourced):
            yield item.name, value
        elif dataclasses.is_dataclass(value):
            yield from numbers(value)
        elif isinstance(value, tuple):
            for part in value:
                yield from numbers(part)


def everything():
    materials = load_materials()
    for item in dataclasses.fields(materials):
        for record in getattr(materials, item.name).values():
            yield from ((record.id, name, number) for name, number in numbers(record))


def shop(tmp_path, text, kind="board"):
    (tmp_path / "materials").mkdir()
    (tmp_path / "materials" / f"{kind}.toml").write_text(text, "utf8")
    return tmp_path


def test_every_source_resolves():
    known = load_sources()
    assert {number.source for _, _, number in everything()} <= set(known)


def test_every_value_lies_in_its_own_band():
    for record, name, number in everything():
        if number.low is not None:
            assert number.low <= number.value <= number.high, (record, name)


def test_no_family_claims_to_be_measured():
    assert Kind.MEASURED not in {number.kind for _, _, number in everything()}


def test_the_shop_replaces_a_whole_record_in_its_own_units(tmp_path):
    pine = load_materials(shop(tmp_path, RECORD)).board["pine"]
    assert pine.name == "Pine from the yard"
    # 1 lb/ft3 is 0.45359237 kg in 0.3048^3 m3
    assert pine.density.value == pytest.approx(31.2 * 0.45359237 / 0.3048**3, rel=1e-12)
    assert pine.thickness.value == pytest.approx(0.01905, rel=1e-12)
    assert pine.density.kind is Kind.MEASURED
    assert load_materials().board["pine"].name == "Pine board"


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("emissivity =", "emissivty =", "emissivty"),
        ('unit = "in"', 'unit = "kg"', "does not fit"),
        ('kind = "measured here"', 'kind = "guessed"', "unknown kind"),
        ("value = 0.75", "value = 0.75, low = 1.0", "outside its own range"),
        ("[pine]", "[pine", "not a TOML file"),
        (', source = "common-practice" }', " }", "'source' is missing"),
    ],
)
def test_a_bad_record_is_named_with_file_and_key(tmp_path, old, new, says):
    with pytest.raises(UserError) as refused:
        load_materials(shop(tmp_path, RECORD.replace(old, new, 1)))
    assert says in str(refused.value)
    assert "board.toml" in str(refused.value)


def test_an_unknown_kind_of_file_is_refused(tmp_path):
    with pytest.raises(UserError, match="no kind of material"):
        load_materials(shop(tmp_path, RECORD, "wood"))


def test_an_unknown_material_lists_those_there_are():
    with pytest.raises(UserError) as refused:
        load_materials().find("resin", "epoxy-hot", "job.toml:3 casting.material")
    assert "epoxy-slow-deep" in str(refused.value)
    assert str(refused.value).startswith("job.toml:3")


def test_a_shop_resin_that_does_not_say_how_stiff_it_is_stays_loadable(tmp_path):
    own = (files("pourwright") / "data" / "materials" / "resin.toml").read_text("utf8")
    start, end = own.index("[epoxy-fast]"), own.index("[epoxy-fast.solid]")
    told = own[start:end].replace("epoxy-fast", "of-the-shop")
    resin = load_materials(shop(tmp_path, told, "resin")).resin["of-the-shop"]
    assert resin.solid == Solid()
    assert resin.solid.strain_at_break.kind is Kind.MEMORY
    # what the family is told holds within what no family is told
    family = load_materials().resin["epoxy-fast"].solid
    for item in dataclasses.fields(family):
        mine, wide = getattr(family, item.name), getattr(resin.solid, item.name)
        assert wide.low <= mine.value <= wide.high


def test_a_resin_may_say_part_of_it_in_its_own_unit(tmp_path):
    own = (files("pourwright") / "data" / "materials" / "resin.toml").read_text("utf8")
    start, end = own.index("[epoxy-fast]"), own.index("[epoxy-fast.solid]")
    stiff = 'modulus = { value = 400000.0, unit = "psi", kind = "measured here", source = "common-practice" }'
    told = own[start:end].replace("epoxy-fast", "of-the-shop") + f"[of-the-shop.solid]\n{stiff}\n"
    solid = load_materials(shop(tmp_path, told, "resin")).resin["of-the-shop"].solid
    # 1 psi is 6894.757 Pa
    assert solid.modulus.value == pytest.approx(400000 * 6894.757, rel=1e-6)
    assert solid.poisson_ratio == Solid().poisson_ratio
