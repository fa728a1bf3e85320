"""What the machine weighs and where its centre of gravity is: scales, grain, header, the jack's own gauge (A1)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.gravity import STANDARD_GRAVITY
from axlewright.engines.holding.corner import Body, corner_held, taken_off
from axlewright.engines.limits import above, within
from axlewright.kinds import Acceleration, Angle, Density, Force, Length, Mass, Share, Volume

BUSHEL = 0.03523907016688  # m^3, the US bushel of 2150.42 cubic inches, exact by definition


@dataclass(frozen=True, slots=True)
class WeighedCentre:
    """Mass and centre of gravity in plan, from scales.

    Attributes:
        mass: whole mass [kg]
        x: centre of gravity forward of the front axle [m]
        y: centre of gravity left of the middle [m]
    """

    mass: Mass
    x: Length
    y: Length


@dataclass(frozen=True, slots=True)
class AxleLoads:
    """How a load is shared by the axles.

    Attributes:
        front: load of the front axle [N]
        rear: load of the rear axle [N]
        front_share: share of the front axle [-]
    """

    front: Force
    rear: Force
    front_share: Share


def grain_density(bushel_mass: Mass) -> Density:
    """Bulk density of grain from its test weight.

    Args:
        bushel_mass: mass of one level US bushel [kg]

    Returns:
        bulk density [kg/m^3]

    Source: US bushel of 2150.42 cubic inches, by definition.
    Valid: empirical (the bushel is a volume in the constant); level measure.

    >>> round(grain_density(60 * 0.45359237), 1)
    772.3
    """
    above("bushel_mass", bushel_mass, 0, "a mass")
    return bushel_mass / BUSHEL


def maize_density(moisture: Share) -> Density:
    """Bulk density of shelled maize by its moisture.

    For nothing that holds: wet maize is lighter, and no support, crib or ground is sized with that relief.

    Args:
        moisture: share of water, wet basis [-]

    Returns:
        bulk density [kg/m^3]

    Source: ASAE D241.4, yellow dent shelled corn (from memory).
    Valid: empirical; moisture 0.10 to 0.35.

    >>> round(maize_density(0.20), 2)
    684.5
    """
    within("moisture", moisture, 0.10, 0.35)
    return 1086.3 - 2971 * moisture + 4810 * moisture**2  # kg/m^3


def grain_mass(volume: Volume, density: Density) -> Mass:
    """Mass of the grain in a tank.

    Args:
        volume: grain in the tank [m^3]
        density: bulk density [kg/m^3]

    Returns:
        mass [kg]

    Source: definition of density.
    Valid: tank sizes are quoted heaped; a level tank holds 85 to 90 %.
    """
    within("volume", volume, 0)
    above("density", density, 0, "a density")
    return volume * density


def centre_from_scales(
    front_left: Mass, front_right: Mass, rear_axle: Mass, wheelbase: Length, track: Length
) -> WeighedCentre:
    """Mass and centre of gravity in plan from two front wheel scales and one under the rear axle.

    An oscillating rear axle tells nothing of the side: only the front scales do.

    Args:
        front_left: scale under the left front wheel [kg]
        front_right: scale under the right front wheel [kg]
        rear_axle: scale under the rear axle [kg]
        wheelbase: front axle to rear axle [m]
        track: distance of the front wheels' contacts [m]

    Returns:
        mass and place

    Source: equilibrium of parallel forces; statics.
    Valid: level ground, all scales at one time.
    """
    within("wheelbase", wheelbase)
    within("track", track)
    for what, scale in (("front_left", front_left), ("front_right", front_right), ("rear_axle", rear_axle)):
        within(what, scale, 0)
    mass = front_left + front_right + rear_axle
    above("front_left", mass, 0, "the scales together must show a mass")
    return WeighedCentre(mass, -wheelbase * rear_axle / mass, (front_left - front_right) / mass * track / 2)


def axle_loads(weight: Force, centre_x: Length, wheelbase: Length) -> AxleLoads:
    """Loads of front and rear axle.

    Args:
        weight: whole weight [N]
        centre_x: centre of gravity forward of the front axle, so negative when behind it [m]
        wheelbase: front axle to rear axle [m]

    Returns:
        loads; the rear one is negative when it would rear up over its front axle

    Source: moments about the rear axle; statics.
    Valid: level ground.

    >>> round(axle_loads(100_000.0, -1.0, 4.0).front)
    75000
    """
    within("centre_x", centre_x)
    above("weight", weight, 0, "a weight")
    above("wheelbase", wheelbase, 0, "a distance")
    share = 1 + centre_x / wheelbase
    return AxleLoads(weight * share, weight * (1 - share), share)


def centre_from_share(front_share: Share, wheelbase: Length) -> Length:
    """Where the centre of gravity lies, from the front axle's share of the load.

    Args:
        front_share: share of the front axle [-]
        wheelbase: front axle to rear axle [m]

    Returns:
        centre of gravity forward of the front axle, so negative when behind it [m]

    Source: moments about the rear axle; statics.
    Valid: level ground.
    """
    within("front_share", front_share, 0, 1.5)
    above("wheelbase", wheelbase, 0, "a distance")
    return (front_share - 1) * wheelbase


def body_on_pivot(
    mass: Mass,
    front_share: Share,
    side_offset: Length,
    centre_height: Length,
    wheelbase: Length,
    rear_axle: Mass,
    rear_axle_height: Length,
    gravity: Acceleration = STANDARD_GRAVITY,
) -> Body:
    """What rests on the front wheels and the rear pivot: the machine without the rear axle's own mass.

    Args:
        mass: of the machine as it stands on its scales [kg]
        front_share: share of that on the front axle [-]
        side_offset: its centre of gravity left of the middle [m]
        centre_height: its centre of gravity above the ground [m]
        wheelbase: front axle to rear pivot [m]
        rear_axle: mass of rear axle and its wheels [kg]
        rear_axle_height: centre of gravity of those above the ground [m]
        gravity: acceleration of gravity [m/s^2]

    Returns:
        weight and centre of gravity of the body that can tip

    Source: moments about the rear axle; what is under the pivot does not tip with the body.
    Valid: oscillating rear axle, its own mass under its pivot.
    """
    above("mass", mass, 0, "a mass")
    within("rear_axle", rear_axle, 0)
    whole = (mass * gravity, centre_from_share(front_share, wheelbase), side_offset, centre_height)
    return taken_off(*whole, rear_axle * gravity, -wheelbase, 0.0, rear_axle_height)


def height_by_raising_rear(
    mass: Mass, wheelbase: Length, rear_lift: Length, front_gain: Mass, wheel_centre_height: Length
) -> Length:
    """Height of the centre of gravity from the front axle's gain when the rear axle is lifted.

    Args:
        mass: whole mass [kg]
        wheelbase: front axle to rear axle [m]
        rear_lift: how far the rear axle is lifted [m]
        front_gain: how much more the front scale shows [kg]
        wheel_centre_height: loaded radius of the front wheels [m]

    Returns:
        height above the ground [m]

    Source: method of ISO 789-6 and ISO 16231-2 clause 4; h = r + dF L/(W tan t), sin t = H/L, from statics.
    Valid: wheels free to turn; lift less than the wheelbase.
    """
    within("front_gain", front_gain)
    within("wheel_centre_height", wheel_centre_height)
    above("mass", mass, 0, "a mass")
    above("wheelbase", wheelbase, 0, "a distance")
    above("rear_lift", rear_lift, 0, "nothing lifted tells nothing")
    within("rear_lift", rear_lift, 0, np.nextafter(np.min(wheelbase), 0), "less than the wheelbase")
    return wheel_centre_height + front_gain * wheelbase / (mass * np.tan(np.arcsin(rear_lift / wheelbase)))


def height_from_gauge(
    load_clear: Force,
    load_raised: Force,
    centre_x: Length,
    centre_y: Length,
    track: Length,
    wheelbase: Length,
    pivot_height: Length,
    lift_x: Length,
    lift_y: Length,
    lift_z: Length,
    rise: Length,
) -> Length:
    """Height of the centre of gravity from the jack's load at first clearance and after a known rise.

    The ratio of the two loads falls in a straight line with that height. One per cent in the ratio is about a tenth
    of a metre: it finds a forgotten half-full tank, not centimetres.

    Args:
        load_clear: jack load when the tyre is just clear [N]
        load_raised: jack load after the rise [N]
        centre_x: centre of gravity forward of the front axle, machine level [m]
        centre_y: centre of gravity left of the middle [m]
        track: distance of the front wheels' contacts [m]
        wheelbase: front axle to rear pivot [m]
        pivot_height: rear pivot above the ground [m]
        lift_x: lift point forward of the front axle [m]
        lift_y: lift point left of the middle [m]
        lift_z: lift point above the ground, machine level [m]
        rise: how far it is raised [m]

    Returns:
        height above the ground, machine level [m]

    Source: rotation of a rigid body about a line, then moments about it; inverted for the height.
    Valid: level ground; both loads read the same way (rising, or the mean of rise and fall).
    """
    above("load_clear", load_clear, 0, "a load")
    above("load_raised", load_raised, 0, "a load")
    above("rise", rise, 0, "nothing raised tells nothing")
    shape = (track, wheelbase, pivot_height, lift_x, lift_y, lift_z)
    level = corner_held(1.0, centre_x, centre_y, 0.0, *shape).corner
    low, high = (corner_held(1.0, centre_x, centre_y, height, *shape, rise).corner for height in (0.0, 1.0))
    above("rise", np.abs(high - low), 0, "too little raised to tell anything")
    return (load_raised / load_clear * level - low) / (high - low)


def pitch_of_lift(rear_lift: Length, wheelbase: Length) -> Angle:
    """Slope of a machine whose rear axle is lifted.

    Args:
        rear_lift: how far the rear axle is lifted [m]
        wheelbase: front axle to rear axle [m]

    Returns:
        angle nose down [rad]

    Source: geometry.
    Valid: lift less than the wheelbase.
    """
    within("rear_lift", rear_lift, 0, np.nextafter(np.min(wheelbase), 0), "less than the wheelbase")
    return np.arcsin(rear_lift / wheelbase)
