"""Make stool.stl, the shape of the example: an invented hourglass stool, turned about its axis.

Run it beside this file: ``python make_shape.py``. Sizes in mm: 440 high, seat 320 across,
foot 290, waist 190; edges rounded by 8.
"""

from pathlib import Path

import numpy as np

from pourwright.geometry import measure, revolve
from pourwright.geometry.files.writers import stl_bytes

HEIGHT, SEAT, FOOT, WAIST, ROUNDING = 0.440, 0.160, 0.145, 0.095, 0.008
WAIST_AT = 0.52
SEGMENTS, STEPS = 144, 36


def side_radius(share: np.ndarray) -> np.ndarray:
    """Radius [m] at a share of the height, 0 at the foot: two parabolas that meet at the waist."""
    below = WAIST + (FOOT - WAIST) * (1 - share / WAIST_AT) ** 2
    above = WAIST + (SEAT - WAIST) * ((share - WAIST_AT) / (1 - WAIST_AT)) ** 2
    return np.where(share < WAIST_AT, below, above)


def profile() -> np.ndarray:
    """Radius and height of the side from foot to seat [m], with rounded edges, (n, 2)."""
    turn = np.linspace(0.0, np.pi / 2, 7)
    heights = np.linspace(ROUNDING, HEIGHT - ROUNDING, STEPS)
    side = np.column_stack([side_radius(heights / HEIGHT), heights])
    foot = side[0] + ROUNDING * np.column_stack([np.sin(turn) - 1, -np.cos(turn)])
    seat = side[-1] + ROUNDING * np.column_stack([np.cos(turn) - 1, np.sin(turn)])
    return np.vstack([foot, side[1:-1], seat])


def main() -> None:
    """Write the mesh in mm."""
    body = revolve(profile(), segments=SEGMENTS)
    Path(__file__).with_name("stool.stl").write_bytes(stl_bytes(body))
    print(f"stool.stl: {len(body.faces)} triangles, {1000 * measure(body).volume:.2f} l")


if __name__ == "__main__":
    main()
