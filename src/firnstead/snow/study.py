"""The snow study: site and measurements in, column, milled snow, checks and work items out.

It reads `station.site`, `station.snow` and `station.design` only; the pipeline remembers it by these.
"""

from __future__ import annotations

import math

from firnstead.core.results import Study
from firnstead.snow.column import snow_column
from firnstead.snow.density import JOHNSEN, depth_of_550_herron_langway
from firnstead.snow.hardening import temperature_factor_milled_snow
from firnstead.snow.profile import DensityLaw, DensityProfile, profile_from_law, profile_from_layers
from firnstead.snow.results import MilledStrength, SnowResult
from firnstead.snow.strength import compressive_strength_band
from firnstead.snow.study_checks import checks_of
from firnstead.snow.study_work import work_items_of
from firnstead.snow.temperature import MELTING
from firnstead.station import Station

LAW_ENDS = 800.0  # stage 2 of herron_langway_1980 ends about here [kg/m3] (read second-hand)
DISTURBED = 2.5  # depth to which storms, crusts and traffic spoil a core [m], arrizabalaga_2025 (read)


def study(station: Station) -> Study:
    """Give the snow column of the site, the milled snow, their checks and what must be measured."""
    site, snow = station.site, station.snow
    profile = density_profile(station)
    column = snow_column(profile, site.mean_temperature, site.annual_swing)
    law = profile_law(station)
    result = SnowResult(
        column=column,
        milled=milled_strength(station),
        density_from=_density_from(station, profile),
        measured_depth=profile.measured_depth,
        depth_of_550=profile.depth_of(550.0),
        depth_of_830=profile.depth_of(830.0),
        law_depth_of_550=depth_of_550_herron_langway(
            site.mean_temperature, snow.surface_density, ice_density=law.ice_density, stage_1_share=law.stage_1_share),
        penetration_depth=_penetration(column.depth.tolist(), column.warmest.tolist(), column.coldest.tolist()),
        notes=_notes(station, profile, float(column.density.max())),
    )  # fmt: skip
    return Study(result, checks_of(station, result), work_items_of(station))


def profile_law(station: Station) -> DensityLaw:
    """The published law that the station file chooses, with the site's climate."""
    shares = JOHNSEN if station.snow.law == "herron_langway_1980_johnsen_2000" else (1.0, 1.0)
    return DensityLaw(
        station.site.mean_temperature, station.site.accumulation_mass, station.snow.surface_density,
        stage_1_share=shares[0], stage_2_share=shares[1])  # fmt: skip


def density_profile(station: Station) -> DensityProfile:
    """The measured layers with the law below them, or the law alone."""
    law = profile_law(station)
    layers = [(layer.top, layer.bottom, layer.density) for layer in station.snow.layers]
    return profile_from_layers(layers, law) if layers else profile_from_law(law)


def milled_strength(station: Station) -> MilledStrength:
    """What is known of the strength of milled snow."""
    milled = station.snow.milled
    factor, unknown = math.nan, ""
    if milled.measured_strength is None or milled.measured_age is None:
        unknown = "no strength of milled snow has been measured"
    elif milled.measured_temperature is None:
        unknown = "the temperature at which the measured sample of milled snow hardened is not given"
    else:
        factor = temperature_factor_milled_snow(
            milled.temperature, milled.measured_temperature, milled.activation_energy)  # fmt: skip
        if math.isnan(factor):
            unknown = "the cover hardens colder than the measured sample did, and no activation energy is given"
    return MilledStrength(
        density=milled.density_placed,
        envelope=compressive_strength_band(milled.density_placed).low,
        measured_strength=milled.measured_strength,
        measured_age=milled.measured_age,
        temperature_factor=factor,
        exponent_low=milled.age_exponent_low,
        exponent_high=milled.age_exponent_high,
        unknown=unknown,
    )


def _density_from(station: Station, profile: DensityProfile) -> str:
    law = "Herron & Langway 1980" + (" with Johnsen et al. 2000" if "johnsen" in station.snow.law else "")
    if profile.measured_depth > 0.0:
        return f"measured layers to {profile.measured_depth:g} m, below them {law}"
    return f"{law} from climate; nothing is measured"


def _penetration(depth: list[float], warmest: list[float], coldest: list[float]) -> float:
    """The depth at which the coldest temperature has come 1/e of the surface swing near the mean."""
    mean = coldest[-1]
    swing = mean - coldest[0]
    if swing <= 0.0:
        return 0.0
    return next(z for z, cold in zip(depth, coldest, strict=True) if mean - cold <= swing / math.e)


def _notes(station: Station, profile: DensityProfile, densest: float) -> tuple[str, ...]:
    site = station.site
    notes = [
        "Strength is a band: at one measured site the strongest sample carried 34 times the weakest (ueda_1981).",
        "Processed snow was found strongest near 600 kg/m3 and hardening at -12 to -7 degC (stehle_1970).",
    ]
    if profile.measured_depth > 0.0:
        notes.append(f"Storms, crusts and traffic spoil the top {DISTURBED} m of a core: take its density with care.")
    if site.mean_temperature + site.annual_swing >= MELTING:
        notes.append("The surface reaches melting in the warmest month: wet snow is weaker than every number here.")
    if densest > LAW_ENDS:
        notes.append(f"Densities above {LAW_ENDS:g} kg/m3 lie outside the law's range.")
    return tuple(notes)
