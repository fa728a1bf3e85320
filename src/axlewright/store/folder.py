"""A yard as a folder of text files, one per thing, that a person can read and edit."""

from __future__ import annotations

import os
from collections.abc import Callable, Generator, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path

from axlewright.store import _log, _safe
from axlewright.store._beside import kept_already, must_be_beside
from axlewright.store._hand import Files, Hand, as_text
from axlewright.store._read import mark, picture, read_all
from axlewright.store._text import FOLDERS, MOST_BYTES
from axlewright.store.whole import Whole, is_blank, not_blank
from axlewright.yard import (
    Beside,
    Change,
    Fault,
    Faults,
    Made,
    Moved,
    Yard,
    mistakes,
)

BLANK = Path(__file__).parent / "blank"
DEMO = Path(__file__).parent / "demo"
Day = date | Callable[[], date] | None
"""The day after which nothing can have happened, or how to learn it; without it no day is refused."""


@dataclass(frozen=True, slots=True)
class Folder:
    """A yard kept as text."""

    path: Path
    today: Day = None

    @property
    def name(self) -> str:
        """Where it is kept, for a person."""
        return str(self.path)

    def read(self) -> Yard:
        """The yard as it stands.

        Raises:
            Faults: every mistake of every file
        """
        try:
            return picture(self._files(), day(self.today), str(self.path))
        except OSError as bad:
            raise _safe.in_words(bad, self.path) from bad

    def write(self, change: Change, seen: int) -> int:
        """Add a change to the yard, whole or not at all; it lasts when this returns.

        Args:
            change: the records to add; what is kept already is left as it is
            seen: the mark of the picture that the change was made against

        Returns:
            the mark of the yard as it stands now

        Raises:
            Moved: the folder was changed since; nothing was written
            Faults: the change does not fit the yard, or cannot be written; nothing was written
        """
        try:
            with _safe.locked(self.path):
                _safe.finish(self.path)
                files = _load(self.path)
                now = mark(files)
                if now != seen:
                    raise Moved(seen, now)
                new = edited(files, change, day(self.today), str(self.path))
                beside = self._beside(change.beside)
                then = mark({**files, **new})
                if new or beside:
                    _safe.commit(self.path, {**new, **beside, **self._logged(files, change, then, beside)})
                return then
        except OSError as bad:
            raise _safe.in_words(bad, self.path) from bad

    def file(self, name: str) -> bytes | None:
        """A file kept beside the records, `packs/3f9a.json`; None where there is none."""
        must_be_beside(name)
        try:
            place = self.path / name
            return place.read_bytes() if place.is_file() else None
        except OSError as bad:
            raise _safe.in_words(bad, self.path) from bad

    def beside(self) -> tuple[str, ...]:
        """The names of all files kept beside the records."""
        names = (f"{place}/{one.name}" for place in ("packs", "photos") for one in _in_folder(self.path / place))
        return tuple(sorted(name for name in names if must_be_beside(name, refuse=False)))

    def last(self) -> Made | None:
        """The last change that was written here; None where none was, or its log was taken away.

        Raises:
            Faults: the log cannot be read
        """
        try:
            with self._held():
                log, files = self._log(), _load(self.path)
            found = _log.blocks(*_log.last_text(log))
            return found[-1].made(mark(files)) if found else None
        except OSError as bad:
            raise _safe.in_words(bad, self.path) from bad

    @contextmanager
    def whole(self) -> Generator[Whole]:
        """All of the yard at one moment, to be carried to another store."""
        try:
            with self._held():
                logs = {name: (self.path / name).read_bytes() for name in self._logs()}
                yield Whole({**_load(self.path), **logs}, self.beside(), lambda name: (self.path / name).read_bytes())
        except OSError as bad:
            raise _safe.in_words(bad, self.path) from bad

    def fill(self, whole: Whole, over: bool = False, who: str = "", at: datetime | None = None) -> None:
        """Take a whole yard in, all of it or nothing. `over`: in place of all that stands here.

        Raises:
            Faults: it has mistakes, or something is kept here already; nothing was changed
        """
        whole.yard(day(self.today))
        try:
            self.path.mkdir(parents=True, exist_ok=True)
            with _safe.locked(self.path):
                _safe.finish(self.path)
                there = [*self._logs(), *self.beside(), *(name for name, _ in _texts(self.path))]
                if there and not over and not (is_blank(picture(_load(self.path), None)) and not self.beside()):
                    raise not_blank(self.name)
                _safe.commit(self.path, whole.files(), gone=sorted({*there} - {*whole.texts, *whole.names}))
        except OSError as bad:
            raise _safe.in_words(bad, self.path) from bad

    def close(self) -> None:
        """Nothing is held open between two calls."""

    def _logged(self, files: Files, change: Change, then: int, beside: Files) -> Files:
        """The log with a change at its end."""
        yard = picture(files, day(self.today), str(self.path))
        new = Change(yard.fresh(change).records, tuple(one for one in change.beside if one.name in beside))
        name, text = _log.last_text(self._log())
        block = _log.of(yard, new, _log.last_number(text) + 1, then)
        to = _log.file_for(block, name)
        before = f"{text.rstrip()}\n\n" if to == name and text.strip() else ""
        return {to: (before + block.text()).encode()}

    def _log(self) -> Files:
        """The newest file of the log, all that a change needs of it."""
        return {name: (self.path / name).read_bytes() for name in self._logs()[-1:]}

    def _logs(self) -> list[str]:
        names = sorted(f"{_log.PLACE}/{one.name}" for one in _in_folder(self.path / _log.PLACE))
        return [name for name in names if _log.FILE.fullmatch(name)]

    def _beside(self, files: tuple[Beside, ...]) -> Files:
        """The files to keep beside the records that are not there yet.

        Raises:
            Faults: one of that name is there and says something else: what is kept so is never written over
        """
        new: dict[str, bytes] = {}
        for one in files:
            before = self.file(one.name)
            if before is None:
                new[one.name] = one.data
            elif before != one.data:
                raise kept_already(one.name)
        return new

    def _files(self) -> Files:
        with self._held():
            return _load(self.path)

    @contextmanager
    def _held(self) -> Generator[None]:
        """The folder at one moment. One that nobody ever wrote to from here, or may not, is read as it lies."""
        if not self.path.is_dir() or not (self.path / _safe.OWN).is_dir() or not os.access(self.path, os.W_OK):
            yield
            return
        with _safe.locked(self.path):
            _safe.finish(self.path)
            yield


