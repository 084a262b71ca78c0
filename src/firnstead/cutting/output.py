"""What a miller gets done in an hour, and how long a pass, a cut and a season's work take it."""

from __future__ import annotations


def output_at_density(output: float, stated_density: float, density: float, power_share: float = 1.0) -> float:
    """Give the volume of snow in place that a miller cuts per second in snow of another density.

    Q = Q_stated rho_stated/rho s: it moves the same mass, less what the thin air takes from the engine

    Parameters
    ----------
    output : float [m3/s]
        Stated output, measured in place.
    stated_density : float [kg/m3]
        Density at which it is stated.
    density : float [kg/m3]
        Density of the snow to be cut.
    power_share : float [1]
        Share of the engine's power that is left.
    Returns
    -------
    float [m3/s]
        Output, measured in place.
    Validity: output in proportion to power and mass flow (own rule); no figure for the energy that hard snow takes to
    cut was found, so well-bonded snow may go slower still.
    Source: own_rule.

    >>> round(3600 * output_at_density(500 / 3600, 400.0, 500.0, 0.8))
    320
    """
    return output * stated_density / density * power_share


def travel_speed(output: float, width: float, depth: float) -> float:
    """Give the speed at which a miller must travel to cut its full output.

    v = Q/(w d)

    Parameters
    ----------
    output : float [m3/s]
        Output, measured in place.
    width : float [m]
        Width of the run.
    depth : float [m]
        Depth of the pass.
    Returns
    -------
    float [m/s]
        Speed along the run.
    Validity: width and depth above 0.
    Source: statics.

    >>> round(60 * travel_speed(400 / 3600, 2.6, 1.0), 2)
    2.56
    """
    return output / (width * depth)


def pass_time(volume: float, output: float, runs: int, turning_time: float) -> float:
    """Give the machine time of one pass: cutting, and one turn or backing up for every run.

    t = V/Q + n t_turn

    Parameters
    ----------
    volume : float [m3]
        Snow in place taken out by the pass.
    output : float [m3/s]
        Output in that snow, measured in place.
    runs : int [1]
        Runs side by side.
    turning_time : float [s]
        Time to turn or back up for the next run.
    Returns
    -------
    float [s]
        Machine time.
    Validity: output above 0; waiting for weather, fuel and crew is not in it.
    Source: own_rule.

    >>> round(pass_time(200.0, 400 / 3600, 2, 360.0) / 3600, 2)
    0.7
    """
    return volume / output + runs * turning_time


def rethrow_time(mass: float, output: float, stated_density: float, power_share: float = 1.0) -> float:
    """Give the time in which a second miller throws snow that a first one has thrown to it.

    t = m/(Q_stated rho_stated s)

    Parameters
    ----------
    mass : float [kg]
        Mass thrown a second time.
    output : float [m3/s]
        Stated output of the second miller, measured in place.
    stated_density : float [kg/m3]
        Density at which it is stated.
    power_share : float [1]
        Share of the engine's power that is left.
    Returns
    -------
    float [s]
        Machine time of the second miller.
    Validity: loose snow is taken up no faster, by mass, than snow in place (own rule, on the safe side).
    Source: own_rule.

    >>> round(rethrow_time(160000.0, 500 / 3600, 400.0, 0.8) / 3600, 2)
    1.0
    """
    return mass / (output * stated_density * power_share)


def working_hours_per_day(shift_length: float, shifts_per_day: int, turning_share: float) -> float:
    """Give the hours a day in which a machine really cuts.

    h = min(24, shift_length shifts_per_day) turning_share

    Parameters
    ----------
    shift_length : float [h/day]
        Length of a shift.
    shifts_per_day : int [1]
        Shifts a day.
    turning_share : float [1]
        Share of a shift left after fuelling, greasing and change of crew.
    Returns
    -------
    float [h/day]
        Hours a day.
    Validity: turning_share between 0 and 1.
    Source: statics.

    >>> working_hours_per_day(12.0, 2, 0.75)
    18.0
    """
    return min(24.0, shift_length * shifts_per_day) * turning_share


def season_hours(days: float, outdoor_share: float, hours_per_day: float, machines: int) -> float:
    """Give the machine hours that a season offers.

    h = days outdoor_share hours_per_day machines

    Parameters
    ----------
    days : float [day]
        Days of the season, first and last counted.
    outdoor_share : float [1]
        Share of days on which outdoor work is possible.
    hours_per_day : float [h/day]
        Hours a day in which a machine really cuts.
    machines : int [1]
        Machines of the kind.
    Returns
    -------
    float [h]
        Machine hours.
    Validity: the mean; a bad season has fewer days.
    Source: statics.

    >>> season_hours(100, 0.8, 18.0, 2)
    2880.0
    """
    return days * outdoor_share * hours_per_day * machines
