"""Physical constants in SI units (CODATA 2018; standard gravity of the CGPM 1901)."""

from typing import Final

from pourwright.foundation import notation

GAS_CONSTANT: Final = 8.314462618  # J/(mol K)
STEFAN_BOLTZMANN: Final = 5.670374419e-8  # W/(m2 K4)
STANDARD_GRAVITY: Final = 9.80665  # m/s2
ZERO_CELSIUS: Final = notation.ZERO_CELSIUS  # K
STANDARD_PRESSURE: Final = 101325.0  # Pa