def day(today: Day) -> date | None:
    """The day that it is, where somebody may say."""
    return today() if callable(today) else today


def _in_folder(folder: Path) -> list[Path]:
    return [one for one in folder.iterdir() if one.is_file()] if folder.is_dir() else []


def _texts(folder: Path) -> Iterator[tuple[str, Path]]:
    """The files that may hold records, by name."""
    above = len(os.fspath(folder)) + 1
    found = []
    for at, inside, names in os.walk(folder):  # in plain strings: a thousand paths take longer than what they hold
        inside[:] = [one for one in inside if not one.startswith(".")]
        found += [os.path.join(at, one) for one in names if one.endswith(".toml") and not one.startswith(".")]
    for path in sorted(found, key=lambda one: one.split(os.sep)):
        if os.path.isfile(path):
            yield path[above:].replace(os.sep, "/"), Path(path)


def _load(folder: Path) -> Files:
    if not folder.is_dir():
        what = "This is a file, not a folder." if folder.exists() else "There is no such folder."
        raise Faults(Fault(str(folder), what, "A yard is a folder with a yard.toml in it; lay-out makes a new one."))
    files: dict[str, bytes] = {}
    faults: list[Fault] = []
    for name, path in _texts(folder):
        above = name.rpartition("/")[0]
        if name != "yard.toml" and above not in FOLDERS:
            places = ", ".join(FOLDERS[:-1])
            right = f"A yard has yard.toml and files in {places} and {FOLDERS[-1]}."
            faults.append(Fault(name, "This file has no place here.", right))
        elif path.stat().st_size > MOST_BYTES:
            size = path.stat().st_size / 1e6
            right = f"A file here holds one thing and is shorter than {MOST_BYTES / 1e6:g} MB."
            faults.append(Fault(name, f"It is {size:.1f} MB long.", right))
        else:
            files[name] = path.read_bytes()
    if "yard.toml" not in files and not any(f.where == "yard.toml" for f in faults):
        if not files and not faults:
            faults.append(Fault(str(folder), "There is no yard here.", "lay-out makes a new one."))
        else:
            faults.append(Fault("yard.toml", "This file is missing.", 'Write one with name = "Long Acre" in it.'))
    if faults:
        raise Faults(*faults, *read_all(files)[1])
    return files


def edited(files: Files, change: Change, today: date | None, folder: str = "") -> Files:
    """The files that a change makes new or different.

    Raises:
        Faults: the yard has mistakes already, or the change would bring one in
    """
    yard = picture(files, today, folder)
    new = yard.fresh(change)
    wanted = yard.with_(change)
    faults = mistakes(wanted, today, only=new.records)
    if faults:
        raise Faults(*faults)
    texts: dict[str, str] = {}
    Hand(files, yard, wanted, texts).put(new)
    made = {name: _as_it_was(text, files.get(name)) for name, text in texts.items()}
    made = {name: data for name, data in made.items() if data != files.get(name)}
    if picture({**files, **made}, today, folder) != wanted:
        raise RuntimeError(f"what would be written to {', '.join(made)} does not read as what was meant")
    return made


def _as_it_was(text: str, before: bytes | None) -> bytes:
    """Text with the line ends that the file had."""
    return (text.replace("\n", "\r\n") if before and b"\r\n" in before else text).encode()


def lay_out(folder: Path, like: Path | Yard = BLANK) -> None:
    """Make a new yard with examples to copy, or a copy of another such as `DEMO`. Never writes over anything.

    Raises:
        Faults: something stands there already, or it cannot be written
    """
    try:
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            raise Faults(Fault(str(folder), "Something stands here already. Nothing was changed.", "Give a new name."))
        files = as_text(like) if isinstance(like, Yard) else _copied(like)
        for name, data in sorted(files.items(), key=lambda one: one[0] == "yard.toml"):  # which makes it a yard: last
            target = folder / name
            target.parent.mkdir(parents=True, exist_ok=True)
            with target.open("xb") as out:
                out.write(data)
    except OSError as bad:
        raise _safe.in_words(bad, folder) from bad


def _copied(like: Path) -> Files:
    sources = [one for one in sorted(like.rglob("*.toml")) if _safe.OWN not in one.parts]
    return {one.relative_to(like).as_posix(): one.read_bytes() for one in sources}
