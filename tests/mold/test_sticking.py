"""Verdicts on contacts. Expected ones are facts of the trade: kind 'common practice', no number in them."""

import pytest
from hypothesis import given, strategies as st

from pourwright.materials.contact import VERDICTS, load_contact
from pourwright.mold.sticking import Layers, better, default_release, default_sealer, judge

TABLE = load_contact()
CURES = ("platinum", "tin")
surfaces = st.sampled_from(sorted(TABLE.surface))
sealers = st.sampled_from(sorted(TABLE.sealer))
releases = st.sampled_from(sorted(TABLE.release))
cures = st.sampled_from(CURES)
layers = st.builds(Layers, surfaces, sealers, releases, cures)


@pytest.mark.parametrize(
    ("surface", "sealer", "release", "cure", "verdict"),
    [
        # platinum is stopped by sulfur, amines and tin; tin cure is not
        ("sulfur-clay", "none", "none", "platinum", "no"),
        ("latex", "none", "none", "platinum", "no"),
        ("latex", "none", "none", "tin", "fine"),
        ("print-photopolymer", "none", "none", "platinum", "no"),
        ("epoxy", "none", "none", "platinum", "test first"),
        ("epoxy", "none", "none", "tin", "fine"),
        # new rubber on old: it bonds; platinum on tin does not even set
        ("platinum-rubber", "none", "none", "platinum", "no"),
        ("tin-rubber", "none", "none", "tin", "no"),
        ("tin-rubber", "none", "petroleum-jelly", "tin", "test first"),
        ("tin-rubber", "none", "petroleum-jelly", "platinum", "no"),
        # silicone bonds to glass, and locks in pores
        ("glass", "none", "none", "tin", "no"),
        ("glass", "none", "petroleum-jelly", "tin", "fine"),
        ("mdf", "none", "none", "tin", "no"),
        ("mdf", "acrylic-lacquer", "none", "tin", "fine"),
        ("mdf", "acrylic-lacquer", "none", "platinum", "test first"),
        # a coat of epoxy is amine-cured itself
        ("mdf", "epoxy", "none", "platinum", "test first"),
        # silicone oil is no barrier between silicones
        ("platinum-rubber", "none", "silicone-spray", "platinum", "no"),
        # lacquer eats foam
        ("polystyrene-foam", "acrylic-lacquer", "none", "tin", "no"),
        ("wax", "none", "none", "platinum", "fine"),
    ],
)
def test_facts_of_the_trade(surface: str, sealer: str, release: str, cure: str, verdict: str) -> None:
    assert judge(Layers(surface, sealer, release, cure)).verdict == verdict


@given(
    name=st.text(min_size=1).filter(lambda name: name not in TABLE.surface),
    sealer=sealers,
    release=releases,
    cure=cures,
)
def test_what_the_table_does_not_know_is_never_fine(name: str, sealer: str, release: str, cure: str) -> None:
    judged = judge(Layers(name, sealer, release, cure))
    assert judged.verdict != "fine"
    assert any("test first" in hint for hint in judged.hints)


@given(known=layers, where=st.sampled_from(["sealer", "release", "cure_kind"]))
def test_an_unknown_coat_or_cure_is_never_fine(known: Layers, where: str) -> None:
    judged = judge(Layers(**{**vars(known), where: "moonshine"}))
    assert judged.verdict != "fine"
    assert any("moonshine" in hint for hint in judged.hints)


@given(known=layers)
def test_the_verdict_is_the_worst_cell_and_no_coat_makes_a_cell_worse(known: Layers) -> None:
    judged = judge(known)
    rank = VERDICTS.index
    assert rank(judged.verdict) == max((rank(cell.left) for cell in judged.cells), default=0)
    assert all(rank(cell.left) <= rank(cell.bare) for cell in judged.cells)
    assert all(cell.coat for cell in judged.cells if cell.left != cell.bare)


@given(known=layers)
def test_better_is_better_or_there_is_none(known: Layers) -> None:
    found, rank = better(known), VERDICTS.index
    here = rank(judge(known).verdict)
    if found is not None:
        assert rank(found.verdict) < here
        assert (found.layers.surface, found.layers.cure_kind) == (known.surface, known.cure_kind)
    else:
        assert here <= 1 or all(
            judge(Layers(known.surface, sealer, release, known.cure_kind)).verdict == "no"
            for sealer in TABLE.sealer
            for release in TABLE.release
        )


@pytest.mark.parametrize("surface", sorted(TABLE.surface))
def test_defaults_seal_pores_and_part_glass_without_spoiling_the_master(surface: str) -> None:
    sealer, release = default_sealer(surface), default_release(surface)
    factors = TABLE.surface[surface].factors
    assert (sealer != "none") == bool({"porous", "open-edges"} & set(factors))
    assert surface not in (*TABLE.sealer[sealer].spoils, *TABLE.release[release].spoils)
    if {"porous", "silica", "open-edges"} & set(factors):
        assert judge(Layers(surface, sealer, release, "tin")).verdict == "fine"
