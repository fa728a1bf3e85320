"""Who may ask: this machine only, and forms only from our own pages."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from urllib.parse import unquote, urlsplit

from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

from axlewright.desk import Role
from axlewright.yard import Fault

HOSTS = frozenset({"127.0.0.1", "localhost", "[::1]", "testserver"})
SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
MOST_BYTES = 1_000_000  # a form
MOST_PHOTO = 13_000_000  # a form with a photo, as a telephone makes them
MOST_TABLE = 21_000_000  # a form with a table to take in


def host_only(address: str) -> str:
    """The name in a Host header, without its port."""
    return address.rsplit(":", 1)[0] if address.rsplit(":", 1)[-1].isdigit() else address


async def guard(request: Request, go_on: Callable[[Request], Awaitable[Response]]) -> Response:
    """Refuse other hosts' names (rebinding), other sites' forms, and forms too big to be one."""
    host = request.headers.get("host", "")
    if host_only(host) not in HOSTS:
        return refused(request, "This page answers on 127.0.0.1 only.", 421)
    if request.method not in SAFE:
        origin = request.headers.get("origin")
        # a browser without Origin on its forms still sends Sec-Fetch-Site on a loopback address
        if origin is not None and urlsplit(origin).netloc != host:
            return refused(request, "This form came from another site. Open the page here and send it again.", 403)
        if origin is None and request.headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
            return refused(request, "This form came from another site. Open the page here and send it again.", 403)
        path = request.url.path
        most = MOST_PHOTO if path.endswith("/photo") or "/look/" in path else MOST_BYTES
        most = MOST_TABLE if path == "/take-in" else most
        said = request.headers.get("content-length", "")
        if said.isdecimal() and int(said[:20]) > most and not path.startswith("/api/"):  # an operation counts itself
            told = f"That is too much for one form (over {most // 1_000_000} MB). Nothing was changed."
            return refused(request, told, 413)
    answer = await go_on(request)
    answer.headers.setdefault("X-Content-Type-Options", "nosniff")
    answer.headers.setdefault("Referrer-Policy", "same-origin")
    answer.headers.setdefault(
        "Content-Security-Policy",
        "default-src 'none'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; font-src 'self'; script-src 'self';"
        " form-action 'self'; frame-ancestors 'none'; base-uri 'none'",
    )
    return answer


def who_asks(request: Request) -> tuple[str, Role]:
    """Who asks and what they may. On this machine it is the owner; the name is that of the Who header or the page's cookie."""
    said = unquote(request.headers.get("who", "") or request.cookies.get("who", ""))
    name = "".join(letter for letter in said if letter.isprintable()).strip()[:120]
    return name or "owner", "owner"


def refused(request: Request, words: str, status: int) -> Response:
    """What a person or a program reads that is not let in."""
    from axlewright.web.api import problems  # it asks this module who asks

    if problems.is_asked(request):
        return problems.problem(status, Fault("request", words))
    return PlainTextResponse(f"{words}\n", status)
