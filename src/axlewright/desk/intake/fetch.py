"""Machine hours by the owner's own address and token. A server that hangs, drips, lies or sends elsewhere is named as such.

https alone, but for this machine itself; no redirect to another host; one time limit and one size limit over all pages.
The token comes from a file or the environment, goes to that one host and nowhere else: no log, no message, no disk.
"""

from __future__ import annotations

import ipaddress
import os
import socket
import threading
import time
from collections.abc import Generator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from http.client import HTTPConnection, HTTPException, HTTPResponse, HTTPSConnection, IncompleteRead
from pathlib import Path
from urllib.parse import SplitResult, urljoin, urlsplit

from axlewright import VERSION
from axlewright.desk.intake import telematics
from axlewright.desk.intake.found import Wrong
from axlewright.yard import Fault, Faults

PIECE = 65_536
LONGEST_TOKEN = 8_192
REDIRECTS = 3
AGAIN = "Nothing was kept. Try again later, or fetch the file in a browser and take that in."


@dataclass(frozen=True, slots=True)
class Limits:
    """How long and how much: a server's first word [s], all of it [s], all bytes, pages."""

    wait: float = 15.0
    all: float = 60.0
    most: int = 20_000_000
    pages: int = 100


USUAL = Limits()


def token_from(named: str) -> str:
    """The token that stands in an environment variable of this name, else in a file of this name.

    Raises:
        Faults: there is neither, or no token in it; what stands there is never said
    """
    text = os.environ.get(named)
    if text is None:
        try:
            with Path(named).open(encoding="utf-8") as file:
                text = file.read(LONGEST_TOKEN + 1)
        except (OSError, UnicodeDecodeError):
            what = f"There is no environment variable and no readable file {named[:60]}."
            raise Faults(
                Fault("--token-from", what, "Put the token into one of them, and give its name here.")
            ) from None
    token = text.strip()
    if not token or len(token) > LONGEST_TOKEN or not all("!" <= sign <= "~" or sign == " " for sign in token):
        right = "It is one line of plain letters and digits, as the portal gave it."
        raise Faults(Fault("--token-from", f"What stands in {named[:60]} is no token.", right))
    return token


def fetched(address: str, token: str = "", limits: Limits = USUAL) -> telematics.Answer:
    """All pages of an address as one answer.

    Raises:
        Faults: whatever is wrong with the address, the server or what it sends; nothing of it is kept then
    """
    start = checked(address)
    ends = time.monotonic() + limits.all
    rows: list[telematics.Heard | Wrong] = []
    told: tuple[str, ...] = ()
    seen: set[str] = set()
    at, got = address, 0
    while at not in seen:
        if len(seen) == limits.pages:
            what = f"It goes on and on: {limits.pages} pages, and there is another."
            raise Faults(Fault(_plain(start), what, "Ask the portal for fewer machines or a shorter time."))
        seen.add(at)
        data = _page(at, start, token, ends, limits, got)
        got += len(data)
        answer = _read(data, start, len(rows) + 1)
        rows += answer.rows
        told = told or answer.told
        at = urljoin(at, answer.next) if answer.next else at
        if not _same_host(urlsplit(at), start):
            what = f"Its next page lies at another host: {urlsplit(at).netloc[:80]}. The token was not sent there."
            raise Faults(Fault(_plain(start), what, "If you trust it, take that address in by itself."))
    machines = len({one.numbers for one in rows if isinstance(one, telematics.Heard)})
    return telematics.Answer(
        tuple(rows), "", (*told[:1], f"Pages: {len(seen)}; machines: {machines}; readings of hours: {len(rows)}.")
    )


def _read(data: bytes, start: SplitResult, number: int) -> telematics.Answer:
    try:
        return telematics.read(data, number)
    except Faults as bad:
        raise Faults(*(Fault(_plain(start), one.what, one.right) for one in bad.faults)) from None


def checked(address: str) -> SplitResult:
    """The parts of an address that may be asked.

    Raises:
        Faults: no web address, not https, or with a name and password in it
    """
    try:
        parts = urlsplit(address)
        port = parts.port
    except ValueError:
        parts, port = SplitResult("", "", "", "", ""), None
    if (
        parts.scheme not in ("https", "http")
        or not parts.hostname
        or port == 0
        or not address.isascii()
        or " " in address
    ):
        raise Faults(Fault("address", "This is no web address.", "It begins with https://"))
    if parts.username or parts.password:
        right = "Leave them out; put the token into a file and give it with --token-from."
        raise Faults(Fault("address", "A name or password stands in the address.", right))
    if parts.scheme == "http" and not _is_here(parts.hostname):
        right = "Write https://; plain http is for this machine alone (127.0.0.1)."
        raise Faults(Fault(_plain(parts), "Over plain http anybody on the way reads the token.", right))
    return parts


def _is_here(host: str) -> bool:
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def _plain(parts: SplitResult) -> str:
    """An address without what may be secret in it."""
    return f"{parts.scheme}://{parts.netloc}{parts.path}"[:120]


def _same_host(other: SplitResult, start: SplitResult) -> bool:
    def whole(one: SplitResult) -> tuple[str, str | None, int | None]:
        return one.scheme, one.hostname, one.port or {"https": 443, "http": 80}.get(one.scheme)

    try:
        return whole(other) == whole(start) and not other.username
    except ValueError:
        return False


