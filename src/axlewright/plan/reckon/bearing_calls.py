"""From calipers and axle weights to the life of a wheel's two bearings, and from that to the class leaned on it.

Functions in the house's form, called by name through the workings, so that each number on the sheet knows what it was
made of.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Annotated, Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from axlewright.engines.forecast import Lean, Lives, lean_factors, lean_of, stretched
from axlewright.engines.limits import OutOfRange, within
from axlewright.engines.running.hub import Bearing, HubLife, hub_life
from axlewright.engines.running.life import MOST_LOAD, PAST
from axlewright.engines.running.loads import Arrangement, axial_loads, equivalent_load, radial_loads
from axlewright.engines.running.rating import Rating
from axlewright.kinds import LAST_AXIS, Array, Duration, Force, KinematicViscosity, Length, Share, Speed, kind_of

Times: TypeAlias = Annotated[Array, kind_of(Duration), LAST_AXIS]
THRUST = 0.6  # Y times e, where both come from one angle; ISO 281
ONE_SIGMA = (0.15865525393145707, 0.8413447460685429)  # shares of a normal law one standard deviation either way


@dataclass(frozen=True, slots=True)
class Medians:
    """Median times to the first spall, one a design.

    Attributes:
        times: machine hours [s]
    """

    times: Times


@dataclass(frozen=True, slots=True)
class WheelForces:
    """What the ground does to a wheel that rolls.

    Attributes:
        load: upward [N]
        traction: along [N]
        side: outward [N]
    """

    load: Force
    traction: Force
    side: Force


def forces_at_work(stands: Force, shock: Share, traction: Share, side: Share) -> WheelForces:
    """What the ground does to a wheel that rolls, by what it carries standing.

    Args:
        stands: load on the ground under the wheel, standing level [N]
        shock: load that rolls over load that stands [-]
        traction: pull over load [-]
        side: side force over load, outward [-]

    Returns:
        forces

    Source: shares of the load; bearings.toml of the trade says how they are known.
    Valid: the wheel's own weight is left in, which is the careful side.
    """
    load = np.maximum(np.asarray(stands, float), 0.0) * shock
    return WheelForces(load, load * traction, load * side)


def mean_speed(field: Speed, road: Speed, on_road: Share) -> Speed:
    """Speed over all machine hours, of the field and the road.

    Args:
        field: in the field, stops in it [m/s]
        road: on the road [m/s]
        on_road: hours on the road for each in the field [-]

    Returns:
        what the wheel rolls in a machine hour, over that hour [m/s]

    Source: the mean over hours; machine hours are the clock of all lives.
    Valid: film and load are taken as in the field, which is the careful side of the road's turns.
    """
    within("on_road", on_road, 0.0)
    return np.asarray((field + np.asarray(on_road) * road) / (1 + np.asarray(on_road)))[()]


def bearing_known(
    rated: Rating,
    thrust_limit: Share,
    rule: Share,
    static_rule: Share,
    old_steel: Share,
    capacity: Force | None = None,
    static_capacity: Force | None = None,
    thrust_factor: Share | None = None,
) -> Bearing:
    """What a taper roller bearing is good for: as printed, else by caliper.

    Args:
        rated: the bearing by caliper
        thrust_limit: e [-]
        rule: C over what the caliper gives [-]
        static_rule: the same of C0 [-]
        old_steel: C of its age over that of a later one [-]
        capacity: C as printed [N]
        static_capacity: C0 as printed [N]
        thrust_factor: Y as printed [-]

    Returns:
        bearing

    Source: as printed, else `rating_by_caliper`, corrected by angle; Y = 0.6/e (ISO 281, one angle).
    Valid: a printed C always wins; the doubt of the rule is in the draws.
    """
    return Bearing(
        rated.likely_capacity * np.asarray(rule) * old_steel if capacity is None else capacity,
        rated.static_capacity * np.asarray(static_rule) if static_capacity is None else static_capacity,
        THRUST / np.asarray(thrust_limit, float) if thrust_factor is None else thrust_factor,
        thrust_limit,
        rated.mean_diameter,
    )


def effective_centre(centre: Length, rule: Share) -> Length:
    """Effective centre of a taper roller bearing from its cup's back face, with the doubt of the rule.

    Args:
        centre: by caliper [m]
        rule: centre of a catalogue over it [-]

    Returns:
        distance towards the cone's back face [m]

    Source: `rating_by_caliper`.
    Valid: typical insides.
    """
    return np.asarray(centre * np.asarray(rule))[()]


def overhang(footprint: Length, centre: Length, arrangement: Arrangement) -> Length:
    """How far outboard of the outboard effective centre the middle of the footprint lies.

    Args:
        footprint: middle of the footprint outboard of the outboard cup's back face [m]
        centre: effective centre of the outboard bearing, from that face [m]
        arrangement: which way the cones face

    Returns:
        distance, negative inboard [m]

    Source: geometry: back to back the centre lies outboard of the face, face to face inboard of it.
    Valid: always.
    """
    towards = np.asarray(centre, float)
    return np.asarray(footprint - towards if arrangement == "back to back" else footprint + towards)[()]


def dirt_left(cleanliness: Share, most: Share) -> Share:
    """How much of the fatigue limit dirt leaves, no more than what was seen in the oil allows.

    Args:
        cleanliness: e_C by the class of the oil [-]
        most: most that it may be by what was seen [-]

    Returns:
        e_C [-]

    Source: guide table of ISO 281:2007.
    Valid: 0 to 1.
    """
    within("cleanliness", cleanliness, 0.0)
    return np.minimum(cleanliness, most)


def rated_life(
    forces: WheelForces,
    spread: Length,
    offset: Length,
    rolling_radius: Length,
    speed: Speed,
    viscosity: KinematicViscosity,
    contamination: Share,
    outboard: Bearing,
    inboard: Bearing,
    slope: Share,
    beyond: Share,
    arrangement: Arrangement = "back to back",
) -> HubLife:
    """How long the pair lasts until the first spall, in the draws in which a rating holds.

    Where the load is past half of a capacity no life is given: such a draw has 0, as nothing is promised there. Where
    that is so in more than a few of them, nothing is given at all.

    Args:
        forces: what the ground does to the wheel
        spread: distance of the effective centres [m]
        offset: middle of the footprint outboard of the outboard centre [m]
        rolling_radius: loaded radius of the tyre [m]
        speed: speed over all machine hours [m/s]
        viscosity: viscosity of the oil at work [m^2/s]
        contamination: e_C [-]
        outboard: the bearing at the wheel
        inboard: the other one
        slope: Weibull slope of lives [-]
        beyond: share of draws past half a capacity that may be [-]
        arrangement: which way the cones face

    Returns:
        loads and lives

    Source: `hub_life` (ISO 281:2007).
    Valid: as `hub_life`; fatigue alone.
    """
    radial = radial_loads(forces.load, forces.traction, forces.side, spread, offset, rolling_radius)
    thrust = axial_loads(
        radial.outboard, radial.inboard, outboard.thrust_factor, inboard.thrust_factor, forces.side, arrangement
    )
    holds: NDArray[np.bool_] = np.asarray(True)
    worst, most = 0.0, np.inf
    for bearing, across, along in (
        (outboard, radial.outboard, thrust.outboard),
        (inboard, radial.inboard, thrust.inboard),
    ):
        load = equivalent_load(across, along, bearing.thrust_factor, bearing.thrust_limit)
        limit = np.minimum(MOST_LOAD * np.asarray(bearing.capacity), bearing.static_capacity)
        holds = holds & (load <= limit)
        if np.median(load / limit) > worst / most:
            worst, most = float(np.median(load)), float(np.median(limit))
    past = float(1 - holds.mean())
    if past > float(np.median(beyond)):
        raise OutOfRange("outboard", worst, 0.0, most, past, PAST)

    def given(one: Any) -> Any:
        return np.broadcast_to(np.asarray(one, float), holds.shape)[holds]

    def part(whole: Any) -> Any:
        return type(whole)(*(given(getattr(whole, f.name)) for f in fields(whole)))

    rolls = part(forces)
    made = hub_life(
        rolls.load, rolls.traction, rolls.side, given(spread), given(offset), given(rolling_radius), given(speed),
        given(viscosity), given(contamination), part(outboard), part(inboard), arrangement, given(slope),
    )  # fmt: skip
    return HubLife(*(_put_back(getattr(made, f.name), holds) for f in fields(HubLife)))


def _put_back(value: Any, holds: NDArray[np.bool_]) -> Array:
    """The draws in their places; 0 where nothing is given."""
    whole = np.zeros(holds.shape)
    whole[holds] = value
    return whole


def opinions_together(
    rated: HubLife, class_median: Duration, class_spread: Share, class_shape: Share, own_spread: Share, most: Share
) -> Lean:
    """What the class and the rating of a design's bearings come to together.

    The rating is one opinion of one number, the design's median: so it enters by its middle draw, and by how far its draws
    lie apart beside the doubt of any rating. To lean each design on a draw of its own would count that doubt as a difference
    between designs, and twice.

    Args:
        rated: life of its pair of bearings
        class_median: middle of the designs' medians to the first spall [s]
        class_spread: standard deviation of their logarithm between designs [-]
        class_shape: Weibull shape of the class [-]
        own_spread: standard deviation of the logarithm of what any rating says [-]
        most: what all other causes than fatigue would last, over the class [-]

    Returns:
        both opinions, and what they come to

    Source: `lean_of`: weights 1/sd^2; the draws' own spread between their shares of one standard deviation.
    Valid: machine hours on both sides.
    """
    low, middle, high = np.quantile(np.asarray(rated.median, float), (ONE_SIGMA[0], 0.5, ONE_SIGMA[1]))
    drawn = np.log(high / low) / 2
    spread = float(np.hypot(np.median(own_spread), drawn))
    median, apart, own_most, shape = (float(np.median(one)) for one in (class_median, class_spread, most, class_shape))
    return lean_of(median, apart, float(middle), spread, own_most, shape)


def class_leaned(lives: Lives, medians: Medians, lean: Lean) -> Lives:
    """The laws of the class, leaned on what one design's bearings are rated for.

    Args:
        lives: laws of the class, a design a draw, or one
        medians: time by which half of each design have begun to fail
        lean: what the class and the rating come to together

    Returns:
        laws: sound and wearing stretched, failing as it was

    Source: `lean_factors`: the designs move and draw together as one normal law goes over into another.
    Valid: as both; no design is stretched by more than `most`.
    """
    factors = np.asarray(lean_factors(medians.times, lean), float)
    return stretched(lives, factors if np.ndim(lives.sound.median) else factors[0])
