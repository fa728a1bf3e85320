"""Search: a drive, a machine, a trouble or a pack by anything that is written on it."""

from __future__ import annotations

from fastapi import APIRouter
from fastapi.responses import Response
from starlette.requests import Request

from axlewright.web.page import page, store_of
from axlewright.yard.search import Hit, search

router = APIRouter()
LONGEST = 120


@router.get("/search", include_in_schema=False)
def look_up(request: Request, q: str = "") -> Response:
    """What may be meant, the best first."""
    store, said = store_of(request), q.strip()[:LONGEST]
    packs = [name.removeprefix("packs/").removesuffix(".json") for name in store.beside() if name.startswith("packs/")]
    hits = search(store.read(), said, packs)
    return page(
        "search.html",
        "",
        title=f"Search: {said}" if said else "Search",
        said=said,
        found=[shown(hit) for hit in hits if not hit.guess],
        guesses=[shown(hit) for hit in hits if hit.guess],
    )


def shown(hit: Hit) -> dict[str, str]:
    """A line of what was found."""
    return {"name": hit.name, "sort": hit.sort, "where": hit.where, "by": hit.by, "says": hit.says, "to": address(hit)}


def address(hit: Hit) -> str:
    """Its page."""
    return f"/yard/design#{hit.id}" if hit.sort == "kind of drive" else f"/{hit.sort}/{hit.id}"
