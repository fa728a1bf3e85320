"""A PostgreSQL server for the tests: an own one in a temporary directory, on a loopback port, never as root."""

from __future__ import annotations

import os
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

USERS = ("postgres", "nobody")
WAIT = 30.0  # [s]


class NotHere(Exception):
    """There is no server to be had; says why."""


def binary(name: str) -> str:
    found = shutil.which(name) or next(
        (str(one) for one in sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"), reverse=True)), None
    )
    if found is None:
        raise NotHere(f"PostgreSQL is not installed: no {name}")
    return found


def drop() -> dict[str, Any]:
    """How a program is started as somebody who is not root."""
    if sys.platform == "win32" or os.getuid() != 0:
        return {}
    import pwd

    for name in USERS:
        try:
            who = pwd.getpwnam(name)
        except KeyError:
            continue
        return {"user": who.pw_uid, "group": who.pw_gid, "extra_groups": []}
    raise NotHere("there is no user to run PostgreSQL as")


@contextmanager
def served() -> Generator[str]:
    """The URL of a running server, up to the name of the database; it is ended with the block.

    Raises:
        NotHere: it cannot be had
    """
    initdb, postgres = binary("initdb"), binary("postgres")
    who = drop()
    place = Path(tempfile.mkdtemp(prefix="yard-server-"))
    try:
        if who:
            os.chown(place, who["user"], who["group"])
        made = subprocess.run(
            [initdb, "-D", str(place / "data"), "-A", "trust", "-U", "yard", "-N", "--locale=C", "-E", "UTF8"],
            capture_output=True,
            text=True,
            check=False,
            cwd=place,
            **who,
        )
        if made.returncode:
            raise NotHere(f"initdb: {made.stderr.strip().splitlines()[-1:]}")
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        set_to = {"listen_addresses": "127.0.0.1", "port": port, "unix_socket_directories": place, "fsync": "off"}
        options = [word for key, value in set_to.items() for word in ("-c", f"{key}={value}")]
        server = subprocess.Popen(
            [postgres, "-D", str(place / "data"), *options],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            cwd=place,
            **who,
        )
        try:
            _answers(server, port)
            yield f"postgresql://yard@127.0.0.1:{port}/"
        finally:
            server.send_signal(signal.SIGINT)  # ends its sessions, then itself
            server.wait(WAIT)
    finally:
        shutil.rmtree(place, ignore_errors=True)


def _answers(server: subprocess.Popen[bytes], port: int) -> None:
    import psycopg

    until = time.monotonic() + WAIT
    while True:
        try:
            psycopg.connect(f"host=127.0.0.1 port={port} user=yard dbname=postgres").close()
        except psycopg.OperationalError:
            if server.poll() is not None or time.monotonic() > until:
                raise NotHere("the server does not start") from None
            time.sleep(0.05)
        else:
            return
