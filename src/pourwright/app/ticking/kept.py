"""What is ticked as sawn, kept in one small file beside the job: it needs no plan and no book."""

from __future__ import annotations

import threading
import uuid
from collections.abc import Callable
from pathlib import Path
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, Field, ValidationError

from pourwright.foundation.errors import UserError
from pourwright.foundation.files import write_atomically

TICKS = "sawn.json"
_ONE_AT_A_TIME = threading.Lock()
"""One server has a shop to itself; two devices may tick at once."""


Size = Annotated[float, Field(gt=0.0, lt=1000.0, allow_inf_nan=False)]
Id = Annotated[str, AfterValidator(lambda text: str(uuid.UUID(text)))]


class Tick(BaseModel):
    """A part that was sawn, as it was then."""

    length_m: Size
    width_m: Size
    thickness_m: Size
    board: str
    shape: str = Field(default="", description="fingerprint of its outline; empty: a rectangle")
    wood: str = Field(description="fingerprint of the sheet or bar it came from")


class Ticked(BaseModel):
    """What is sawn of one variant."""

    id: Id = Field(default_factory=lambda: str(uuid.uuid4()), description="of this sawing")
    ticks: dict[str, Tick] = Field(default_factory=dict, description="by the part's mark")


class TicksFile(BaseModel):
    """The whole file."""

    schema_: Literal["pourwright-sawn/1.0"] = Field(default="pourwright-sawn/1.0", alias="schema")
    variants: dict[str, Ticked] = Field(default_factory=dict)


def ticked_of(folder: Path, variant: str) -> Ticked:
    """Read what is ticked.

    Parameters
    ----------
    folder : Path
        Of the job.
    variant : str
        Whose.

    Returns
    -------
    Ticked
        Empty where nothing is.

    Raises
    ------
    UserError
        For a file that cannot be read.
    """
    return _read(folder).variants.get(variant, Ticked())


def change_ticks(folder: Path, variant: str, change: Callable[[Ticked], Ticked]) -> None:
    """Change what is ticked; on the disk, whole, when this returns.

    Parameters
    ----------
    folder : Path
        Of the job.
    variant : str
        Whose.
    change : callable
        Given what is ticked, gives what is ticked then.

    Raises
    ------
    UserError
        For a file that cannot be read, or a disk that does not take it.
    """
    with _ONE_AT_A_TIME:
        file = _read(folder)
        file.variants[variant] = change(file.variants.get(variant, Ticked()))
        try:
            write_atomically(folder / TICKS, file.model_dump_json(by_alias=True, indent=1) + "\n")
        except OSError as error:
            what = f"the tick cannot be kept: {error.strerror or error}"
            raise UserError(
                what, where=TICKS, todo="make room or allow writing, then tick it again"
            ) from error


def _read(folder: Path) -> TicksFile:
    try:
        return TicksFile.model_validate_json((folder / TICKS).read_bytes())
    except FileNotFoundError:
        return TicksFile()
    except (OSError, ValidationError) as error:
        why = error.strerror if isinstance(error, OSError) else "it is torn, or was written by something else"
        what = f"what is ticked as sawn cannot be read: {why}"
        todo = "put the file right, or take it away: then nothing is ticked"
        raise UserError(what, where=TICKS, todo=todo) from None
