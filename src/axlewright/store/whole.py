"""A whole yard on its way from one store to another: the files of a folder, whatever it was kept in."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date

from axlewright.store import _log
from axlewright.store._hand import Files, Hand, as_text
from axlewright.store._read import mark, picture
from axlewright.yard import Change, Fault, Faults, Yard


@dataclass(frozen=True)
class Whole:
    """What a yard is made of.

    Attributes:
        texts: the TOML files and the log, by their path in a folder
        names: the files kept beside the records: packs and photos
        get: gives one of those, one at a time, since all of them may be more than a memory holds
    """

    texts: Files
    names: tuple[str, ...]
    get: Callable[[str], bytes]

    @property
    def records(self) -> Files:
        """The files that hold records."""
        return {name: data for name, data in self.texts.items() if name.endswith(".toml")}

    @property
    def log(self) -> Files:
        """The files of the log."""
        return {name: data for name, data in self.texts.items() if _log.FILE.fullmatch(name)}

    def yard(self, today: date | None = None) -> Yard:
        """The picture of it.

        Raises:
            Faults: every mistake of every file
        """
        return picture(self.records, today)

    def files(self) -> Iterator[tuple[str, bytes]]:
        """All files, one at a time, in the order of their names."""
        for name in sorted((*self.texts, *self.names)):
            yield name, self.texts[name] if name in self.texts else self.get(name)


def is_blank(yard: Yard) -> bool:
    """Whether nothing is kept in a yard but its name."""
    return yard.records == (yard.title,)


def not_blank(name: str) -> Faults:
    """What is said to a whole yard that comes to one that holds something."""
    right = "Lay out a new one for it, or put-back FILE to have it in place of what is there."
    return Faults(Fault(name, "This yard holds records already. Nothing was changed.", right))


def texts_of(yard: Yard, came: Files) -> Files:
    """A yard as text: over the files that it came from, if it did, so that what people wrote in them stays."""
    if not came:
        return as_text(yard)
    before = picture(came, None)
    if before == yard:
        return came
    new = before.fresh(Change(yard.records))
    texts: dict[str, str] = {}
    Hand(came, before, yard, texts).put(new)
    files = {**came, **{name: text.encode() for name, text in texts.items()}}
    return files if picture(files, None) == yard else as_text(yard)


def log_of(blocks: list[_log.Block], came: Files, records: Files) -> Files:
    """A log with these changes after those that it came with; the mark of the last is that of the records as they stand."""
    files = dict(came)
    for number, block in enumerate(blocks, 1):
        name, text = _log.last_text(files)
        last = number == len(blocks)
        stamped = _log.Block(block.number, mark(records) if last else block.number, block.at, block.who, block.lines)
        to = _log.file_for(stamped, name)
        before = f"{text.rstrip()}\n\n" if to == name and text.strip() else ""
        files[to] = (before + stamped.text()).encode()
    return files
