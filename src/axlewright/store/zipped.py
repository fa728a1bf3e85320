"""A whole yard as one zip: the files of a folder, the same bytes for the same yard, and nothing else taken in."""

from __future__ import annotations

import stat
import zipfile
import zlib
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from axlewright.store import _log
from axlewright.store._beside import must_be_beside
from axlewright.store._text import FOLDERS, MOST_BYTES
from axlewright.store.whole import Whole
from axlewright.yard import Fault, Faults

LONG_AGO = (1980, 1, 1, 0, 0, 0)  # the first day that a zip knows: when it was made is no part of a yard
MOST_FILES = 500_000
MOST_BESIDE = 64_000_000  # bytes of a pack or a photo
MOST_LOG = 256_000_000  # bytes of a month's log
MOST_SQUEEZED = 400  # times smaller than it is: text gets to 50
SMALL = 1_000_000  # bytes under which nobody minds how much it was squeezed


def pack(whole: Whole, to: BinaryIO) -> None:
    """Write a yard as a zip: by name, without times, photos as they are."""
    with zipfile.ZipFile(to, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as out:
        for name, data in whole.files():
            entry = zipfile.ZipInfo(name, LONG_AGO)
            entry.create_system = 3  # so that Windows writes the same bytes
            entry.external_attr = (stat.S_IFREG | 0o644) << 16
            entry.compress_type = zipfile.ZIP_STORED if name.startswith("photos/") else zipfile.ZIP_DEFLATED
            out.writestr(entry, data)


@contextmanager
def unpacked(file: Path) -> Generator[Whole]:
    """The yard in a zip. Nothing is written anywhere; every file in it is one that a yard has.

    Raises:
        Faults: it is no zip, is damaged, or holds what no yard has: all of that at once
    """
    try:
        with zipfile.ZipFile(file) as opened:
            entries = [one for one in opened.infolist() if not one.is_dir()]
            _look_over(file, entries)
            texts = {one.filename: opened.read(one) for one in entries if not _beside(one.filename)}
            names = tuple(sorted(one.filename for one in entries if _beside(one.filename)))
            for name in names:
                with opened.open(name) as each:  # so that a damaged one is found before anything is written
                    while each.read(1 << 20):
                        pass
            yield Whole(texts, names, opened.read)
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, OverflowError) as bad:
        right = "Fetch it again, or take another snapshot."
        raise Faults(Fault(file.name, f"This is no zip, or it is damaged ({bad}).", right)) from bad
    except OSError as bad:
        raise Faults(Fault(str(file), f"It cannot be read: {bad.strerror or bad}.", "")) from bad


def _beside(name: str) -> bool:
    return must_be_beside(name, refuse=False)


def _look_over(file: Path, entries: list[zipfile.ZipInfo]) -> None:
    if len(entries) > MOST_FILES:
        raise Faults(Fault(file.name, f"It holds {len(entries):,} files.", "A yard holds fewer."))
    faults = [fault for entry in entries if (fault := _fault(entry))]
    seen: set[str] = set()
    for entry in entries:
        if entry.filename.casefold() in seen:
            faults.append(Fault(entry.filename, "It is in there twice.", "Take one out."))
        seen.add(entry.filename.casefold())
    if "yard.toml" not in seen:
        inner = next((one.filename for one in entries if one.filename.endswith("/yard.toml")), None)
        right = f"Zip what is inside {inner.rpartition('/')[0]}." if inner else "hand-out --to yard.zip makes one."
        faults = [Fault(file.name, "There is no yard.toml at its top: this is no yard.", right)]
    if faults:
        raise Faults(*faults[:20])


def _fault(entry: zipfile.ZipInfo) -> Fault | None:
    name = entry.filename
    parts = name.split("/")
    if name.startswith("/") or ".." in parts or "\\" in name or ":" in name or "\0" in name:
        return Fault(name, "This name leads out of the yard.", "Nothing was taken in: who made this zip?")
    if stat.S_ISLNK(entry.external_attr >> 16):
        return Fault(name, "This is a link, not a file.", "Nothing was taken in: who made this zip?")
    if entry.flag_bits & 1:
        return Fault(name, "It is locked with a password.", "Zip it again without.")
    text = name == "yard.toml" or (len(parts) == 2 and parts[0] in FOLDERS and name.endswith(".toml"))
    log, kept = _log.FILE.fullmatch(name) is not None, _beside(name)
    if not (text or log or kept):
        places = ", ".join((*FOLDERS, "log", "packs"))
        return Fault(name, "This file has no place in a yard.", f"A yard has yard.toml, {places} and photos.")
    most = MOST_BYTES if text else MOST_LOG if log else MOST_BESIDE
    if entry.file_size > most:
        return Fault(
            name, f"It is {entry.file_size / 1e6:,.0f} MB long.", f"Such a file has at most {most / 1e6:,.0f}."
        )
    if entry.file_size > SMALL and entry.file_size > MOST_SQUEEZED * max(entry.compress_size, 1):
        return Fault(name, "It says that it is much longer than it can be.", "Nothing was taken in.")
    return None
