"""What comes after the first spall: how unevenly it grows, and what it sheds (C2)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.kinds import Area, Density, Length, Mass, Share

STEEL = 7800.0  # kg/m^3, bearing steel; common practice, no source


@dataclass(frozen=True, slots=True)
class SlopeSpread:
    """What a Weibull slope says of the spread of times.

    Attributes:
        log_sd: standard deviation of the logarithm [-]
        tenth: time by which a tenth are through, over the median [-]
        nine_tenths: time by which nine tenths are through, over the median [-]
    """

    log_sd: Share
    tenth: Share
    nine_tenths: Share


def spread_of_slope(slope: Share) -> SlopeSpread:
    """Spread of times of a Weibull law, by its slope.

    Args:
        slope: Weibull slope; 1.1 for the growth of spalls in taper roller bearings [-]

    Returns:
        spread

    Source: Weibull; the slope: Hoeprich 1992 as quoted by Kotzalas and Harris 2001, J. Tribology.
    Valid: 0.3 to 10.
    Try: slope=1.1

    >>> round(float(spread_of_slope(1.0).tenth), 3)
    0.152
    """
    within("slope", slope, 0.3, 10.0)
    shape = np.asarray(slope, float)
    middle = np.log(2.0)
    return SlopeSpread(
        np.pi / (np.sqrt(6.0) * shape),
        (-np.log(0.9) / middle) ** (1 / shape),
        (-np.log(0.1) / middle) ** (1 / shape),
    )


def spall_mass(area: Area, depth: Length, density: Density = STEEL) -> Mass:
    """Steel that a spall has shed.

    Args:
        area: area of the spall; a rating life ends at 6 mm2 [m^2]
        depth: depth, 0.15 mm at first, 0.3 mm later [m]
        density: density of the steel [kg/m^3]

    Returns:
        mass; 7 mg at the first spall cannot be seen on a plug [kg]

    Source: volume times density; the area: Timken Engineering Manual, bearing life.
    Valid: shallow against its width.
    Try: area="430 mm²" depth="0.3 mm"

    >>> round(float(spall_mass(100e-6, 0.3e-3)) * 1e3, 3)
    0.234
    """
    within("area", area, 0.0)
    within("depth", depth, 0.0)
    above("density", density)
    return np.asarray(np.asarray(area, float) * depth * density)[()]
