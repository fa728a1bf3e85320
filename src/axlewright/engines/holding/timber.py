"""What timber bears across the grain, by two codes: NDS (US) and EN 1995 (Europe). The lower one is shown first (A3)."""

from __future__ import annotations

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.kinds import Length, Pressure, Share

LENGTH_BONUS = 0.375 * 0.0254  # m, NDS 3.10.4: bearing counts 3/8 in longer
SHORT_BEARING = 6 * 0.0254  # m, NDS 3.10.4: only under this length
END = 3 * 0.0254  # m, NDS 3.10.4: only this far from the end of the piece
SPREAD = 0.030  # m, EN 1995-1-1 6.1.5: contact counts so much longer at each side


def bearing_length_factor(bearing_length: Length, end_distance: Length) -> Share:
    """Bonus for a short bearing away from the end of the timber (C_b).

    Args:
        bearing_length: along the grain [m]
        end_distance: bearing to the end of the timber [m]

    Returns:
        factor on the allowed stress [-]

    Source: NDS 3.10.4, C_b = (l + 3/8 in)/l under 6 in and 3 in or more from the end (read in open implementations).
    Valid: empirical, inches in the constants.

    >>> round(float(bearing_length_factor(0.0508, 0.10)), 4)
    1.1875
    """
    above("bearing_length", bearing_length, 0, "a length")
    within("end_distance", end_distance, 0)
    # a hair, so that 6 in and 3 in typed in mm stand on their limit
    counts = (np.asarray(bearing_length) < SHORT_BEARING - 1e-6) & (np.asarray(end_distance) >= END - 1e-6)
    return np.where(counts, 1 + LENGTH_BONUS / bearing_length, 1.0)


def bearing_allowed_us(reference: Pressure, wet_factor: Share, length_factor: Share = 1.0) -> Pressure:
    """Stress allowed across the grain by the NDS, to be held against the load as it is.

    Args:
        reference: reference value across the grain of the species [Pa]
        wet_factor: C_M: 0.67 above 19 % moisture, 1 dry or where the table is for wet already [-]
        length_factor: C_b of the bearing [-]

    Returns:
        allowed stress [Pa]

    Source: NDS 3.10, F' = F C_M C_b; no increase for the time of loading (read in two open implementations).
    Valid: sound timber; split, rotten, oily or round-edged pieces bear nothing.
    """
    within("reference", reference, 0)
    within("wet_factor", wet_factor, 0.5, 1)
    within("length_factor", length_factor, 1, 2)
    return reference * wet_factor * length_factor


def bearing_length_en(contact_length: Length, end_overhang: Length, clear_to_next: Length) -> Length:
    """Length along the grain that a contact counts by EN 1995.

    Args:
        contact_length: of the contact along the grain [m]
        end_overhang: contact to the end of the timber, on one side [m]
        clear_to_next: contact to the next contact, on the other side [m]

    Returns:
        effective length [m]

    Source: EN 1995-1-1 6.1.5: 30 mm more on each side, no more than overhang, contact length or half the gap.
    Valid: empirical, millimetres in the constant.

    >>> round(float(bearing_length_en(0.10, 0.01, 0.40)), 3)
    0.14
    """
    above("contact_length", contact_length, 0, "a length")
    within("end_overhang", end_overhang, 0)
    within("clear_to_next", clear_to_next, 0)
    outer = np.minimum(np.minimum(SPREAD, end_overhang), contact_length)
    inner = np.minimum(np.minimum(SPREAD, np.asarray(clear_to_next) / 2), contact_length)
    return contact_length + outer + inner


def bearing_allowed_en(
    characteristic: Pressure,
    time_factor: Share,
    material_factor: Share = 1.3,
    load_factor: Share = 1.0,
    bearing_factor: Share = 1.0,
) -> Pressure:
    """Stress allowed across the grain by EN 1995, to be held against the load as it is.

    Args:
        characteristic: characteristic strength across the grain [Pa]
        time_factor: kmod of service class and time of loading [-]
        material_factor: gamma M [-]
        load_factor: factor on the load, 1.35 to 1.5; 1 gives the design stress itself [-]
        bearing_factor: k c,90; 1 where crossings lie over one another [-]

    Returns:
        allowed stress on the effective area [Pa]

    Source: EN 1995-1-1 6.1.5, k c,90 kmod f c,90,k/gamma M; kmod of class 3 and gamma M read in an open implementation.
    Valid: class numbers of the 2004 edition: outdoors is class 3. Never carried from one edition to the other.
    """
    within("characteristic", characteristic, 0)
    within("time_factor", time_factor, 0.3, 1.1)
    within("material_factor", material_factor, 1, 2)
    within("load_factor", load_factor, 1, 2)
    within("bearing_factor", bearing_factor, 1, 1.75)
    return bearing_factor * time_factor * characteristic / material_factor / load_factor
