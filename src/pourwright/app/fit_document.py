"""A fit as the document that every reader of it sees."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from pourwright import __version__
from pourwright.app.fit_evidence import Asked
from pourwright.calibration import Fit, next_cup
from pourwright.calibration.answers import Answer, Question as AskedOf, answer
from pourwright.calibration.cup_test import CupTest
from pourwright.calibration.evidence import Evidence, Fact, Measure
from pourwright.calibration.influence import Contradiction, Influence
from pourwright.calibration.parameters import NAMES, NORMAL_P90, PARAMETERS, unstretched
from pourwright.foundation.files import sha256_of
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    UnitSystem,
    format_duration,
    format_length,
    format_temperature,
)
from pourwright.jobs import fit as doc

Array = NDArray[np.float64]
HOUR = 3600.0
SPARE = 1.2
"""More is mixed than goes into the cup."""
SILENT_ABOVE, NARROW_BELOW, TOGETHER_ABOVE = 0.85, 0.5, 0.9
"""Shares of the family's band that count as untouched and as narrowed; correlation of twins."""
_UNITS: Mapping[Measure, doc.Unit] = {Measure.TIME: "h", Measure.TEMPERATURE: "degC", Measure.LENGTH: "m"}


def fit_document(
    asked: Asked,
    found: Fit,
    questions: Mapping[str, AskedOf],
    influences: list[Influence],
    pairs: list[Contradiction],
    strange: list[tuple[str, float]],
) -> doc.FitDocument:
    """Put a fit and everything that is told about it into its document.

    Parameters
    ----------
    asked : Asked
        Facts and evidence.
    found : Fit
        The fit of all of it.
    questions : mapping
        What is answered, by key.
    influences : list of Influence
        One per piece of evidence.
    pairs : list of Contradiction
        Facts that cannot both be true.
    strange : list of tuple
        Facts that this family does not show.

    Returns
    -------
    FitDocument
    """
    facts = asked.facts
    evidence = asked.question.evidence
    denied = [*_of_the_mix(asked), *(_pair(pair, evidence, asked.system) for pair in pairs)]
    warning = ["where facts contradict each other no band holds: find the wrong one and take it out"]
    return doc.FitDocument(
        version=__version__,
        id=facts.id,
        name=facts.name,
        family=facts.family,
        hardener=asked.question.prior.hardener,
        source=facts.source,
        units=facts.units,
        invented=facts.invented,
        density_kg_m3=round(asked.question.density, 3),
        inputs=dict(_inputs(asked)),
        facts=[
            _fact(each, influence, questions) for each, influence in zip(evidence, influences, strict=True)
        ],
        answers=[_answered(question, answer(found, question)) for question in questions.values()],
        contradictions=denied,
        unusual=[
            f"{label}: {off:.1f} deviations from what {asked.base.name.lower()} shows"
            for label, off in strange
        ],
        uncertain=list(_uncertain(found)),
        narrowed=list(_narrowed(found)),
        parameters=[_parameter(found, i) for i in range(len(NAMES))],
        covariance=[
            [float(f"{value:.6g}") for value in row[: len(NAMES)]] for row in found.covariance[: len(NAMES)]
        ],
        cups=[_cup(asked, found, i) for i, each in enumerate(evidence) if isinstance(each, CupTest)],
        next_cup=_next_cup(asked, found),
        notes=[*(warning if denied else []), *asked.notes],
    )


def _inputs(asked: Asked) -> Iterator[tuple[str, str]]:
    files = [asked.facts.path, *(asked.facts.path.parent / cup.file for cup in asked.facts.cup)]
    return ((file.name, sha256_of(file)) for file in files if file.exists())


def _in_unit(value: float, measure: Measure) -> float:
    """SI to the unit of the document, to six digits."""
    shown = {Measure.TIME: value / HOUR, Measure.TEMPERATURE: value - ZERO_CELSIUS, Measure.LENGTH: value}
    return float(f"{shown[measure]:.6g}")


def _told(measure: Measure, found: Answer) -> doc.Told:
    low, value, high = (_in_unit(each, measure) for each in (found.low, found.value, found.high))
    return doc.Told(unit=_UNITS[measure], value=value, value_p10=low, value_p90=high)


def _answered(question: AskedOf, found: Answer) -> doc.FitAnswer:
    told = _told(question.measure, found)
    return doc.FitAnswer(key=question.key, words=question.words, **told.model_dump())


def _fact(each: Evidence, found: Influence, questions: Mapping[str, AskedOf]) -> doc.FitFact:
    measure = each.measure if isinstance(each, Fact) else None
    return doc.FitFact(
        label=found.label,
        unit=None if measure is None else _UNITS[measure],
        stated=None if measure is None or found.told is None else _in_unit(found.told, measure),
        fitted=None if measure is None or found.fitted is None else _in_unit(found.fitted, measure),
        others=None if measure is None or found.others is None else _told(measure, found.others),
        missed=round(found.missed, 3),
        without=[_answered(questions[key], value) for key, value in found.without.items()],
    )


