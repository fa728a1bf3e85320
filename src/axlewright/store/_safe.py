"""Files changed all or none, by one program at a time, whatever happens in between.

New versions are written beside the yard into `.axlewright/writing`; its renaming to `written` is the one moment at
which they come to hold. Whoever comes next carries the rest out: files of `written` go to their places, what is left
in `writing` is thrown away.
"""

from __future__ import annotations

import errno
import itertools
import json
import os
import shutil
import sys
import time
from collections.abc import Generator, Iterable, Mapping
from contextlib import contextmanager
from pathlib import Path

from axlewright.yard import Fault, Faults

OWN = ".axlewright"
GONE = ".gone"
WAIT = 10.0  # [s]


@contextmanager
def locked(folder: Path) -> Generator[None]:
    """Hold the folder against other programs. Ends with the program, also when it is killed.

    Raises:
        Faults: another program held it for too long
    """
    own = folder / OWN
    if not own.is_dir():
        own.mkdir(exist_ok=True)
        (own / ".gitignore").write_text("*\n", encoding="ascii")
    handle = os.open(own / "lock", os.O_RDWR | os.O_CREAT, 0o666)
    try:
        until = time.monotonic() + WAIT
        while not _take(handle):
            if time.monotonic() > until:
                raise Faults(Fault(str(folder), "Another program is writing here.", "Try again when it is done."))
            time.sleep(0.01)
        yield
    finally:
        os.close(handle)  # gives the lock back


if sys.platform == "win32":
    import msvcrt

    def _take(handle: int) -> bool:
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

else:
    import fcntl

    def _take(handle: int) -> bool:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True


def unfinished(folder: Path) -> bool:
    """Whether a write was cut off after it had come to hold."""
    return (folder / OWN / "written").is_dir()


def finish(folder: Path) -> None:
    """Carry out a write that was cut off, or throw it away if it had not come to hold. Only under the lock."""
    shutil.rmtree(folder / OWN / "writing", ignore_errors=True)
    written = folder / OWN / "written"
    if not written.is_dir():
        return
    for file in sorted(p for p in written.rglob("*") if p.is_file() and p.name != GONE):
        target = folder / file.relative_to(written)
        target.parent.mkdir(exist_ok=True)
        os.replace(file, target)
        _settle(target.parent)
    if (written / GONE).is_file():
        for name in json.loads((written / GONE).read_bytes()):
            (folder / name).unlink(missing_ok=True)
    shutil.rmtree(written)


def commit(folder: Path, files: Mapping[str, bytes] | Iterable[tuple[str, bytes]], gone: Iterable[str] = ()) -> None:
    """Put these files in place and take away those that are to be gone, all or none. Only under the lock, after `finish`.

    Raises:
        OSError: they could not be written; then none is in place
    """
    writing = folder / OWN / "writing"
    try:
        listed = files.items() if isinstance(files, Mapping) else files
        away = json.dumps(list(gone)).encode()
        for name, data in itertools.chain(listed, [(GONE, away)] if away != b"[]" else []):
            file = writing / name
            file.parent.mkdir(parents=True, exist_ok=True)
            with file.open("wb") as out:
                out.write(data)
                out.flush()
                os.fsync(out.fileno())
            _settle(file.parent)
        _settle(writing)
        os.rename(writing, folder / OWN / "written")
    except OSError:
        shutil.rmtree(writing, ignore_errors=True)
        raise
    _settle(folder / OWN)
    finish(folder)


def _settle(folder: Path) -> None:
    """Make names in a folder last through a power cut, where the system can be asked to."""
    if sys.platform != "win32":
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def in_words(bad: OSError, folder: Path) -> Faults:
    """Why a folder could not be read or written."""
    if bad.errno in {errno.ENOSPC, errno.EDQUOT if hasattr(errno, "EDQUOT") else errno.ENOSPC}:
        return Faults(Fault(str(folder), "The disk is full. Nothing was changed.", "Make room and try again."))
    if bad.errno in {errno.EACCES, errno.EPERM, errno.EROFS}:
        return Faults(Fault(bad.filename or str(folder), "This may not be read or written here.", "Ask who owns it."))
    return Faults(Fault(bad.filename or str(folder), f"{bad.strerror or bad}.", "Nothing was changed."))
