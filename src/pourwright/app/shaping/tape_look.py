"""Where the doubt of a measured body comes from, as numbers."""

from __future__ import annotations

from typing import Any

from pourwright.app.shaping.looked import Looked
from pourwright.app.shaping.measured import level_spread, measured_doubt, twice_of
from pourwright.app.shaping.tape_doubt import ONE_IN_TEN, WORDS
from pourwright.foundation.progress import Progress


def tape_look(looked: Looked, progress: Progress) -> dict[str, Any] | None:
    """List the causes of doubt and what one more reading would gain.

    Parameters
    ----------
    looked : Looked
        The shape.
    progress : Progress
        Told what is done.

    Returns
    -------
    dict or None
        None for a body that was not measured with a tape.
    """
    job = looked.job
    measured = None if job is None else job.shape.measured
    if job is None or measured is None:
        return None
    progress.step("how sure its size is", 0, 1)
    _, doubt = measured_doubt(measured)
    twice = twice_of(job, doubt)
    (low, high), volume = (doubt.band, doubt.volume) if twice is None else (twice.band, twice.volume)
    progress.step("how sure its size is", 1, 1)
    return {
        "volume_m3": volume,
        "volume_m3_p10": low,
        "volume_m3_p90": high,
        "causes": [
            {"cause": part.cause, "text": WORDS[part.cause], "give_or_take_m3": ONE_IN_TEN * part.deviation}
            for part in doubt.parts
        ],
        "next_reading_m": doubt.following.height if doubt.gains else None,
        "give_or_take_m3": ONE_IN_TEN * doubt.deviation,
        "give_or_take_with_it_m3": ONE_IN_TEN * doubt.following.deviation,
        "by_tape_m3": doubt.volume,
        "by_water_m3": None if twice is None else twice.water,
        "water_give_or_take_m3": None if twice is None else ONE_IN_TEN * twice.water_deviation,
        "give_or_take_of_both_m3": None if twice is None else ONE_IN_TEN * twice.deviation,
        "level_m": doubt.middle,
        "level_give_or_take_m": level_spread(doubt, twice),
    }
