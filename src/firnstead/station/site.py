"""Site, snow, design rules and season: what the whole station shares."""

from __future__ import annotations

from datetime import date
from typing import Literal

from firnstead.core.units import YEAR
from firnstead.station.fields import (
    Angle,
    Density,
    HoursPerDay,
    Length,
    MolarEnergy,
    Part,
    Share,
    Speed,
    Stress,
    Temperature,
    TemperatureDifference,
    Time,
    say,
)


class Site(Part):
    """Where the station is and what its climate does."""

    latitude: Angle = say("Latitude, south negative", low=-90, high=90)
    longitude: Angle = say("Longitude, west negative", low=-180, high=180)
    elevation: Length = say("Height of the snow surface above the sea", low=0, high=5000)
    mean_temperature: Temperature = say(
        "Mean annual temperature of the snow (what a thermometer 10 m down shows)", low=193.15, high=273.15
    )
    annual_swing: TemperatureDifference = say(
        "Half the difference between the warmest and the coldest month's surface temperature", low=0, high=50
    )
    accumulation_water: Speed = say(
        "Accumulation as metres of WATER a year (not snow depth, not ice)", low=0.005 / YEAR, high=3.0 / YEAR
    )
    storm_wind_from: Angle = say(
        "Direction the prevailing storm wind blows from, clockwise from grid north", low=0, high=360
    )
    storm_wind_speed: Speed = say("Speed of the storm wind at 10 m height", low=1, high=80)

    @property
    def accumulation_mass(self) -> float:
        """Accumulation [kg/m2/s]."""
        return self.accumulation_water * 1000.0


class DensityLayer(Part):
    """One measured layer of the snow at the site."""

    top: Length = say("Depth of the layer's top below the surface", low=0, high=300)
    bottom: Length = say("Depth of the layer's bottom below the surface", above=0, high=300)
    density: Density = say("Mean density of the layer", low=50, high=920)


class MeasuredStrength(Part):
    """One measured unconfined compressive strength of natural snow."""

    depth: Length = say("Depth of the sample", low=0, high=100)
    strength: Stress = say("Unconfined compressive strength", above=0, high=2e7)


class MilledSnow(Part):
    """Snow thrown by the millers: what covers are made of."""

    density_thrown: Density = say("Density as it lies in the spoil bank", low=200, high=650)
    density_placed: Density = say("Density as placed on a roof or as a pad, before it settles", low=250, high=700)
    temperature: Temperature = say("Temperature of the snow while it hardens", low=203.15, high=273.15)
    age_exponent_low: Share = say(
        "Slowest growth of strength with age, as exponent of time",
        low=0.05,
        high=1,
        default=0.18,
        mark="van_herwijnen_miller_2013",
    )
    age_exponent_high: Share = say(
        "Fastest growth of strength with age, as exponent of time", low=0.05, high=1, default=0.40, mark="hobbs_1965"
    )
    measured_strength: Stress | None = say(
        "Measured compressive strength of the milled snow; leave out until it is measured",
        above=0,
        high=2e7,
        default=None,
    )
    measured_age: Time | None = say("Age of the milled snow at that measurement", above=0, high=YEAR, default=None)
    measured_temperature: Temperature | None = say(
        "Temperature at which the measured sample hardened", low=203.15, high=273.15, default=None
    )
    activation_energy: MolarEnergy | None = say(
        "Activation energy of hardening, if fitted on site; no published value was found",
        low=0,
        high=200000,
        default=None,
    )
    repose_angle: Angle = say(
        "Slope at which thrown snow comes to rest", low=20, high=60, default=40.0, mark="own_rule"
    )


class Snow(Part):
    """What is known of the snow."""

    surface_density: Density = say("Density of the top metre or so, for the published law", low=150, high=550)
    density_file: str | None = say(
        "CSV of measured layers beside the station file (top, bottom, density); leave out to use the law",
        default=None,
    )
    layers: tuple[DensityLayer, ...] = say("Measured layers written here instead of in a CSV", default=())
    law: Literal["herron_langway_1980", "herron_langway_1980_johnsen_2000"] = say(
        "Published density law, used where nothing is measured", default="herron_langway_1980"
    )
    strengths: tuple[MeasuredStrength, ...] = say("Measured strengths, if any", default=())
    creep_exponent: Share = say(
        "Creep exponent to expect between 1 (linear) and 3 (cubic), the ends of the band: trench stress lies between",
        low=1,
        high=3,
        default=2.0,
        mark="own_rule",
    )
    milled: MilledSnow = say("Snow thrown by the millers")


class Design(Part):
    """Rules of the design; every factor is the responsible engineer's to choose."""

    life: Time = say("Years the station must stay safe", low=YEAR, high=50 * YEAR)
    arching_factor: Share = say(
        "Share of the cover's weight that reaches the arch (above 1: the arch stands firmer than the snow beside it)",
        low=1.0,
        high=3.0,
        default=1.3,
        mark="own_rule",
    )
    drift_factor: Share = say(
        "Yearly growth of the cover over the station as a multiple of the site's accumulation",
        low=0.5,
        high=5,
        default=2.0,
        mark="arrizabalaga_2025",
    )
    steel_factor: Share = say(
        "Factor of safety on the yield strength of steel", low=1, high=5, default=2.0, mark="hicks_2010"
    )
    buckling_factor: Share = say("Factor of safety against buckling", low=1, high=5, default=2.0, mark="own_rule")
    snow_factor: Share = say(
        "Factor of safety on the short-term strength of snow (low end of the band)",
        low=1,
        high=10,
        default=2.0,
        mark="own_rule",
    )
    overturning_factor: Share = say(
        "Factor of safety against overturning and sliding", low=1, high=5, default=1.5, mark="own_rule"
    )
    friction: Share = say("Friction of timber or snow block on snow", low=0.02, high=1, default=0.3, mark="own_rule")
    erection_load: Stress = say(
        "People, tools and loose snow on a bare arch while it is put up, per area",
        low=0,
        high=5000,
        default=720.0,
        mark="own_rule",
    )
    trim_interval: Time = say(
        "Time that buildings and ways must keep their clearance before walls are trimmed for the first time",
        low=0.25 * YEAR,
        high=20 * YEAR,
        default=YEAR,
        mark="own_rule",
    )
    pillar_factor: Share = say(
        "How much faster than far snow the snow between two cuts may sink",
        low=1.05,
        high=10,
        default=2.0,
        mark="own_rule",
    )
    wall_movement: Speed | None = say(
        "Closing of a wall per year to allow for in slip gaps of end walls and hatches (the closure forecast is for "
        "the middle of a trench, where walls move more)",
        low=0,
        high=2 / YEAR,
        default=None,
    )


class Season(Part):
    """The working season."""

    start: date = say("First day of work at the site")
    end: date = say("Last day of work at the site")
    shift_length: HoursPerDay = say("Length of a shift", low=4, high=16)
    shifts_per_day: int = say("Shifts a day", low=1, high=3, default=2)
    outdoor_share: Share = say("Share of days on which outdoor work is possible", low=0.1, high=1)
    turning_share: Share = say(
        "Share of a machine's shift that is really cutting (fuel, greasing, changes of crew taken off)",
        low=0.2,
        high=1,
        default=0.75,
        mark="own_rule",
    )


class Crew(Part):
    """A crew that works together on one shift."""

    people: int = say("People in the crew on one shift", low=1, high=60)
    count: int = say("Crews of this kind on one shift", low=1, high=20, default=1)
    note: str = say("What the crew does", default="")
