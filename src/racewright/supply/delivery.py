"""What fuel costs at the village: distance, boat or truck, what one trip brings, and what is spoilt."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError, NoAnswerError
from racewright.supply.diesel import delivered_price, road_transport
from racewright.supply.door import not_negative, positive

DAY = 86400.0


@dataclass(frozen=True, slots=True)
class Leg:
    """One part of the fuel's way, by one carrier that goes there loaded and comes back empty.

    Attributes
    ----------
    carrier : str
        Such as 'truck' or 'boat'.
    distance : float
        One way, >= 0 [m].
    speed_there, speed_back : float
        Over the ground, > 0; a boat differs up and down the river [m/s].
    fuel_rate : float
        Fuel burned under way, >= 0 [m3/s].
    crew_cost : float
        Per time under way and in port, >= 0 [currency/s].
    port_time : float
        Loading, unloading, waiting, for one trip, >= 0 [s].
    trip_cost : float
        Hire, tolls, handling of one trip, >= 0 [currency].
    cargo : float
        Fuel brought by one trip, > 0 [m3].
    """

    carrier: str
    distance: float
    speed_there: float
    speed_back: float
    fuel_rate: float
    cargo: float
    crew_cost: float = 0.0
    port_time: float = 0.0
    trip_cost: float = 0.0

    def __post_init__(self) -> None:
        not_negative("distance", self.distance, "m", 80e3)
        positive("speed there", self.speed_there, "m/s", 3.0)
        positive("speed back", self.speed_back, "m/s", 5.0)
        not_negative("fuel rate of the carrier", self.fuel_rate, "m3/s", 3.3e-6)
        not_negative("crew cost", self.crew_cost, "currency/s", 0.005)
        not_negative("time in port", self.port_time, "s", 14400.0)
        not_negative("cost of a trip", self.trip_cost, "currency", 50.0)
        positive("cargo", self.cargo, "m3", 0.3)

    @property
    def under_way(self) -> float:
        """There and back [s]."""
        return self.distance / self.speed_there + self.distance / self.speed_back

    @property
    def trip_time(self) -> float:
        """There, back and in port [s]."""
        return self.under_way + self.port_time


@dataclass(frozen=True, slots=True)
class Delivered:
    """Fuel at the village.

    Attributes
    ----------
    price : float
        Of what is fit to burn [currency/m3].
    bought_part, fuel_part, crew_part, trip_part, spoilt_part : float
        Its parts: price where it is bought, fuel of the carriers, crews, hire and handling, what is spoilt
        [currency/m3].
    trip_time : float
        Of all legs together, one trip each [s].
    cargo : float
        Fit to burn, brought by one trip of the last leg; 0 where the fuel is bought at the village [m3].
    """

    price: float
    bought_part: float
    fuel_part: float
    crew_part: float
    trip_part: float
    spoilt_part: float
    trip_time: float
    cargo: float

    def trips(self, fuel: float) -> int:
        """Trips of the last leg that bring `fuel` >= 0 [m3]; a part of a cargo counts as a trip."""
        if self.cargo == 0.0:
            return 0
        return math.ceil(not_negative("fuel", fuel, "m3", 20.0) / self.cargo * (1.0 - 1e-12))


def delivered(fuel_price: float, legs: tuple[Leg, ...], spoilt: float = 0.0) -> Delivered:
    """Price of fuel at the village.

    The carriers burn fuel at the price where it is bought: fuel part = price x fuel rate x time there and back /
    cargo (2 p c t / V with equal times, as `diesel.road_transport`).

    Parameters
    ----------
    fuel_price : float
        Where it is bought, >= 0 [currency/m3].
    legs : tuple of Leg
        In order; empty when it is bought at the village.
    spoilt : float
        Share of what arrives that is lost, leaked, stolen, or unfit to burn, 0 to below 1; default 0: say it when you
        know it [-].

    Raises
    ------
    InputError
        A number out of its range or not finite.
    """
    if not (math.isfinite(spoilt) and 0.0 <= spoilt < 1.0):
        raise InputError(f"the spoilt share is {spoilt!r}; wanted 0 to below 1, e.g. 0.03")
    fuel = math.fsum(road_transport(fuel_price, leg.fuel_rate, 0.5 * leg.under_way, leg.cargo) for leg in legs)
    crew = math.fsum(leg.crew_cost * leg.trip_time / leg.cargo for leg in legs)
    trip = math.fsum(leg.trip_cost / leg.cargo for leg in legs)
    arrived = delivered_price(fuel_price, fuel + crew + trip)
    price = arrived / (1.0 - spoilt)
    last = legs[-1].cargo * (1.0 - spoilt) if legs else 0.0
    return Delivered(
        price, fuel_price, fuel, crew, trip, price - arrived, math.fsum(leg.trip_time for leg in legs), last
    )


def travel_time_at(
    price: float, fuel_price: float, legs: tuple[Leg, ...], spoilt: float = 0.0, *, leg: int = -1
) -> float:
    """Time under way, there and back, of one leg at which fuel costs `price` at the village [s].

    All else stays: break-even price in, break-even travel time out.

    Parameters
    ----------
    price : float
        Wanted, >= 0 [currency/m3].
    fuel_price, legs, spoilt
        As in `delivered`.
    leg : int
        Which leg becomes longer or shorter; default the last.

    Raises
    ------
    NoAnswerError
        The price lies below that without any way on this leg, or time costs nothing there.
    """
    if not legs or not -len(legs) <= leg < len(legs):
        raise InputError(f"leg {leg} of {len(legs)}; wanted one that there is")
    found, one = delivered(fuel_price, legs, spoilt), legs[leg]
    per_time = (fuel_price * one.fuel_rate + one.crew_cost) / one.cargo / (1.0 - spoilt)
    if per_time == 0.0:
        raise NoAnswerError(f"time under way by {one.carrier} costs nothing: no travel time answers")
    wanted = one.under_way + (not_negative("price", price, "currency/m3", 1400.0) - found.price) / per_time
    if wanted * per_time < -1e-12 * found.price:
        raise NoAnswerError(
            f"{price:g} per m3 lies below the {found.price - one.under_way * per_time:g} that fuel costs without any "
            f"way by {one.carrier}"
        )
    return max(wanted, 0.0)
