"""The box crib: what a given layout bears, how it is built, how far it settles, what pushes it over (A3)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.holding.timber import bearing_length_en, bearing_length_factor
from axlewright.engines.limits import above, within
from axlewright.kinds import Area, Count, Force, Length, Pressure, Share, YesNo


@dataclass(frozen=True, slots=True)
class CribHold:
    """What a crib bears by both codes, as load on the crib.

    Attributes:
        crossings_us: its weakest layer of crossings by the NDS [N]
        crossings_en: its weakest layer of crossings by EN 1995 [N]
        seat_us: its seat by the NDS [N]
        seat_en: its seat by EN 1995 [N]
        crossings: the lower of the two codes [N]
        seat: the lower of the two codes [N]
        least: the least of all [N]
    """

    crossings_us: Force
    crossings_en: Force
    seat_us: Force
    seat_en: Force
    crossings: Force
    seat: Force
    least: Force


@dataclass(frozen=True, slots=True)
class CribBuild:
    """How a crib is built to a height.

    Attributes:
        tiers: layers of timber [1]
        packers: height left for packers and wedges [m]
        packers_fit: packing is no more than one timber's depth [-]
        timbers_needed: pieces in the crib [1]
        with_spare: pieces with the spare pair that packs up in bites [1]
        timbers_short: pieces that are missing for the crib itself [1]
        base_width: outer width of the square of crossings [m]
        height_over_base: height over that width [-]
        height_over_length: height over the timber's length [-]
        first_crosses: the lowest layer lies across the axle tube, as the top one must [-]
    """

    tiers: Count
    packers: Length
    packers_fit: YesNo
    timbers_needed: Count
    with_spare: Count
    timbers_short: Count
    base_width: Length
    height_over_base: Share
    height_over_length: Share
    first_crosses: YesNo


@dataclass(frozen=True, slots=True)
class SideHold:
    """What moves a crib sideways.

    Attributes:
        slides: side force at its top that slides it [N]
        topples: side force at its top that topples it; negative when the load is off its base [N]
        least: the lesser [N]
        notional: side force that must be reckoned with, a share of the load [N]
    """

    slides: Force
    topples: Force
    least: Force
    notional: Force


@dataclass(frozen=True, slots=True)
class Shortening:
    """How far a crib shortens when it is first loaded.

    Attributes:
        upper: at most: indentation of the code's basis, and seating [m]
        lower: at least: elastic, and seating [m]
    """

    upper: Length
    lower: Length


@dataclass(frozen=True, slots=True)
class CribHeights:
    """How high a crib is built and how far the jack must lift to get it in.

    Attributes:
        loaded: height that holds the wheel clear [m]
        built: height as built, before it carries [m]
        jack_rise: rise at the jack, with room for the last packer [m]
    """

    loaded: Length
    built: Length
    jack_rise: Length


def crossings_hold(crossings: Count, contact: Area, allowed: Pressure) -> Force:
    """Load that a number of loaded crossings bears.

    Args:
        crossings: loaded timbers of the upper layer times timbers of the lower [1]
        contact: area of one crossing [m^2]
        allowed: stress allowed across the grain [Pa]

    Returns:
        load [N]

    Source: number x area x stress, as the published box cribs are made (US&R shoring guidance).
    Valid: all crossings equally loaded. Published figures are ceilings for Douglas fir or southern pine, no targets.

    >>> crossings_hold(4, 0.01, 2e6)
    80000.0
    """
    within("crossings", crossings, 0)
    within("contact", contact, 0)
    within("allowed", allowed, 0)
    return crossings * contact * allowed


def off_centre_share(
    off_x: Length, off_y: Length, spacing_x: Length, spacing_y: Length, across: Count = 2, along: Count = 2
) -> Share:
    """How many times its even share the worst crossing bears when the load is off the middle.

    Args:
        off_x: load off the middle, one way [m]
        off_y: load off the middle, the other way [m]
        spacing_x: middle to middle of neighbouring timbers, one way [m]
        spacing_y: middle to middle of neighbouring timbers, the other way [m]
        across: timbers the load is shared by, one way [1]
        along: timbers the load is shared by, the other way [1]

    Returns:
        factor, 1 in the middle [-]

    Source: straight-line share among equal timbers, 1 + 6 e/(s (n + 1)), both ways multiplied; for two timbers the
        lever (1 + 2 e/s); statics.
    Valid: no crossing lifts: e no more than s (n + 1)/6. Keep e to s/6.

    >>> round(float(off_centre_share(0.1, 0.1, 0.6, 0.6)), 2)
    1.78
    """
    above("spacing_x", spacing_x, 0, "a distance")
    above("spacing_y", spacing_y, 0, "a distance")
    within("across", across, 2)
    within("along", along, 2)
    factor = 1.0
    for off, spacing, count, what in ((off_x, spacing_x, across, "off_x"), (off_y, spacing_y, along, "off_y")):
        reach = np.asarray(spacing * (count + 1) / 6)
        within(what, np.abs(off), 0, np.min(reach), "farther and a crossing lifts")
        factor = factor * (1 + np.abs(off) / reach)
    return factor


def crib_hold(
    per_layer: Count,
    touched: Count,
    width: Length,
    length: Length,
    overhang: Length,
    seat_along: Length,
    allowed_us: Pressure,
    allowed_en: Pressure,
    worst_share: Share = 1.0,
) -> CribHold:
    """What a box crib of one size of timber bears, by both codes.

    Args:
        per_layer: timbers in each layer [1]
        touched: timbers of the top layer that the seat touches [1]
        width: of the timbers, real not nominal [m]
        length: of the timbers [m]
        overhang: beyond the outermost crossing, at each end [m]
        seat_along: seat's length along the grain of the top layer [m]
        allowed_us: allowed stress by the NDS, without its bonus for short bearings [Pa]
        allowed_en: allowed stress by EN 1995, the load factor in it [Pa]
        worst_share: how many times its even share the worst crossing bears [-]

    Returns:
        loads by part and code, lower ones named

    Source: NDS 3.10 with C_b by the overhang; EN 1995-1-1 6.1.5 with its effective length.
    Valid: crossings over one another, layers at right angles; the seat counts no bonus of either code (a choice).
    """
    within("per_layer", per_layer, 2)
    within("touched", touched, 1, np.max(per_layer), "no more than there are")
    for what, value in (("width", width), ("length", length), ("seat_along", seat_along)):
        above(what, value, 0, "a length")
    within("worst_share", worst_share, 1, 4)
    clear = (length - 2 * overhang - per_layer * width) / (per_layer - 1)
    within("overhang", overhang, 0)
    within("length", clear, 0, np.inf, "the timbers of a layer must lie apart, between the overhangs")
    crossings = np.minimum(touched * per_layer, per_layer**2) / worst_share
    area_us = width**2 * bearing_length_factor(width, overhang)
    area_en = width * bearing_length_en(width, overhang, clear)
    seat = touched * width * seat_along
    us, en = crossings_hold(crossings, area_us, allowed_us), crossings_hold(crossings, area_en, allowed_en)
    seat_us, seat_en = seat * allowed_us, seat * allowed_en
    both, lower_seat = np.minimum(us, en), np.minimum(seat_us, seat_en)
    return CribHold(us, en, seat_us, seat_en, both, lower_seat, np.minimum(both, lower_seat))


def seat_hold(seat_along: Length, width: Length, touched: Count, allowed: Pressure) -> Force:
    """What the timbers under a narrow seat bear.

    Args:
        seat_along: seat's length along the grain; an axle tube itself touches a line, so a plate's or saddle's [m]
        width: of the timbers [m]
        touched: timbers under the seat [1]
        allowed: stress allowed across the grain [Pa]

    Returns:
        load [N]

    Source: NDS 3.10.2; area x stress.
    Valid: stiff plate of 20 mm or more.

    >>> seat_hold(0.3, 0.1, 2, 1.5e6)
    90000.0
    """
    above("seat_along", seat_along, 0, "a length")
    above("width", width, 0, "a length")
    within("touched", touched, 1)
    within("allowed", allowed, 0)
    return seat_along * width * touched * allowed


def crib_side_hold(
    load: Force,
    friction: Share,
    height: Length,
    base_width: Length,
    off_centre: Length = 0.0,
    notional_share: Share = 0.05,
) -> SideHold:
    """Side force that slides or topples a loaded crib.

    Args:
        load: on the crib [N]
        friction: least of seat, timber on timber, timber on ground [-]
        height: of the crib [m]
        base_width: outer width of the square of crossings [m]
        off_centre: load off the middle [m]
        notional_share: side force to be reckoned with as a share of the load [-]

    Returns:
        forces

    Source: mu P and P (b/2 - e)/H; statics. 5 % notional side force: common practice, no source.
    Valid: crib rigid, on level ground.
    """
    within("load", load, 0)
    within("friction", friction, 0, 1)
    above("height", height, 0, "a height")
    above("base_width", base_width, 0, "a width")
    within("off_centre", off_centre, 0)
    within("notional_share", notional_share, 0, 1)
    slides, topples = friction * load, load * (base_width / 2 - off_centre) / height
    return SideHold(slides, topples, np.minimum(slides, topples), notional_share * load)


def crib_build(
    target_height: Length,
    section: Length,
    per_layer: Count,
    length: Length,
    overhang: Length,
    owned: Count,
    min_packer: Length = 0.0,
) -> CribBuild:
    """Layers, packing and pieces of a crib for a height under its seat.

    Args:
        target_height: ground, mat or slab to the underside of the seat [m]
        section: depth of the timbers, real not nominal [m]
        per_layer: timbers in each layer [1]
        length: of the timbers [m]
        overhang: beyond the outermost crossing, at each end [m]
        owned: sound pieces of this size at hand [1]
        min_packer: least height wanted for packers and wedges [m]

    Returns:
        counts and proportions

    Source: counting; overhang of about one timber width as in fire-service texts; height over length at most 1, 1.5
        with cleats, a choice.
    Valid: one size of timber, layers at right angles, grain level.
    """
    above("section", section, 0, "a depth")
    within("per_layer", per_layer, 2)
    within("owned", owned, 0)
    within("min_packer", min_packer, 0)
    base = length - 2 * overhang
    above("length", base, 0, "longer than its two overhangs")
    tiers = np.floor((target_height - min_packer) / section + 1e-9)
    within("target_height", tiers, 1, np.inf, "at least one layer and its packing")
    packers = target_height - tiers * section
    needed = tiers * per_layer
    return CribBuild(
        tiers,
        packers,
        np.asarray(packers) <= section + 1e-9,
        needed,
        needed + 2,
        np.maximum(needed - owned, 0.0),
        base,
        target_height / base,
        target_height / length,
        np.asarray(tiers) % 2 == 1,
    )


def crib_shortening(
    height: Length,
    tiers: Count,
    stress_ratio: Share,
    stress: Pressure,
    across_grain_modulus: Pressure = 370e6,
    seating: Length = 0.001,
) -> Shortening:
    """How far a crib shortens under its first load.

    Args:
        height: of the timber in it [m]
        tiers: layers of timber [1]
        stress_ratio: stress over the reference value across the grain [-]
        stress: stress at the crossings [Pa]
        across_grain_modulus: modulus across the grain [Pa]
        seating: gap that closes at each tier [m]

    Returns:
        most and least

    Source: ASTM D143 basis of the reference value, 0.04 in on a 2 in block, in proportion; E90 of C24 370 MPa (read);
        seating 0.5 to 1.5 mm a tier, common practice, no source.
    Valid: first loading, stress up to the reference value.
    """
    within("height", height, 0)
    within("tiers", tiers, 0)
    within("stress_ratio", stress_ratio, 0, 1, "beyond the reference value it crushes")
    within("stress", stress, 0)
    above("across_grain_modulus", across_grain_modulus, 0, "a modulus")
    within("seating", seating, 0)
    gaps = tiers * seating
    return Shortening(height * 0.02 * stress_ratio + gaps, height * stress / across_grain_modulus + gaps)


def crib_heights(lift_point_height: Length, clear_rise: Length, shortening: Length, room: Length) -> CribHeights:
    """How high a crib is built, and how far the jack lifts to get it in.

    Args:
        lift_point_height: seat's underside above the ground, wheel down [m]
        clear_rise: rise there that holds the tyre clear [m]
        shortening: of the crib and sink of its ground under load [m]
        room: to get the last packer in, 10 to 20 mm [m]

    Returns:
        heights

    Source: geometry.
    Valid: crib under the point that is jacked, or both heights taken there.
    """
    within("lift_point_height", lift_point_height)
    for what, value in (("clear_rise", clear_rise), ("shortening", shortening), ("room", room)):
        within(what, value, 0)
    loaded = lift_point_height + clear_rise
    return CribHeights(loaded, loaded + shortening, clear_rise + shortening + room)
