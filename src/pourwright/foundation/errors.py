"""Errors that are meant for the maker."""


class UserError(Exception):
    """Something the maker wrote cannot be used; its text is one line that says how to go on.

    Parameters
    ----------
    what : str
        What is wrong, with the value that came.
    where : str
        Where it stands: file and line, form field or file name.
    allowed : str
        What would be accepted.
    todo : str
        What to do next.

    Examples
    --------
    >>> print(UserError("no unit 'inchs'", where="job.toml:4", allowed="mm, cm, m, in", todo="write 3/4 in"))
    job.toml:4: no unit 'inchs'; allowed: mm, cm, m, in; do: write 3/4 in
    """

    exit_status = 2

    def __init__(self, what: str, *, where: str = "", allowed: str = "", todo: str = "") -> None:
        super().__init__(what, where, allowed, todo)
        self.what = what
        self.where = where
        self.allowed = allowed
        self.todo = todo

    def __str__(self) -> str:
        line = f"{self.where}: {self.what}" if self.where else self.what
        line += f"; allowed: {self.allowed}" if self.allowed else ""
        line += f"; do: {self.todo}" if self.todo else ""
        return " ".join(line.split())

    def __reduce__(self) -> tuple[object, ...]:
        return (_rebuild, (type(self), self.args))


def _rebuild(kind: type[UserError], parts: tuple[str, str, str, str]) -> UserError:
    what, where, allowed, todo = parts
    return kind(what, where=where, allowed=allowed, todo=todo)


class NotThereError(UserError):
    """Something is asked for by a name that nothing has."""


class ConflictError(UserError):
    """What is there is not what the maker believed, or somebody else is at it."""


class TooMuchError(UserError):
    """More bytes, triangles or time than is allowed."""


class Cancelled(Exception):  # noqa: N818 - being asked to stop is not an error
    """The maker asked for the work to stop."""
