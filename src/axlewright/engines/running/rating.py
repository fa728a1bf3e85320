"""What a taper roller bearing of unknown number is good for, by caliper: capacities and effective centre (C2)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Array, Count, Force, Length, Share

MM = 1e-3  # m
# typical insides, fitted for this rule over 335 bearings of two catalogues (docs/engines/running.md)
ROLLER_DIAMETER, ROLLER_LENGTH, ROLLER_FILL = 0.25, 0.66, 0.85
CENTRE_WIDTH, CENTRE_ANGLE = 0.453, 0.484  # effective centre, of width and of mean diameter times tangent; the same fit
LIMIT_OVER_TANGENT = 1.5  # e over the tangent of the cup half angle; ISO 281
SHALLOW = 0.329868  # rad, 18.9 degrees: end of angle series 4; ISO 355 (from memory)
SHALLOW_FACTOR, STEEP_FACTOR = (
    1.04,
    0.92,
)  # catalogue over rule, series 2 to 4 and 5 to 7; the same fit, 6 in 100 are left


def capacity_factor(slimness: Share) -> Share:
    """Geometry factor f_c of a radial roller bearing.

    Args:
        slimness: gamma: roller diameter times cosine of the angle over pitch diameter [-]

    Returns:
        f_c for N and mm [-]

    Source: ISO/TR 1281-1 closed form with lambda nu = 0.83; gives five values of the table of ISO 281.
    Valid: 0.01 to 0.5.

    >>> round(float(capacity_factor(0.14)), 1)
    87.7
    """
    within("slimness", slimness, 0.01, 0.5)
    g = np.asarray(slimness, float)
    rings: Array = 1.04 * ((1 - g) / (1 + g)) ** (143 / 108)
    shape = g ** (2 / 9) * (1 - g) ** (29 / 27) / (1 + g) ** 0.25
    return np.asarray(207.9 * 0.83 * shape * (1 + rings**4.5) ** (-2 / 9))[()]


@dataclass(frozen=True, slots=True)
class Rating:
    """A bearing by caliper.

    Attributes:
        capacity: basic dynamic capacity C by the raw rule [N]
        likely_capacity: the same, corrected by the angle of the cup; 6 in 100 are left [N]
        static_capacity: basic static capacity C0 by the raw rule; 7 in 100 [N]
        centre: effective centre from the cup back face; 0.55 mm [m]
        rollers: number of rollers, not rounded [1]
        mean_diameter: pitch diameter of the rollers [m]
        cup_angle: half angle of the cup [rad]
    """

    capacity: Force
    likely_capacity: Force
    static_capacity: Force
    centre: Length
    rollers: Count
    mean_diameter: Length
    cup_angle: Angle


def rating_by_caliper(bore: Length, outside: Length, width: Length, thrust_limit: Share) -> Rating:
    """Capacities and effective centre of a taper roller bearing, by its outer sizes.

    Args:
        bore: bore d [m]
        outside: outside diameter D [m]
        width: assembled width T [m]
        thrust_limit: e; 0.42 where nobody knows the series [-]

    Returns:
        capacities with typical insides

    Source: ISO 281 and ISO 76 with roller 0.25 (D-d) by 0.66 T, 0.85 of the circle filled; docs/engines/running.md.
    Valid: empirical; a printed C always wins; bearings of the 1970s another 0.8 to 0.9 (assumed).
    Try: bore="95 mm" outside="170 mm" width="46 mm" thrust-limit=0.42

    >>> round(float(rating_by_caliper(0.095, 0.170, 0.0455, 0.42).capacity) / 1e3)
    278
    """
    above("bore", bore)
    above("width", width)
    above("outside", np.asarray(outside, float) - bore, why="more than the bore")
    within("thrust_limit", thrust_limit, 0.15, 1.2)
    d, big, wide = (np.asarray(one, float) / MM for one in (bore, outside, width))
    tangent = np.asarray(thrust_limit, float) / LIMIT_OVER_TANGENT
    angle: Array = np.arctan(tangent)
    roller, length, mean = ROLLER_DIAMETER * (big - d), ROLLER_LENGTH * wide, (d + big) / 2
    count = ROLLER_FILL * np.pi * mean / roller
    slim = roller * np.cos(angle) / mean
    capacity = 1.1 * capacity_factor(slim) * (length * np.cos(angle)) ** (7 / 9) * count**0.75 * roller ** (29 / 27)
    static = 44 * (1 - slim) * count * length * roller * np.cos(angle)
    return Rating(
        capacity,
        capacity * np.where(angle <= SHALLOW, SHALLOW_FACTOR, STEEP_FACTOR),
        static,
        MM * (CENTRE_WIDTH * wide + CENTRE_ANGLE * mean * tangent),
        count,
        MM * mean,
        angle,
    )
