"""Photos that were kept, and the same small."""

from __future__ import annotations

import re
from functools import lru_cache
from io import BytesIO

from fastapi import APIRouter
from fastapi.responses import Response
from starlette.exceptions import HTTPException
from starlette.requests import Request

from axlewright.web.page import store_of

router = APIRouter()
SMALL = 320  # px
PICTURES = {"jpg": "image/jpeg", "jpeg": "image/jpeg", "png": "image/png"}


@router.get("/photo/{name}", include_in_schema=False)
def kept_photo(request: Request, name: str) -> Response:
    """A photo that was kept."""
    ending = name.rpartition(".")[2]
    data = store_of(request).file(f"photos/{name}") if ending in PICTURES and "/" not in name else None
    if data is None:
        raise HTTPException(404, f"there is no photo {name}")
    return Response(data, media_type=PICTURES[ending], headers={"Cache-Control": kept_for(name)})


@router.get("/photo/small/{name}", include_in_schema=False)
def small_photo(request: Request, name: str) -> Response:
    """The same as a small figure: a page of them stays light."""
    whole = kept_photo(request, name)
    return Response(smaller(bytes(whole.body)), media_type=whole.media_type, headers={"Cache-Control": kept_for(name)})


def kept_for(name: str) -> str:
    """A photo named by what stands in it never changes; one that a person named by hand may."""
    return "private, max-age=31536000, immutable" if re.search(r"[0-9a-f]{16}", name) else "no-cache"


@lru_cache(maxsize=64)
def smaller(data: bytes) -> bytes:
    """The photo, no side longer than a small figure needs; as it is where it cannot be read."""
    from PIL import Image, ImageOps  # slow to import

    try:
        with Image.open(BytesIO(data)) as found:
            upright, out = ImageOps.exif_transpose(found), BytesIO()
            upright.thumbnail((SMALL, SMALL))
            upright.convert("RGB").save(out, found.format or "JPEG", quality=70)
    except (OSError, ValueError, Image.DecompressionBombError):
        return data
    return out.getvalue()
