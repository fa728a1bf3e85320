"""A small server on 127.0.0.1 that answers as told: whole, slow, cut off, lying."""

from __future__ import annotations

import socket
import threading
from collections.abc import Callable, Generator
from contextlib import contextmanager

Answer = Callable[[socket.socket, str], None]


@contextmanager
def portal(answer: Answer) -> Generator[tuple[str, list[str]]]:
    """Its address, and what was asked of it: each request whole, as text."""
    asked: list[str] = []
    over = threading.Event()
    with socket.create_server(("127.0.0.1", 0)) as server:
        server.settimeout(0.05)

        def one(line: socket.socket) -> None:
            with line:
                line.settimeout(5)
                text = b""
                while b"\r\n\r\n" not in text:
                    piece = line.recv(4096)
                    if not piece:
                        return
                    text += piece
                asked.append(text.decode())
                try:
                    answer(line, asked[-1].split()[1])
                except OSError:
                    return

        def serve() -> None:
            while not over.is_set():
                try:
                    line, _ = server.accept()
                except TimeoutError:
                    continue
                threading.Thread(target=one, args=(line,), daemon=True).start()

        thread = threading.Thread(target=serve, daemon=True)
        thread.start()
        try:
            yield f"http://127.0.0.1:{server.getsockname()[1]}", asked
        finally:
            over.set()
            thread.join()


def ok(body: str | bytes, *headers: str, length: int | None = None) -> bytes:
    """An answer of HTTP with these bytes."""
    raw = body.encode() if isinstance(body, str) else body
    head = ["HTTP/1.1 200 OK", f"Content-Length: {len(raw) if length is None else length}", *headers]
    return ("\r\n".join(head) + "\r\n\r\n").encode() + raw
