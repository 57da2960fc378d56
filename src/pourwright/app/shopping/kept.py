"""What is ticked as bought and here, kept in one small file beside the order list."""

from __future__ import annotations

import uuid
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, Field, ValidationError

from pourwright.foundation.errors import UserError
from pourwright.foundation.files import write_atomically

BOUGHT = "bought.json"
Id = Annotated[str, AfterValidator(lambda text: str(uuid.UUID(text)))]
Share = Annotated[float, Field(ge=0.0, le=1.0, allow_inf_nan=False)]


class Got(BaseModel):
    """A purchase that is here, as it was listed when it was ticked."""

    tick: Id = Field(default_factory=lambda: str(uuid.uuid4()), description="of this tick")
    words: str
    of: str
    id: str
    grade: str
    colour: str
    supplier: str
    kits: Annotated[int, Field(ge=1)]
    kit: Annotated[float, Field(gt=0.0, allow_inf_nan=False)]
    unit: Literal["kg", "pieces"]
    money: Decimal
    currency: str
    keeps_d: int | None = Field(description="days that it keeps; null: for ever")
    shares: tuple[Share, Share] = Field(description="parts A and B by weight; 1 and 0: one part")
    came: str = Field(description="ISO 8601, when it was ticked")


class BoughtFile(BaseModel):
    """The whole file."""

    schema_: Literal["pourwright-bought/1.0"] = Field(default="pourwright-bought/1.0", alias="schema")
    lines: dict[str, Got] = Field(default_factory=dict)


def bought_of(folder: Path) -> dict[str, Got]:
    """Read what is ticked, by line.

    Parameters
    ----------
    folder : Path
        Of the order list.

    Returns
    -------
    dict
        Empty where nothing is.

    Raises
    ------
    UserError
        For a file that cannot be read.
    """
    try:
        return BoughtFile.model_validate_json((folder / BOUGHT).read_bytes()).lines
    except FileNotFoundError:
        return {}
    except (OSError, ValidationError) as error:
        why = error.strerror if isinstance(error, OSError) else "it is torn, or was written by something else"
        what = f"what is ticked as bought cannot be read: {why}"
        todo = "put the file right, or take it away: then nothing is ticked"
        raise UserError(what, where=BOUGHT, todo=todo) from None


def change_bought(folder: Path, change: Callable[[dict[str, Got]], dict[str, Got]]) -> None:
    """Change what is ticked; on the disk, whole, when this returns.

    Parameters
    ----------
    folder : Path
        Of the order list.
    change : callable
        Given what is ticked, gives what is ticked then.

    Raises
    ------
    UserError
        For a file that cannot be read, or a disk that does not take it.
    """
    file = BoughtFile(lines=change(bought_of(folder)))
    try:
        write_atomically(folder / BOUGHT, file.model_dump_json(by_alias=True, indent=1) + "\n")
    except OSError as error:
        what = f"the tick cannot be kept: {error.strerror or error}"
        raise UserError(what, where=BOUGHT, todo="make room or allow writing, then tick it again") from error
