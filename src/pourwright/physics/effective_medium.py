"""Heat conduction of a crowded mix: Bruggeman's two schemes, Lewis-Nielsen, and the choice."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError
from pourwright.physics.arrays import Array, Real
from pourwright.physics.composite import (
    CONDUCTIVITY,
    FRACTION,
    geometric_mean,
    hashin_shtrikman_lower,
    hashin_shtrikman_upper,
    maxwell_eucken,
    wiener_parallel,
    wiener_series,
)

HALVINGS = 60  # a float64 holds 53 binary digits


@checked(particle_fraction=FRACTION, matrix=CONDUCTIVITY, particle=CONDUCTIVITY)
def bruggeman_symmetric(particle_fraction: Real, matrix: float, particle: float) -> Real:
    """Conductivity of a mix in which neither phase surrounds the other.

    Parameters
    ----------
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1, float or array
    matrix : conductivity of the resin [W/(m K)]
    particle : conductivity of the grains [W/(m K)]

    Returns
    -------
    conductivity [W/(m K)]

    Raises
    ------
    RangeError : a fraction outside 0 to 1, or a conductivity outside 0.001 to 500

    Notes
    -----
    phi (k_p - k)/(k_p + 2k) + (1 - phi) (k_m - k)/(k_m + 2k) = 0, solved for its positive
    root: k = (b + sqrt(b^2 + 8 k_m k_p)) / 4, b = (3 phi - 1) k_p + (2 - 3 phi) k_m.

    References
    ----------
    Bruggeman, Ann. Phys. 416 (1935) 636 [bruggeman-1935]; Landauer, J. Appl. Phys. 23
    (1952) 779 [landauer-1952].

    Examples
    --------
    >>> print(f"{bruggeman_symmetric(0.55, 0.2, 1.0):.6f}")
    0.543868
    """
    b = (3 * particle_fraction - 1) * particle + (2 - 3 * particle_fraction) * matrix
    root: Any = np.sqrt(b * b + 8 * matrix * particle)
    return (b + root) / 4  # type: ignore[no-any-return]


@checked(particle_fraction=FRACTION, matrix=CONDUCTIVITY, particle=CONDUCTIVITY)
def bruggeman_hanai(particle_fraction: Real, matrix: float, particle: float) -> Real:
    """Conductivity of a resin crowded with grains of many sizes, each one wetted.

    Parameters
    ----------
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1, float or array
    matrix : conductivity of the resin [W/(m K)]
    particle : conductivity of the grains [W/(m K)]

    Returns
    -------
    conductivity [W/(m K)]

    Raises
    ------
    RangeError : a fraction outside 0 to 1, or a conductivity outside 0.001 to 500

    Notes
    -----
    (k_p - k)/(k_p - k_m) (k_m/k)^(1/3) = 1 - phi, solved by halving between k_m and k_p.
    The resin surrounds every grain at any fraction, as it does in a bed of glass that
    resin has filled: the model used where nothing else is asked for.

    References
    ----------
    Bruggeman, Ann. Phys. 416 (1935) 636 [bruggeman-1935].

    Examples
    --------
    >>> print(f"{bruggeman_hanai(0.55, 0.2, 1.0):.6f}")
    0.508615
    """
    wanted: Array = np.asarray(1 - particle_fraction, dtype=np.float64)
    # halving, not the cubic formula: it holds for better and for poorer grains alike
    near, far = np.full_like(wanted, matrix), np.full_like(wanted, particle)
    for _ in range(HALVINGS):
        middle = (near + far) / 2
        left = (particle - middle) * np.cbrt(matrix) / np.cbrt(middle)
        too_near = np.abs(left) > np.abs(wanted * (particle - matrix))
        near, far = np.where(too_near, middle, near), np.where(too_near, far, middle)
    root: Any = ((near + far) / 2)[()]
    return root  # type: ignore[no-any-return]


@checked(
    particle_fraction=FRACTION,
    matrix=CONDUCTIVITY,
    particle=CONDUCTIVITY,
    shape=Range(0.5, 20.0),
    densest=Range(0.3, 1.0),
)
def lewis_nielsen(
    particle_fraction: Real,
    matrix: float,
    particle: float,
    *,
    shape: float = 1.5,
    densest: float = 0.637,
) -> Real:
    """Conductivity of a resin whose grains come near their densest packing.

    Parameters
    ----------
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1, float or array
    matrix : conductivity of the resin [W/(m K)]
    particle : conductivity of the grains [W/(m K)]
    shape : A, 1.5 for spheres [-]
    densest : phi_max, 0.637 for spheres packed at random [-]

    Returns
    -------
    conductivity [W/(m K)]

    Raises
    ------
    RangeError : a fraction, conductivity, shape or densest packing out of range

    Notes
    -----
    k = k_m (1 + A B phi)/(1 - B psi phi), B = (k_p/k_m - 1)/(k_p/k_m + A),
    psi = 1 + phi (1 - phi_max)/phi_max^2. Above some 0.5 it exceeds what is physically
    possible (the upper Hashin-Shtrikman bound): not in the registry, kept for comparison.

    References
    ----------
    Nielsen, Ind. Eng. Chem. Fundam. 13 (1974) 17 [nielsen-1974]; form from memory.

    Examples
    --------
    >>> print(f"{lewis_nielsen(0.55, 0.2, 1.0):.6f}")
    0.609162
    """
    contrast = (particle / matrix - 1) / (particle / matrix + shape)
    crowding = 1 + particle_fraction * (1 - densest) / densest**2
    above = 1 + shape * contrast * particle_fraction
    return matrix * above / (1 - contrast * crowding * particle_fraction)


CONDUCTIVITY_MODELS: Mapping[str, Callable[..., Any]] = MappingProxyType(
    {
        "bruggeman-hanai": bruggeman_hanai,
        "bruggeman-symmetric": bruggeman_symmetric,
        "geometric": geometric_mean,
        "hashin-shtrikman-lower": hashin_shtrikman_lower,
        "hashin-shtrikman-upper": hashin_shtrikman_upper,
        "maxwell-eucken": maxwell_eucken,
        "wiener-parallel": wiener_parallel,
        "wiener-series": wiener_series,
    }
)


@checked(particle_fraction=FRACTION, matrix=CONDUCTIVITY, particle=CONDUCTIVITY)
def effective_conductivity(
    particle_fraction: Real, matrix: float, particle: float, *, model: str = "bruggeman-hanai"
) -> Real:
    """Conductivity of a filled resin by a model chosen by name.

    Parameters
    ----------
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1, float or array
    matrix : conductivity of the resin [W/(m K)]
    particle : conductivity of the grains [W/(m K)]
    model : a key of `CONDUCTIVITY_MODELS`

    Returns
    -------
    conductivity [W/(m K)]

    Raises
    ------
    UserError : a model that is not known
    RangeError : a fraction outside 0 to 1, or a conductivity outside 0.001 to 500

    Notes
    -----
    See the function of each model for its equation and validity.

    References
    ----------
    Bruggeman, Ann. Phys. 416 (1935) 636 [bruggeman-1935], the model used by default.

    Examples
    --------
    >>> print(f"{effective_conductivity(0.55, 0.2, 1.0, model='maxwell-eucken'):.4f}")
    0.4750
    """
    if model not in CONDUCTIVITY_MODELS:
        raise UserError(f"no conductivity model '{model}'", allowed=", ".join(CONDUCTIVITY_MODELS))
    return CONDUCTIVITY_MODELS[model](particle_fraction, matrix, particle)  # type: ignore[no-any-return]