def _page(at: str, start: SplitResult, token: str, ends: float, limits: Limits, got: int) -> bytes:
    """One page; redirects within the host are followed."""
    for _ in range(REDIRECTS + 1):
        found = _asked(urlsplit(at), start, token, ends, limits, got)
        if isinstance(found, bytes):
            return found
        at = urljoin(at, found)
        if not _same_host(urlsplit(at), start):
            what = f"It sends on to another host, {urlsplit(at).netloc[:80] or 'none'}. The token was not sent there."
            raise Faults(Fault(_plain(start), what, "Ask the portal for the right address."))
    raise Faults(Fault(_plain(start), "It sends on from one address to the next without end.", AGAIN))


def _asked(parts: SplitResult, start: SplitResult, token: str, ends: float, limits: Limits, got: int) -> bytes | str:
    """What stands at an address, or the address that it sends on to."""
    where, left = _plain(start), ends - time.monotonic()
    if left <= 0:
        raise Faults(Fault(where, f"It took longer than {limits.all:g} s. It was cut off.", AGAIN))
    assert parts.hostname
    make = HTTPSConnection if parts.scheme == "https" else HTTPConnection
    line = make(parts.hostname, parts.port, timeout=min(limits.wait, left))
    headers = {"Accept": "application/xml, application/json;q=0.9", "Accept-Encoding": "identity"}
    headers |= {"User-Agent": f"axlewright/{VERSION}", "Connection": "close"}
    if token:
        headers["Authorization"] = token if " " in token else f"Bearer {token}"
    target = (parts.path or "/") + (f"?{parts.query}" if parts.query else "")
    try:
        with _cut_off(line, left) as late:
            try:
                line.connect()
                late.sock = line.sock  # the connection itself lets go of it once the server has begun its last answer
                line.request("GET", target, headers=headers)
                with closing(line.getresponse()) as said:
                    found = _answer(said, where, limits, got)
                if late.over:  # what was cut off may look like a whole answer
                    raise TimeoutError
                return found
            except (OSError, HTTPException, ValueError) as bad:
                raise _in_words(bad, where, limits, late=late.over) from None
    finally:
        line.close()


@dataclass(slots=True)
class _Late:
    """Whether the time is over, and the socket that is cut then."""

    over: bool = False
    sock: socket.socket | None = None


@contextmanager
def _cut_off(line: HTTPConnection, after: float) -> Generator[_Late]:
    """A connection that is cut when its time is over, however slowly the bytes drip in."""
    late = _Late()

    def cut() -> None:
        late.over = True
        sock = late.sock or line.sock
        if sock is not None:
            with suppress(OSError):
                sock.shutdown(socket.SHUT_RDWR)

    timer = threading.Timer(after, cut)
    timer.daemon = True
    timer.start()
    try:
        yield late
    finally:
        timer.cancel()
        timer.join()


def _answer(said: HTTPResponse, where: str, limits: Limits, got: int) -> bytes | str:
    if said.status in (301, 302, 303, 307, 308) and said.getheader("Location"):
        return said.getheader("Location", "")
    if said.status != 200:
        raise Faults(Fault(where, *_refusal(said.status)))
    if said.getheader("Content-Encoding", "identity").lower() != "identity":
        raise Faults(Fault(where, "It sends packed bytes though plain ones were asked for.", AGAIN))
    if "html" in said.getheader("Content-Type", "").lower():
        right = "Look at the address: a page for people answered, perhaps one to sign in."
        raise Faults(Fault(where, "This is a web page, not an answer of ISO 15143-3.", right))
    most = limits.most - got
    if (said.length or 0) > most:
        raise _too_much(where, limits)
    pieces, size = [], 0
    while piece := said.read1(PIECE):
        size += len(piece)
        if size > most:
            raise _too_much(where, limits)
        pieces.append(piece)
    if said.length:
        raise IncompleteRead(b"", said.length)
    return b"".join(pieces)


def _too_much(where: str, limits: Limits) -> Faults:
    what = f"It sends over {limits.most / 1e6:g} MB. It was cut off."
    return Faults(Fault(where, what, "Ask the portal for fewer machines or a shorter time."))


def _refusal(status: int) -> tuple[str, str]:
    """What a status that is not 200 means for the owner."""
    if status in (401, 403):
        return f"It does not take the token ({status}).", "Fetch a new one at the portal: they run out."
    if status == 404:
        return "There is nothing at this address (404).", "Look the address up at the portal."
    if status == 429:
        return "It was asked too often (429).", "Wait a quarter of an hour, then try again."
    if status >= 500:
        return f"The portal itself has a fault ({status}).", AGAIN
    return f"It answers {status}, and no hours.", AGAIN


def _in_words(bad: Exception, where: str, limits: Limits, *, late: bool) -> Faults:
    """What went wrong on the way. The error's own text is never said: it may hold what was sent."""
    import ssl

    if isinstance(bad, Faults):
        return bad
    if late:
        return Faults(Fault(where, f"It took longer than {limits.all:g} s. It was cut off.", AGAIN))
    if isinstance(bad, TimeoutError):
        return Faults(Fault(where, f"It said nothing for {limits.wait:g} s.", AGAIN))
    if isinstance(bad, ssl.SSLCertVerificationError):
        right = "Do not go on: somebody else may stand in its place. Ask the portal."
        return Faults(Fault(where, "Its certificate does not prove who it is.", right))
    if isinstance(bad, IncompleteRead):
        return Faults(Fault(where, "It ended before all was sent that it had promised.", AGAIN))
    if isinstance(bad, socket.gaierror):
        return Faults(
            Fault(where, "There is no such host, or no way to it.", "Look at the address and at the network.")
        )
    if isinstance(bad, ConnectionRefusedError):
        return Faults(Fault(where, "Nobody answers at this address.", "Look at the address and at the network."))
    if isinstance(bad, OSError):
        return Faults(Fault(where, "The connection broke.", AGAIN))
    return Faults(Fault(where, "It does not answer as a web server does.", AGAIN))
