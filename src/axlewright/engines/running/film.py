"""Whether oil keeps rollers apart, how clean it is, and what both make of rating life (C2)."""

from __future__ import annotations

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.kinds import Array, Force, KinematicViscosity, Length, Rate, Share

MM = 1e-3  # m
MM2 = 1e-6  # m^2/s in mm^2/s
SLOW = 1000.0  # rev/min, where the two branches of the reference viscosity meet; ISO 281:2007
MOST_RATIO = 4.0  # viscosity ratio above which nothing is gained; ISO 281:2007
LEAST_RATIO = 0.1  # below it the standard does not speak
MOST_LIFE = 50.0  # greatest a_ISO; ISO 281:2007
FATIGUE_PART = 8.2  # C0/Cu of roller bearings; ISO 281:2007, simplified
FATIGUE_SIZE = 100.0  # mm of mean diameter, above which the part shrinks


def reference_viscosity(rate: Rate, mean_diameter: Length) -> KinematicViscosity:
    """Viscosity at work temperature at which rollers just ride on the oil.

    Args:
        rate: turns in a second [1/s]
        mean_diameter: pitch diameter of the rollers, about (bore + outside)/2 [m]

    Returns:
        viscosity [m^2/s]

    Source: ISO 281:2007, nu1 = 45000 n^-0.83 Dpw^-0.5 below 1000 rev/min, 4500 n^-0.5 Dpw^-0.5 above (mm^2/s, rev/min, mm).
    Valid: empirical; charts of catalogues read up to 15 in 100 lower.
    Try: rate="18 rev/min" mean-diameter="140 mm"

    >>> round(float(reference_viscosity(0.3, 0.140)) * 1e6)
    345
    """
    above("rate", rate)
    above("mean_diameter", mean_diameter)
    speed, size = 60 * np.asarray(rate, float), np.asarray(mean_diameter, float) / MM
    slow, fast = 45000 * speed**-0.83, 4500 * speed**-0.5
    return np.asarray(MM2 * np.where(speed < SLOW, slow, fast) / np.sqrt(size))[()]


def viscosity_ratio(viscosity: KinematicViscosity, rate: Rate, mean_diameter: Length) -> Share:
    """Viscosity of the oil at work over the one at which rollers just ride on it: kappa.

    Args:
        viscosity: viscosity at work temperature [m^2/s]
        rate: turns in a second [1/s]
        mean_diameter: pitch diameter of the rollers [m]

    Returns:
        kappa; 0.1 to 0.3 at a wheel in the field, whatever the oil [-]

    Source: ISO 281:2007.
    Valid: empirical, as the reference viscosity.
    Try: viscosity="95 mm²/s" rate="18 rev/min" mean-diameter="140 mm"

    >>> round(float(viscosity_ratio(95e-6, 0.3, 0.140)), 2)
    0.28
    """
    above("viscosity", viscosity)
    return np.asarray(viscosity / reference_viscosity(rate, mean_diameter))[()]


def fatigue_limit_load(static_capacity: Force, mean_diameter: Length) -> Force:
    """Load below which clean, well oiled steel does not tire: Cu.

    Args:
        static_capacity: basic static capacity C0 [N]
        mean_diameter: pitch diameter of the rollers [m]

    Returns:
        fatigue load limit [N]

    Source: ISO 281:2007 simplified, C0/8.2, above 100 mm times (100/Dpw)^0.3.
    Valid: empirical; roller bearings; catalogues lie 2 in 100 above it, spread 4 in 100.
    Try: static-capacity="420 kN" mean-diameter="140 mm"

    >>> round(float(fatigue_limit_load(82e3, 0.08)))
    10000
    """
    above("static_capacity", static_capacity)
    above("mean_diameter", mean_diameter)
    size = np.maximum(np.asarray(mean_diameter, float) / MM, FATIGUE_SIZE)
    return np.asarray(np.asarray(static_capacity, float) / FATIGUE_PART * (FATIGUE_SIZE / size) ** 0.3)[()]


def contamination_factor(
    ratio: Share, mean_diameter: Length, class_factor: Share, class_offset: Share, most: Share = 1.0
) -> Share:
    """How much of the fatigue limit dirt in an oil bath leaves: e_C.

    Args:
        ratio: viscosity ratio kappa [-]
        mean_diameter: pitch diameter of the rollers [m]
        class_factor: factor of the oil's cleanliness class, by row of trade [-]
        class_offset: offset of that class, by row of trade [-]
        most: most that it may be by what was seen in the oil: 0.1 with grit, water or chips, 0 with visible metal [-]

    Returns:
        e_C, 0 to 1 [-]

    Source: ISO 281:2007 annex A, oil bath: a (1 - b/Dpw^(1/3)), a = a0 kappa^0.68 Dpw^0.55 up to 1 (constants from memory).
    Valid: empirical; never below 0: small bearings in dirty oil.
    Try: ratio=0.3 mean-diameter="140 mm" class-factor=0.00864 class-offset=2.5164

    >>> float(contamination_factor(0.5, 0.020, 0.00411, 3.8974))
    0.0
    """
    above("ratio", ratio)
    above("mean_diameter", mean_diameter)
    within("class_factor", class_factor, 0.0, 1.0)
    within("class_offset", class_offset, 0.0, 10.0)
    within("most", most, 0.0, 1.0)
    size = np.asarray(mean_diameter, float) / MM
    film = np.minimum(class_factor * np.asarray(ratio, float) ** 0.68 * size**0.55, 1.0)
    return np.asarray(np.clip(film * (1 - class_offset / np.cbrt(size)), 0.0, most))[()]


def life_modification(ratio: Share, contamination: Share, fatigue_limit: Force, load: Force) -> Share:
    """By how much oil film and dirt change the rating life of a radial roller bearing: a_ISO.

    Args:
        ratio: viscosity ratio kappa; above 4 counts as 4 [-]
        contamination: e_C [-]
        fatigue_limit: fatigue load limit Cu [N]
        load: equivalent load P [N]

    Returns:
        a_ISO, 0.1 to 50 [-]

    Source: ISO 281:2007, radial roller bearings.
    Valid: kappa 0.1 and more. Below it, wear governs: 0.1 is an upper bound, and no life is given.
    Try: ratio=0.3 contamination=0.03 fatigue-limit="48 kN" load="80 kN"

    >>> float(life_modification(0.3, 0.0, 48e3, 80e3))
    0.1
    """
    within("ratio", ratio, LEAST_RATIO, np.inf, "below it ISO 281 gives no life: wear governs")
    within("contamination", contamination, 0.0, 1.0)
    within("fatigue_limit", fatigue_limit, 0.0)
    above("load", load)
    film: Array = np.minimum(np.asarray(ratio, float), MOST_RATIO)
    number = np.where(film < 0.4, 1.3993, 1.2348)
    power = np.where(film < 0.4, 0.054381, np.where(film < 1, 0.19087, 0.071739))
    part = np.asarray(contamination, float) * fatigue_limit / load
    bracket = 1 - (1.5859 - number / film**power) * part**0.4
    least = MOST_LIFE ** (-1 / 9.185) * 0.1 ** (1 / 9.185)  # bracket at which a_ISO is 50
    # at kappa 0.1 the rounded constants go a hair past 1, that is under 0.1
    return np.asarray(0.1 * np.clip(bracket, least, 1.0) ** -9.185)[()]
