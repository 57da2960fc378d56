"""Numbers of an answer in the units the maker thinks in."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from pourwright.foundation import notation
from pourwright.foundation.notation import UnitSystem


class Words:
    """Says lengths, masses, temperatures and times for one job.

    Parameters
    ----------
    units : str
        ``metric`` or ``us``.
    time_zone : str
        IANA name of the shop's time zone.
    scale_step : float, optional
        Resolution of the shop's scale [kg].
    """

    def __init__(self, units: str, time_zone: str = "UTC", scale_step: float | None = None) -> None:
        self.system = UnitSystem(units)
        self._scale_step = scale_step
        self._zone = ZoneInfo(time_zone)

    @classmethod
    def of(cls, job: Mapping[str, Any]) -> "Words":
        """Read units and time zone from the ``job`` part of an answer."""
        return cls(job["units"], job["time_zone"], job.get("scale_step_kg"))

    def length(self, metres: float) -> str:
        """A length [m]."""
        return notation.format_length(metres, self.system)

    def listed(self, places: list[float]) -> str:
        """Places [m] one after another, the unit once."""
        return notation.format_lengths(places, self.system)

    def coordinate(self, metres: float) -> str:
        """Where something lies along an axis [m], below 0 too."""
        return notation.format_coordinate(metres, self.system)

    def size(self, edges: tuple[float, ...] | list[float]) -> str:
        """Lengths [m] side by side."""
        return " x ".join(self.length(edge) for edge in edges)

    def mass(self, kilograms: float) -> str:
        """A mass [kg]."""
        return notation.format_mass(kilograms, self.system)

    def weighed(self, kilograms: float) -> str:
        """A mass [kg] in the steps of the shop's scale."""
        return notation.format_mass(kilograms, self.system, step=self._scale_step)

    def load(self, kilograms: float) -> str:
        """A mass [kg] to be carried or laid on."""
        return notation.format_load(kilograms, self.system)

    def volume(self, cubic_metres: float) -> str:
        """A volume [m3]."""
        return notation.format_volume(cubic_metres, self.system)

    def doubted_volume(self, part: Mapping[str, Any]) -> str:
        """A volume by its ``volume_m3``, with its band where it has one."""
        text, low, high = self.volume(part["volume_m3"]), part.get("volume_m3_p10"), part.get("volume_m3_p90")
        if low is None or high is None:
            return text
        return f"{text} ({self.volume(low)} to {self.volume(high)} in 8 of 10 cases)"

    def area(self, square_metres: float) -> str:
        """An area [m2]."""
        return notation.format_area(square_metres, self.system)

    def patch(self, square_metres: float) -> str:
        """Area [m2] of a small place: cm² or in²."""
        return notation.format_patch(square_metres, self.system)

    def force(self, newtons: float) -> str:
        """A force [N]."""
        return notation.format_force(newtons, self.system)

    def pressure(self, pascals: float) -> str:
        """A pressure [Pa]."""
        return notation.format_pressure(pascals, self.system)

    def temperature(self, celsius: float) -> str:
        """A temperature [degC]."""
        return notation.format_temperature(celsius + notation.ZERO_CELSIUS, self.system)

    def difference(self, kelvin: float) -> str:
        """A temperature difference [K]."""
        return notation.format_temperature_difference(kelvin, self.system, digits=1)

    def duration(self, hours: float) -> str:
        """A duration [h]."""
        return notation.format_duration(hours * 3600)

    def warmth(self, celsius: float) -> str:
        """A temperature [degC] to a tenth."""
        return notation.format_temperature(celsius + notation.ZERO_CELSIUS, self.system, digits=1)

    def after(self, hours: float) -> str:
        """A time after a start [h]; 0 h at the start itself."""
        return notation.format_duration(hours * 3600) if abs(hours) > 1e-9 else "0 h"

    def fine(self, metres: float) -> str:
        """A length [m] to a tenth of a millimetre, or in inches."""
        return notation.format_length(metres, self.system, digits=1)

    def bend(self, metres: float) -> str:
        """How far something bends [m], in tenths of a millimetre or thousandths of an inch."""
        return notation.format_bend(metres, self.system)

    def cut(self, metres: float) -> str:
        """A length [m] to a hundredth of a millimetre or a thousandth of an inch, below 0 too."""
        return notation.format_cut_length(metres, self.system)

    def place(self, at: Mapping[str, Any]) -> str:
        """Where something is, by its ``x_m``, ``y_m`` and ``z_m``."""
        return ", ".join(notation.format_coordinate(at[f"{axis}_m"], self.system) for axis in "xyz")

    def share(self, share: float) -> str:
        """A share [-]."""
        return notation.format_share(share)

    def moment(self, iso: str) -> str:
        """An ISO 8601 moment on the shop's own clock."""
        return notation.format_moment(datetime.fromisoformat(iso).astimezone(self._zone), self.system)

    def day(self, iso: str) -> str:
        """The day of an ISO 8601 moment on the shop's own clock, with its year."""
        moment = datetime.fromisoformat(iso).astimezone(self._zone)
        return f"{notation.format_day(moment)} {moment.year}"
