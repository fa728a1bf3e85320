"""Standard gravity, and the weight of a mass."""

from axlewright.engines.limits import above, within
from axlewright.kinds import Acceleration, Force, Mass

STANDARD_GRAVITY = 9.80665  # m/s^2, exact by definition (ISO 80000-3)


def weight_of(mass: Mass, gravity: Acceleration = STANDARD_GRAVITY) -> Force:
    """Weight of a mass.

    Args:
        mass: mass [kg]
        gravity: acceleration of gravity [m/s^2]

    Returns:
        weight [N]

    Source: W = m g, with the standard gravity of ISO 80000-3.
    Valid: any mass that is not negative.

    >>> round(weight_of(12_500) / 1000, 3)
    122.583
    """
    within("gravity", gravity)
    within("mass", mass, 0)
    return mass * gravity


def mass_that_weighs(weight: Force, gravity: Acceleration = STANDARD_GRAVITY) -> Mass:
    """Mass that has a weight, as a scale or a plate names it.

    Args:
        weight: weight or load [N]
        gravity: acceleration of gravity [m/s^2]

    Returns:
        mass [kg]

    Source: m = W/g, with the standard gravity of ISO 80000-3.
    Valid: any load that is not negative.

    >>> round(mass_that_weighs(62_900), 1)
    6414.0
    """
    above("gravity", gravity)
    within("weight", weight, 0)
    return weight / gravity
