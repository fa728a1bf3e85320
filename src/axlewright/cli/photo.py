"""photo: a photo of a machine or a drive is kept with it; or those that are kept are told."""

from __future__ import annotations

import json
from argparse import Namespace

from axlewright import desk
from axlewright.cli import yards


def run(args: Namespace) -> int:
    place, now = yards.opened(args), yards.now(args)
    yard, photo = place.read(), yards.photo(args)
    if photo:
        desk.thing_named(yard, args.thing)
        deed = desk.Photographed(thing=args.thing, photo=desk.photo_name(photo))
        yard, _ = desk.carry_out(place, lambda y: desk.with_photo(desk.photograph(y, deed, now), photo))
    thing = desk.thing_named(yard, args.thing)
    if args.json:
        print(json.dumps({"thing": thing.id, "photos": list(thing.photos)}, indent=1))
    elif thing.photos:
        print("\n".join([f"{thing.name}, photos kept:", *(f"  photos/{name}" for name in thing.photos)]))
    else:
        print(f"{thing.name}: no photo is kept. photo {thing.id} FILE keeps one.")
    return 0
