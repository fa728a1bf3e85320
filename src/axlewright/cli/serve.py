"""serve: the yard as pages, on this machine alone."""

from __future__ import annotations

import socket
import sys
from argparse import Namespace
from pathlib import Path

from axlewright import store
from axlewright.cli import yards
from axlewright.yard import Fault, Faults

HOST = "127.0.0.1"


def run(args: Namespace) -> int:
    try:
        place = yards.where(args)
    except Faults:
        place = str(yards.demo(Path("out")))
    name = store.name_of(place)
    if not store.there(place):
        raise Faults(Fault(name, "There is no yard here.", f"Lay one out: axlewright lay-out {name}"))
    if store.is_database(place):
        store.at(place).read()  # one that cannot be opened says so here, and not on every page
    listening = taken(args.port)

    import uvicorn

    from axlewright.web.app import make

    address = f"http://{HOST}:{args.port}/"
    if args.json:
        print(f'{{"address": "{address}"}}', flush=True)
    else:
        print(f"{name}: open {address} (First look), {address}yard (Yard). Ctrl+C ends it.", flush=True)
    config = uvicorn.Config(make(place, yards.day(args)), log_level="warning", lifespan="off", server_header=False)
    uvicorn.Server(config).run(sockets=[listening])
    return 0


def taken(port: int) -> socket.socket:
    """A socket on this machine's own address.

    Raises:
        Faults: another program has the port
    """
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if sys.platform != "win32":
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((HOST, port))
    except (OSError, OverflowError):
        listening.close()
        raise Faults(
            Fault(
                "--port",
                f"Port {port} cannot be had.",
                f"Another program may use it: --port {port + 1 if port < 65000 else 8766}",
            )
        ) from None
    return listening
