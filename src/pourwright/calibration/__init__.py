"""Parameters of a resin from its data sheet and from a cup test, and how sure they are."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pourwright.calibration.answers import answer as answer, questions as questions
    from pourwright.calibration.cup_choice import NextCup as NextCup, next_cup as next_cup
    from pourwright.calibration.cup_test import CupChoices as CupChoices, make_cup_test as make_cup_test
    from pourwright.calibration.doubts import (
        Member as Member,
        doubts_of as doubts_of,
        member as member,
        origin_of as origin_of,
    )
    from pourwright.calibration.evidence import (
        Conditions as Conditions,
        FactKind as FactKind,
        make_fact as make_fact,
    )
    from pourwright.calibration.family import agreed as agreed
    from pourwright.calibration.fitting import Fit as Fit, Question as Question, settle as settle
    from pourwright.calibration.influence import (
        contradictions as contradictions,
        leave_one_out as leave_one_out,
        unusual as unusual,
    )
    from pourwright.calibration.logger import read_logger as read_logger
    from pourwright.calibration.logger_faults import in_kelvin as in_kelvin
    from pourwright.calibration.mixed import Mix as Mix
    from pourwright.calibration.parameters import (
        NAMES as NAMES,
        NORMAL_P90 as NORMAL_P90,
        PARAMETERS as PARAMETERS,
        find_prior as find_prior,
        unstretched as unstretched,
    )
    from pourwright.calibration.record import Told as Told, record_text as record_text

_PUBLIC = {
    "Conditions": "evidence",
    "CupChoices": "cup_test",
    "FactKind": "evidence",
    "Member": "doubts",
    "NAMES": "parameters",
    "NORMAL_P90": "parameters",
    "PARAMETERS": "parameters",
    "agreed": "family",
    "doubts_of": "doubts",
    "member": "doubts",
    "origin_of": "doubts",
    "Fit": "fitting",
    "Mix": "mixed",
    "NextCup": "cup_choice",
    "Question": "fitting",
    "Told": "record",
    "answer": "answers",
    "contradictions": "influence",
    "find_prior": "parameters",
    "in_kelvin": "logger_faults",
    "leave_one_out": "influence",
    "make_cup_test": "cup_test",
    "make_fact": "evidence",
    "next_cup": "cup_choice",
    "questions": "answers",
    "read_logger": "logger",
    "record_text": "record",
    "settle": "fitting",
    "unstretched": "parameters",
    "unusual": "influence",
}
__all__ = sorted(_PUBLIC)  # noqa: PLE0605 - names are looked up on first use


def __getattr__(name: str) -> object:
    if name not in _PUBLIC:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_PUBLIC[name]}"), name)
