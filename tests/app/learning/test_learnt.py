"""From logged pours to what the shop has learnt, in words and in the next plan's materials."""

from datetime import datetime, timedelta

import pytest

from pourwright.app.leaking.of_plan import column_of
from pourwright.app.learning.families import family_of
from pourwright.app.learning.from_pours import PourLogged, records_of
from pourwright.app.learning.learnt import learn_all, set_aside
from pourwright.app.learnt.applied import choices_with_learned, with_learned
from pourwright.app.learnt.words import told
from pourwright.calibration.learning.record import Record
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.jobs import load_job
from pourwright.materials import load_materials
from tests.sheets.sample_plan import sample_plan

MATERIALS = load_materials()
DENSITY = 1100.0


def logged(void: float, **given: object) -> PourLogged:
    """The sample plan's only pour, stopped inside its lowest band of glass."""
    plan = sample_plan(1)
    column, level = column_of(plan, plan.pours[0]), 0.15
    film = plan.fill.resin.film_kg
    cavity = float(column.liquid(level)) / plan.fill.bands[0].void_fraction
    begun = datetime.fromisoformat(plan.pours[0].start)
    known = {"poured": DENSITY * cavity * void + film, "level": level, **given}
    return PourLogged(id="one", number=1, begun=begun, **known)  # type: ignore[arg-type]


def test_the_voids_of_a_grade_come_back_from_what_was_poured_and_the_level() -> None:
    (record,) = records_of(sample_plan(1), [logged(0.43)], DENSITY)
    assert (record.quantity, record.subject) == ("void_fraction", "coarse")
    assert record.value == pytest.approx(0.43, abs=1e-6)
    assert 0.002 < record.doubt < 0.02


def test_voids_are_told_by_what_the_mold_really_holds() -> None:
    plan = sample_plan(1)
    (drawn,) = records_of(plan, [logged(0.43)], DENSITY)
    (measured,) = records_of(plan, [logged(0.43, cavity=1.02)], DENSITY)
    # the same resin in two per cent more room
    assert measured.value == pytest.approx(drawn.value / 1.02)


def test_a_pour_that_leaked_tells_no_voids() -> None:
    assert records_of(sample_plan(1), [logged(0.43, leaked=True)], DENSITY) == []


def test_the_pail_and_the_pace_are_told_too() -> None:
    one = logged(0.43, mixed=20.0, poured=19.5, level=None)
    late = one.begun + timedelta(hours=2 * sample_plan(1).pours[0].peak_after_h)
    full = PourLogged(id="two", number=1, begun=one.begun, mixed=20.0, poured=19.5, peak_at=late, gelled=late)
    found = {each.quantity: each.value for each in records_of(sample_plan(1), [full], DENSITY)}
    assert found == {"bucket_loss": pytest.approx(0.025), "cure_rate": pytest.approx(0.5)}
    (_, again) = records_of(sample_plan(1), [full], DENSITY, assumed=0.8)
    assert again.value == pytest.approx(0.4)


def voids(*values: float) -> list[Record]:
    return [
        Record(id=f"r{number}", quantity="void_fraction", subject="coarse", value=value)
        for number, value in enumerate(values)
    ]


def test_what_was_learnt_is_said_with_its_records_and_the_family() -> None:
    (found,) = learn_all(voids(0.402, 0.401, 0.403, 0.399, 0.400, 0.402), MATERIALS)
    words = told(found)
    assert words.startswith("Your coarse glass: 40")
    assert "from 6 pours; the family says" in words


def test_a_kept_family_is_said_with_its_reason() -> None:
    (found,) = learn_all(voids(0.40), MATERIALS)
    assert told(found).startswith("The family's value is kept, coarse glass:")
    assert "1 pour is too few" in told(found)


def test_a_grade_that_is_no_longer_known_keeps_nothing_else_from_being_learnt() -> None:
    lost = Record(id="l1", quantity="void_fraction", subject="a grade of last year", value=0.4)
    found = learn_all([lost, *voids(0.402, 0.401, 0.403)], MATERIALS)
    assert [one.subject for one in found] == ["coarse"]


def test_one_record_is_set_aside_and_taken_back() -> None:
    given = voids(0.402, 0.401, 0.403, 0.60)
    (spoilt,), (mended,) = (learn_all(each, MATERIALS) for each in (given, set_aside(given, "r3")))
    assert mended.records == spoilt.records - 1
    assert set_aside(set_aside(given, "r3"), "r3", aside=False) == given
    with pytest.raises(NotThereError, match="no record 'r9'"):
        set_aside(given, "r9")


def test_the_next_plan_is_made_of_what_was_learnt(small) -> None:  # type: ignore[no-untyped-def]
    job = load_job(small)
    resin = job.casting.material
    given = voids(0.402, 0.401, 0.403, 0.399)
    given += [
        Record(id=f"c{n}", quantity="cure_rate", subject=resin, value=value)
        for n, value in enumerate((1.24, 1.26, 1.25, 1.25))
    ]
    given += [
        Record(id=f"p{n}", quantity="bucket_loss", subject="pail", value=value)
        for n, value in enumerate((0.05, 0.051, 0.049))
    ]
    learned = learn_all(given, MATERIALS)
    after = with_learned(MATERIALS, learned)
    glass = next(iter(after.glass.values()))
    assert glass.grade("coarse").void_fraction.value == pytest.approx(0.402, abs=0.004)
    assert str(glass.grade("coarse").void_fraction.kind) == "measured here"
    factor = after.resin[resin].cure.frequency_2.value / MATERIALS.resin[resin].cure.frequency_2.value
    assert factor == pytest.approx(1.23, abs=0.04)
    assert after.resin[resin].pot_life.value == pytest.approx(MATERIALS.resin[resin].pot_life.value / factor)
    assert choices_with_learned(job, learned).fill.bucket_loss == pytest.approx(0.045, abs=0.008)


def test_a_kept_family_changes_nothing(small) -> None:  # type: ignore[no-untyped-def]
    learned = learn_all(voids(0.40), MATERIALS)
    assert with_learned(MATERIALS, learned) == MATERIALS
    job = load_job(small)
    assert choices_with_learned(job, learned) is job


@pytest.mark.parametrize(
    ("quantity", "subject", "word"),
    [
        ("voids", "coarse", "nothing is learnt"),
        ("void_fraction", "sand", "no grade"),
        ("shrinkage", "tar", "no resin"),
    ],
)
def test_what_nobody_knows_is_refused(quantity: str, subject: str, word: str) -> None:
    with pytest.raises(UserError, match=word):
        family_of(quantity, subject, MATERIALS)
