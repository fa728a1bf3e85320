"""How every table of the trade is read: a TOML file beside this one, into frozen rows that carry their source."""

from __future__ import annotations

import hashlib
import tomllib
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError

HERE = Path(__file__).parent


class Row(BaseModel):
    """One row of the trade. Extra keys are refused, so that a misspelt one is found."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    source: str


R = TypeVar("R", bound=Row)


@cache
def table(file: str) -> dict[str, Any]:
    """The tables of one file, as read."""
    return tomllib.loads((HERE / file).read_text(encoding="utf-8"))


def rows(file: str, name: str, model: type[R]) -> tuple[R, ...]:
    """The rows `[[name]]` of a file.

    Raises:
        ValueError: a row is not as it must be; says file, table, which row and what is wrong
    """
    found: Sequence[dict[str, Any]] = table(file).get(name, [])
    read = []
    for number, row in enumerate(found, 1):
        try:
            read.append(model.model_validate(row))
        except ValidationError as bad:
            what = "; ".join(f"{'.'.join(map(str, e['loc']))}: {e['msg']}" for e in bad.errors())
            message = f"trade/{file}, [[{name}]] number {number} ({row.get('id', 'no id')}): {what}"
            raise ValueError(message) from None
    return tuple(read)


@cache
def digest() -> str:
    """The digest of all tables: a pack keeps it, so that a sheet of last year can be explained."""
    made_of = hashlib.sha256()
    for file in sorted(HERE.rglob("*.toml")):
        made_of.update(file.relative_to(HERE).as_posix().encode() + b"\0" + file.read_bytes())
    return made_of.hexdigest()[:16]
