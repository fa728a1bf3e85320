"""Four or more sprung contacts: a machine whose oscillation is wedged, or that has sprung legs (A1)."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.holding._points import Point, gravity_along, seen_along
from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Array, Force, Length, Stiffness, YesNo

LIKE_NOTHING = 1e-9  # share of the weight or of the settlement that is rounding


@dataclass(frozen=True, slots=True)
class Contact:
    """A contact that presses and never pulls.

    Attributes:
        x: forward of the front axle [m]
        y: left of the middle [m]
        z: above the ground [m]
        stiffness: of tyre, crib or stand [N/m]
        raised: how far it is jacked or packed up from where all just touched [m]
    """

    x: Length
    y: Length
    z: Length
    stiffness: Stiffness
    raised: Length = 0.0


@dataclass(frozen=True, slots=True)
class Pressed:
    """What sprung contacts carry.

    Attributes:
        loads: load of each contact, in the order given, along gravity [N]
        stands: the body finds rest on them [-]
    """

    loads: tuple[Force, ...]
    stands: YesNo


def _solved(
    active: tuple[int, ...], x: Array, y: Array, k: Array, up: Array, wanted: Array
) -> tuple[Array, NDArray[np.bool_]]:
    """Loads on the active contacts and the give of every contact: three equations of equilibrium, a plane's fit."""
    rows = np.stack([np.ones_like(x), x, y], axis=-1)  # (draws, contacts, 3)
    mine = rows[:, active, :]
    stiff = k[:, list(active)]
    matrix = np.einsum("nai,na,naj->nij", mine, stiff, mine)
    pressed = np.einsum("nai,na->ni", mine, stiff * up[:, list(active)])
    sound = np.abs(np.linalg.det(matrix)) > LIKE_NOTHING * np.prod(np.einsum("nii->ni", matrix), axis=-1)
    matrix = np.where(sound[:, None, None], matrix, np.eye(3))
    plane = np.linalg.solve(matrix, (pressed - wanted)[..., None])[..., 0]
    give = up - np.einsum("nai,ni->na", rows, plane)
    return np.where(sound[:, None], give, np.nan), sound


def sprung_contacts(
    weight: Force,
    centre_x: Length,
    centre_y: Length,
    centre_z: Length,
    contacts: tuple[Contact, ...],
    nose_down: Angle = 0.0,
    left_down: Angle = 0.0,
) -> Pressed:
    """Loads of four (three to six) sprung contacts under a rigid body.

    Statics alone has no answer for four. Each contact gives by its load over its stiffness, the body stays a plane,
    and a contact that would pull is let go. There is one set of contacts that satisfies both, and each is tried.

    Args:
        weight: weight of the body [N]
        centre_x: centre of gravity forward of the front axle [m]
        centre_y: centre of gravity left of the middle [m]
        centre_z: centre of gravity above the ground [m]
        contacts: the contacts, all just touching before the load but for what each is raised
        nose_down: slope of the ground forward [rad]
        left_down: slope of the ground to the left [rad]

    Returns:
        loads; zeros and `stands` false where it would tip off them

    Source: three equations of equilibrium and the compatibility of a plane, one-sided springs; textbook statics.
    Valid: rigid body, small tilt. With tyre stiffness unknown run both ends of it.
    """
    for what, value in (("centre_x", centre_x), ("centre_y", centre_y), ("centre_z", centre_z)):
        within(what, value)
    above("weight", weight, 0, "a weight")
    within("contacts", len(contacts), 3, 6, "three to six contacts")
    for number, contact in enumerate(contacts, 1):
        above(f"contacts.{number}.stiffness", contact.stiffness, 0, "a stiffness")
        for part in ("x", "y", "z", "raised"):
            within(f"contacts.{number}.{part}", getattr(contact, part))
    gravity = gravity_along(nose_down, left_down)
    under = [seen_along(gravity, Point(c.x, c.y, c.z)) for c in contacts]
    centre = seen_along(gravity, Point(centre_x, centre_y, centre_z))
    flat = [weight, centre.x, centre.y]
    for c, p in zip(contacts, under, strict=True):
        flat += [p.x, p.y, c.stiffness, c.raised]
    drawn = np.broadcast_arrays(*(np.asarray(f, float) for f in flat))
    shape = drawn[0].shape
    w, cx, cy, *rest = (d.reshape(-1) for d in drawn)
    x, y, k, up = (np.stack(rest[i::4], axis=-1) for i in range(4))
    wanted = np.stack([w, w * cx, w * cy], axis=-1)
    loads, stands = np.zeros_like(x), np.zeros(w.shape, np.bool_)
    for count in range(len(contacts), 2, -1):
        for active in combinations(range(len(contacts)), count):
            with np.errstate(over="ignore", invalid="ignore"):  # beyond all numbers: then no set of contacts is sound
                give, sound = _solved(active, x, y, k, up, wanted)
            held = np.isin(np.arange(len(contacts)), active)
            force = np.where(held, k * give, 0.0)
            small = LIKE_NOTHING * w[:, None]
            as_it_should = np.where(held, force >= -small, k * give <= small)
            fits = sound & np.all(as_it_should, axis=-1) & ~stands
            loads[fits], stands[fits] = np.maximum(force[fits], 0.0), True
        if stands.all():
            break
    return Pressed(tuple(loads[:, i].reshape(shape) for i in range(len(contacts))), stands.reshape(shape))
