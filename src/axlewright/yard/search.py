"""Finding a thing of the yard by anything that is written on it: a part will do, spaces and dashes do not matter."""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from axlewright.yard.picture import Yard
from axlewright.yard.records import Corner

Sort = Literal["drive", "machine", "trouble", "kind of drive", "pack"]
MOST = 30
MIXED_UP = str.maketrans({"o": "0", "i": "1", "l": "1"})
"""Letters that a stamp, a torch and a greasy thumb make into digits."""
NEAR = 0.72  # likeness from which another spelling is offered
LEAST = 3  # letters under which a part is looked for at the start of words only


@dataclass(frozen=True, slots=True)
class Hit:
    """Something that was found: which field it was found by, and what that says. `guess`: read in another way than typed."""

    sort: Sort
    id: str
    name: str
    where: str
    by: str
    says: str
    guess: bool = False


@dataclass(frozen=True, slots=True)
class _Thing:
    sort: Sort
    id: str
    name: str
    where: str
    fields: tuple[tuple[str, str], ...]  # what a field is, and what stands in it


def plain(text: str) -> str:
    """Letters and digits alone, small and without accents."""
    flat = unicodedata.normalize("NFKD", text.casefold())
    return "".join(sign for sign in flat if sign.isalnum())


def search(yard: Yard, said: str, packs: Iterable[str] = ()) -> tuple[Hit, ...]:
    """All that may be meant, the best first: whole numbers, then how they begin, then parts; then guesses.

    Args:
        yard: as it stands
        said: what somebody read off a casting or remembers
        packs: keys of the packs that are frozen
    """
    wanted = plain(said)
    if not wanted:
        return ()
    words = tuple(filter(None, map(plain, said.split())))
    found: list[tuple[int, Hit]] = []
    near: dict[str, _Thing] = {}
    for thing in things(yard, packs):
        best = min((hit for key, text in thing.fields if (hit := _rank(wanted, plain(text), key))), default=None)
        if best is None and len(words) > 1 and _all_of(words, thing):
            best = (3, "name")
        if best:
            found.append((best[0], _hit(thing, best[1], wanted, guess=best[0] == 4)))
        near[plain(thing.name)] = thing
    if not found:
        close = difflib.get_close_matches(wanted, near, 5, NEAR)
        found = [(5, _hit(near[one], "name", wanted, guess=True)) for one in close]
    ordered = sorted(found, key=lambda one: (one[0], one[1].sort != "drive"))
    return tuple(hit for _, hit in ordered[:MOST])


def _rank(wanted: str, there: str, key: str) -> tuple[int, str] | None:
    if wanted == there:
        return 0, key
    if there.startswith(wanted):
        return 1, key
    if len(wanted) >= LEAST and wanted in there:
        return 2, key
    mixed, read = wanted.translate(MIXED_UP), there.translate(MIXED_UP)
    if mixed == read or (len(wanted) >= LEAST and any(sign.isdigit() for sign in mixed) and mixed in read):
        return 4, key
    return None


def _all_of(words: tuple[str, ...], thing: _Thing) -> bool:
    """Whether each word stands somewhere on it."""
    there = [plain(text) for _, text in thing.fields] + [plain(thing.where)]
    return all(any(word in text for text in there) for word in words)


def _hit(thing: _Thing, by: str, wanted: str, *, guess: bool) -> Hit:
    def fits(text: str) -> bool:
        return wanted in plain(text) or wanted.translate(MIXED_UP) in plain(text).translate(MIXED_UP)

    says = next((text for key, text in thing.fields if key == by and fits(text)), thing.name)
    return Hit(thing.sort, thing.id, thing.name, thing.where, by, says, guess)


def things(yard: Yard, packs: Iterable[str] = ()) -> Iterator[_Thing]:
    """All that can be found, each with what is written on it."""
    kinds = {one.id: one.name for one in yard.designs}
    for drive in yard.drives:
        numbers = [part for number in drive.numbers for part in (number, *_parts(number))]
        fields = [("written on it", number) for number in numbers]
        fields += [("name", drive.name), ("id", drive.id), ("note", drive.note)]
        fields += [("kind", kinds[drive.design])] if drive.design in kinds else []
        yield _Thing("drive", drive.id, drive.name, _place(yard, drive.sits), tuple(fields))
    for one in yard.machines:
        fields = [("written on it", part) for number in one.numbers for part in (number, *_parts(number))]
        fields += [("name", one.name), ("id", one.id), ("note", one.note)]
        yield _Thing("machine", one.id, one.name, (one.kind or "").replace("-", " "), tuple(fields))
    for trouble in yard.troubles:
        name = f"trouble {trouble.number}"
        fields = [("number", str(trouble.number)), ("number", name), ("note", trouble.note)]
        yield _Thing("trouble", str(trouble.number), name, _place(yard, trouble.corner), tuple(fields))
    for kind in yard.designs:
        fields = [("name", kind.name), ("id", kind.id), ("note", kind.note)]
        yield _Thing("kind of drive", kind.id, kind.name, "", tuple(fields))
    for key in packs:
        yield _Thing("pack", key, f"pack {key}", "", (("key", key), ("key", f"pack {key}")))


def _parts(number: str) -> list[str]:
    """The number without the word before it: of *cast 40-7* also 40-7."""
    bare = re.sub(r"^[^\d]*\s", "", number)
    return [bare] if bare != number else []


def _place(yard: Yard, sits: object) -> str:
    if not isinstance(sits, Corner):
        return str(sits)
    name = next((one.name for one in yard.machines if one.id == sits.machine), sits.machine)
    return f"{name}, {sits.place.replace('-', ' ')}"