def _of_the_mix(asked: Asked) -> Iterator[doc.FitContradiction]:
    for first, second, follows in asked.mix.contradictions():
        yield doc.FitContradiction(
            first=first,
            second=second,
            apart=None,
            text=f"from {first} follows {follows}, which {second} deny",
        )


def _pair(pair: Contradiction, evidence: tuple[Evidence, ...], system: UnitSystem) -> doc.FitContradiction:
    second = next(each for each in evidence if each.label == pair.second)
    assert isinstance(second, Fact)
    assert pair.expected is not None
    low, high = (shown(end, second.measure, system) for end in (pair.expected.low, pair.expected.high))
    stated = shown(second.value, second.measure, system)
    text = f"from {pair.first} follows {low} to {high} for {pair.second}, stated is {stated}"
    return doc.FitContradiction(first=pair.first, second=pair.second, apart=round(pair.apart, 2), text=text)


def shown(value: float, measure: Measure, system: UnitSystem) -> str:
    """Write a value for the maker."""
    if measure is Measure.TIME:
        return format_duration(value)
    return (
        format_temperature(value, system) if measure is Measure.TEMPERATURE else format_length(value, system)
    )


def _uncertain(found: Fit) -> Iterator[str]:
    silent = [p.words for p, width in zip(PARAMETERS, found.narrowing, strict=True) if width > SILENT_ABOVE]
    if silent:
        yield f"nothing here tells {'; '.join(silent)}: the family's band holds"
    n = len(NAMES)
    deviations = np.sqrt(np.diag(found.covariance)[:n])
    alike = found.covariance[:n, :n] / np.outer(deviations, deviations)
    for i, j in combinations(range(n), 2):
        if abs(alike[i, j]) > TOGETHER_ABOVE:
            yield f"only together can be told {PARAMETERS[i].words} and {PARAMETERS[j].words}"


def _narrowed(found: Fit) -> Iterator[str]:
    for parameter, width in zip(PARAMETERS, found.narrowing, strict=True):
        if width < NARROW_BELOW:
            yield f"{parameter.words}: {100 * width:.0f} % of the family's band is left"


def _parameter(found: Fit, i: int) -> doc.FitParameter:
    prior, parameter = found.question.prior, PARAMETERS[i]
    width = found.narrowing[i]
    low, value, high = (
        unstretched(
            parameter.name,
            prior.mean[i] + prior.deviation[i] * (found.deviates[i] + side * NORMAL_P90 * width),
        )
        for side in (-1.0, 0.0, 1.0)
    )
    return doc.FitParameter(
        name=parameter.name,
        words=parameter.words,
        unit=prior.numbers[parameter.name].unit,
        value=float(f"{value:.7g}"),
        value_p10=float(f"{low:.7g}"),
        value_p90=float(f"{high:.7g}"),
        narrowing=round(float(width), 4),
    )


def _next_cup(asked: Asked, found: Fit) -> doc.FitNextCup:
    chosen = next_cup(found)
    parts = asked.mix.parts() or (asked.base.parts_a.value, asked.base.parts_b.value)
    mixed = SPARE * chosen.mass
    peak = _told(Measure.TEMPERATURE, chosen.peak)
    return doc.FitNextCup(
        mass_kg=chosen.mass,
        part_a_kg=round(mixed * parts[0] / sum(parts), 4),
        part_b_kg=round(mixed * parts[1] / sum(parts), 4),
        logged_h=chosen.logged / HOUR,
        peak_degC=peak.value,
        peak_degC_p10=peak.value_p10 or peak.value,
        peak_degC_p90=peak.value_p90 or peak.value,
    )


def _cup(asked: Asked, found: Fit, index: int) -> doc.FitCup:
    # the fit's own evidence: a curve that is missed is trusted less there
    test = found.question.evidence[index]
    assert isinstance(test, CupTest)
    cup = asked.facts.cup[index - (len(asked.question.evidence) - len(asked.facts.cup))]
    place = found.question.places[index]
    fitted = test.simulated(found.resin, found.deviates[place])
    first = sum(block.size for block in found.blocks[:index])
    slopes = found.slopes[first : first + fitted.size] * test.noise[:, None]
    # of a stretch of readings: how sure the curve is, and how well the logger reads
    spread = np.sqrt(np.einsum("ij,jk,ik->i", slopes, found.covariance, slopes) + test.noise**2)
    reading = asked.readings[test.label]
    return doc.FitCup(
        label=test.label,
        file=cup.file,
        rows=int(reading.time.size),
        mass_kg=cup.mass.si,
        time_h=_rounded(test.time / HOUR),
        measured_degC=_rounded(test.temperature - ZERO_CELSIUS),
        fitted_degC=_rounded(fitted - ZERO_CELSIUS),
        fitted_degC_p10=_rounded(fitted - NORMAL_P90 * spread - ZERO_CELSIUS),
        fitted_degC_p90=_rounded(fitted + NORMAL_P90 * spread - ZERO_CELSIUS),
        air_time_h=_rounded(test.air.time / HOUR),
        air_degC=_rounded(test.air.temperature - ZERO_CELSIUS),
    )


def _rounded(values: Array) -> list[float]:
    return [round(float(value), 4) for value in values]
