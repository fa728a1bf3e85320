"""A photo as it is kept: upright, small enough, with nothing in it but the picture, under a name made of what stands in it."""

from __future__ import annotations

import hashlib
import struct
from io import BytesIO
from typing import TYPE_CHECKING

from axlewright.yard import Beside, Fault, Faults

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_BYTES = 12_000_000  # of a photo as it is sent
MOST_PIXELS = 64_000_000  # more opens into memory that a small machine does not have
LONG_SIDE = 2048  # px
KEPT_BYTES = 1_500_000
QUALITIES = (85, 75, 60, 45, 30)
READ = ("JPEG", "PNG", "WEBP")
RIGHT = "Send the photo as the telephone made it: JPEG, PNG or WebP."
LEFT_TO_IT = {0xDB, 0xC0, 0xC4, 0xDA, 0xDD, 0xE0}
"""Markers of a JPEG file that hold the picture and nothing else: tables, its size, its scan, and the plain JFIF head."""


def photo_of(data: bytes, why: str = "photo") -> Beside:
    """A photo, ready to be kept: turned upright, no longer than 2 048 px, without position, time or maker's notes.

    The same photo gives the same name and bytes; one that was kept already stays as it is.

    Args:
        data: the file as it was sent
        why: the field that it was sent in

    Raises:
        Faults: it is no photo, is cut off, or is too large
    """
    if len(data) > MOST_BYTES:
        what = f"The photo is {len(data) / 1e6:.0f} MB; over {MOST_BYTES / 1e6:g} MB none is kept."
        raise Faults(Fault(why, what, "Take it again, smaller."))
    if data[4:8] == b"ftyp":
        what = "This is no photo that can be read here: the telephone keeps it as HEIC, or it is a film."
        raise Faults(Fault(why, what, "Send it as JPEG: set the camera to the most compatible format."))
    kept = data if _is_ours(data) else _made(data, why)
    return Beside(f"photos/{hashlib.sha256(kept).hexdigest()[:32]}.jpg", kept)


def photo_name(photo: Beside | None) -> str:
    """The name of a photo as a record has it; empty where there is none."""
    return photo.name.removeprefix("photos/") if photo else ""


def _made(data: bytes, why: str) -> bytes:
    """The picture alone, as a JPEG file."""
    from PIL import Image, ImageOps, UnidentifiedImageError  # slow to import

    try:
        with Image.open(BytesIO(data), formats=READ) as found:
            if found.width * found.height > MOST_PIXELS:
                raise Image.DecompressionBombError
            found.draft("RGB", (LONG_SIDE, LONG_SIDE))  # a large JPEG is opened smaller, where that is all we want
            found.load()
            upright = _on_white(ImageOps.exif_transpose(found))
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        what = f"The photo has more than {MOST_PIXELS / 1e6:g} million pixels."
        raise Faults(Fault(why, what, "Set the camera to a smaller size, or send a copy made smaller.")) from None
    except UnidentifiedImageError:
        raise Faults(Fault(why, "This is no photo that can be kept.", RIGHT)) from None
    except (OSError, SyntaxError, ValueError, EOFError, struct.error):
        what = "The photo is cut off or broken: no whole picture stands in it."
        raise Faults(Fault(why, what, "Send it again, or take it again.")) from None
    upright.thumbnail((LONG_SIDE, LONG_SIDE))
    upright.info.clear()  # a comment would be written again
    return _small(upright)


def _on_white(found: Image) -> Image:
    from PIL import Image

    if found.mode in ("RGBA", "LA", "PA") or "transparency" in found.info:
        clear = found.convert("RGBA")
        under = Image.new("RGB", clear.size, "white")
        under.paste(clear, mask=clear.getchannel("A"))
        return under
    return found.convert("RGB")


def _small(picture: Image) -> bytes:
    """The picture as JPEG, as good as it can be within the bytes that are kept."""
    data = b""
    for quality in QUALITIES:
        out = BytesIO()
        picture.save(out, "JPEG", quality=quality)
        data = out.getvalue()
        if len(data) <= KEPT_BYTES:
            break
    return data


def _is_ours(data: bytes) -> bool:
    """Whether it is a JPEG file as they are written here: small enough, and with nothing in it or after it but the picture."""
    if len(data) > KEPT_BYTES or not data.startswith(b"\xff\xd8\xff"):
        return False
    at, size = 2, (0, 0)
    while at + 4 <= len(data) and data[at] == 0xFF and data[at + 1] in LEFT_TO_IT:
        marker, length = data[at + 1], int.from_bytes(data[at + 2 : at + 4], "big")
        if marker == 0xC0 and at + 9 <= len(data):
            size = (int.from_bytes(data[at + 7 : at + 9], "big"), int.from_bytes(data[at + 5 : at + 7], "big"))
        if marker == 0xE0 and length != 16:  # a JFIF head of another length carries a small picture of its own
            return False
        at += 2 + length
        if marker == 0xDA:
            return 0 < max(size) <= LONG_SIDE and data.find(b"\xff\xd9", at) == len(data) - 2 and _opens(data)
    return False


def _opens(data: bytes) -> bool:
    """Whether the whole picture is there."""
    from PIL import Image

    try:
        with Image.open(BytesIO(data), formats=("JPEG",)) as found:
            found.load()
    except (OSError, SyntaxError, ValueError, EOFError, struct.error):
        return False
    return True
