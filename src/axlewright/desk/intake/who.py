"""Which machine or drive a cell means: by its id, its name, or a number written on it. Never one of two."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from axlewright.desk.intake.cells import NotRead, short
from axlewright.yard import Drive, Machine, Yard, closest

T = TypeVar("T", Machine, Drive)


def bare(text: str) -> str:
    """A number as it is compared: without capitals, spaces, hyphens."""
    return "".join(sign for sign in text.casefold() if sign.isalnum())


class Names:
    """The machines and drives of a yard by all that they are called; asked once for each spelling."""

    def __init__(self, yard: Yard) -> None:
        self.yard = yard
        self._asked: dict[tuple[str, str], Machine | Drive | NotRead] = {}

    def machine(self, said: str) -> Machine:
        """Raises:
        NotRead: none is called so, or two are
        """
        found = self._find("machine", said, self.yard.machines)
        assert isinstance(found, Machine)
        return found

    def drive(self, said: str) -> Drive:
        """Raises:
        NotRead: none is called so, or two are
        """
        found = self._find("drive", said, self.yard.drives)
        assert isinstance(found, Drive)
        return found

    def _find(self, what: str, said: str, among: Iterable[T]) -> Machine | Drive:
        key = (what, said.strip().casefold())
        if key not in self._asked:
            self._asked[key] = _one(what, said.strip(), tuple(among))
        found = self._asked[key]
        if isinstance(found, NotRead):
            raise found
        return found


def _one(what: str, said: str, among: tuple[T, ...]) -> T | NotRead:
    wanted = said.casefold()
    for one in among:
        if one.id == wanted:
            return one
    named = [one for one in among if one.name.casefold() == wanted]
    numbered = [one for one in among if bare(said) and bare(said) in map(bare, one.numbers)]
    found = named or numbered
    if len(found) == 1:
        return found[0]
    if found:
        ids = " or ".join(one.id for one in found)
        why = "are named so" if named else "have this number"
        return NotRead(f"{len(found)} {what}s {why}: {short(said)}.", f"Write {ids}.")
    known = [*(one.id for one in among), *(one.name for one in among), *(n for one in among for n in one.numbers)]
    near = closest(said, known)
    right = (
        near
        if near.startswith("Did")
        else f"{closest(said, [one.id for one in among])} Or write its number into its file."
    )
    return NotRead(f"No {what} {short(said)} in this yard.", right.strip())
