"""Letters of space blocks, the same in plan, pictures, tables and files."""


def letter(number: int) -> str:
    """Letter of a space block: A to Z, then AA, AB and so on.

    Parameters
    ----------
    number : int
        From 0.

    Returns
    -------
    str

    Examples
    --------
    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    before, last = divmod(number, 26)
    return (letter(before - 1) if before else "") + chr(ord("A") + last)
