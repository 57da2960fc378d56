"""Compiled loops that read numbers out of text, for the formats that are written in it."""

import numpy as np
from numba import njit

from pourwright.geometry.files.text import Bytes
from pourwright.geometry.mesh import Floats

SPACE, NEWLINE, MINUS, PLUS, POINT, HASH = 32, 10, 45, 43, 46, 35
_MOST_DIGITS = 18


@njit(cache=True)
def is_space(letter: int) -> bool:
    """Tell whether a letter parts words: blanks, tabs and both kinds of line end."""
    return letter == SPACE or 9 <= letter <= 13


@njit(cache=True)
def next_word(text: Bytes, at: int) -> int:
    """Give where the next word begins, or the end of the text."""
    while at < text.size and is_space(text[at]):
        at += 1
    return at


@njit(cache=True)
def word_end(text: Bytes, at: int) -> int:
    """Give where the word that begins here ends."""
    while at < text.size and not is_space(text[at]):
        at += 1
    return at


@njit(cache=True)
def line_end(text: Bytes, at: int) -> int:
    """Give where the line ends: at its line feed, its carriage return, or the end of the text."""
    while at < text.size and text[at] != NEWLINE and text[at] != 13:
        at += 1
    return at


@njit(cache=True)
def _is_word(text: Bytes, at: int, a: int, b: int, c: int) -> bool:
    """Tell whether three letters stand here, large or small."""
    return at + 2 < text.size and text[at] | 32 == a and text[at + 1] | 32 == b and text[at + 2] | 32 == c


@njit(cache=True)
def _no_number(text: Bytes, at: int, sign: float) -> tuple[float, int]:
    """Read nan, inf and what is written in their place; -1 for anything else."""
    if _is_word(text, at, 110, 97, 110):
        return np.nan, word_end(text, at)
    if _is_word(text, at, 105, 110, 102):
        return sign * np.inf, word_end(text, at)
    return 0.0, -1


@njit(cache=True)
def _exponent(text: Bytes, at: int) -> tuple[int, int]:
    """Read what follows the letter e; -1 where there is no digit."""
    sign = 1
    if at < text.size and (text[at] == MINUS or text[at] == PLUS):
        sign = -1 if text[at] == MINUS else 1
        at += 1
    value, begin = 0, at
    while at < text.size and 48 <= text[at] <= 57:
        value = min(10 * value + text[at] - 48, 9999)
        at += 1
    return sign * value, at if at > begin else -1


@njit(cache=True)
def _scaled(digits: int, power: int) -> float:
    """Give digits times a power of ten; exact where both fit into a float."""
    value = float(digits)
    if power >= 0:
        return value * 10.0 ** min(power, 400)
    if power < -300:
        return value * 10.0**-300 * 10.0 ** max(power + 300, -400)
    return value / 10.0**-power


@njit(cache=True)
def read_number(text: Bytes, at: int, stop: int = SPACE) -> tuple[float, int]:
    """Read the number that begins here and goes to a blank, a line end or the letter given.

    Returns its value and where it ends; -1 where the word is no number.
    """
    sign = 1.0
    if at < text.size and (text[at] == MINUS or text[at] == PLUS):
        sign = -1.0 if text[at] == MINUS else 1.0
        at += 1
    digits, kept, seen, power, behind = 0, 0, 0, 0, False
    while at < text.size:
        letter = text[at]
        if letter == POINT and not behind:
            behind = True
        elif 48 <= letter <= 57:
            seen += 1
            if kept < _MOST_DIGITS:
                digits = 10 * digits + letter - 48
                kept += digits > 0
                power -= behind
            else:
                power += not behind
        else:
            break
        at += 1
    if not seen:
        return _no_number(text, at, sign)
    if at < text.size and text[at] == HASH:
        return np.nan, word_end(text, at)
    if at < text.size and text[at] | 32 == 101:
        tens, at = _exponent(text, at + 1)
        power += tens
    if at < 0 or (at < text.size and not is_space(text[at]) and text[at] != stop):
        return 0.0, -1
    return sign * _scaled(digits, power), at


@njit(cache=True)
def read_three(text: Bytes, at: int, point: Floats) -> tuple[int, int]:
    """Read three numbers of one line into a point.

    Returns where they end and -1; or -1 and the place of the word that is no number.
    """
    for axis in range(3):
        while at < text.size and is_space(text[at]) and text[at] != NEWLINE:
            at += 1
        begin = at
        point[axis], at = read_number(text, at)
        if at < 0:
            return -1, begin
    return at, -1


@njit(cache=True)
def count_words(text: Bytes) -> int:
    """Count the words of a text."""
    count, at = 0, next_word(text, 0)
    while at < text.size:
        count += 1
        at = next_word(text, word_end(text, at))
    return count


@njit(cache=True)
def read_numbers(text: Bytes, out: Floats) -> int:
    """Read a text of nothing but numbers; returns the place of a word that is none, or -1."""
    at = next_word(text, 0)
    for n in range(out.size):
        begin = at
        out[n], at = read_number(text, at)
        if at < 0:
            return begin
        at = next_word(text, at)
    return -1


@njit(cache=True)
def read_whole(text: Bytes, at: int) -> tuple[int, int]:
    """Read the whole number that begins here; its end is -1 where there is none."""
    sign = 1
    if at < text.size and (text[at] == MINUS or text[at] == PLUS):
        sign = -1 if text[at] == MINUS else 1
        at += 1
    value, begin = 0, at
    while at < text.size and 48 <= text[at] <= 57:
        value = min(10 * value + text[at] - 48, 1 << 40)
        at += 1
    return sign * value, at if at > begin else -1
