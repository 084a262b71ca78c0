"""How a field of the station file is declared: once, with kind, help, limits and default."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from firnstead.core.units import parse


@dataclass(frozen=True)
class Quantity:
    """Marks a number that is written with a unit and kept in SI; `unit` is the SI unit (``1`` for a share)."""

    unit: str

    def __get_pydantic_core_schema__(self, kind: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Read the text before pydantic sees the number."""
        return core_schema.no_info_before_validator_function(lambda value: parse(value, self.unit), handler(kind))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """A text with a unit; a share may be a bare number."""
        return {"type": ["string", "number"] if self.unit == "1" else "string", "unit": self.unit}


Length = Annotated[float, Quantity("m")]
Volume = Annotated[float, Quantity("m3")]
Mass = Annotated[float, Quantity("kg")]
Time = Annotated[float, Quantity("s")]
Speed = Annotated[float, Quantity("m/s")]
FlowRate = Annotated[float, Quantity("m3/s")]
Density = Annotated[float, Quantity("kg/m3")]
Stress = Annotated[float, Quantity("Pa")]
Temperature = Annotated[float, Quantity("K")]
TemperatureDifference = Annotated[float, Quantity("dK")]
Angle = Annotated[float, Quantity("deg")]
HoursPerDay = Annotated[float, Quantity("h/day")]
Share = Annotated[float, Quantity("1")]
MassFlow = Annotated[float, Quantity("kg/s")]
Area = Annotated[float, Quantity("m2")]
Power = Annotated[float, Quantity("W")]
Energy = Annotated[float, Quantity("J")]
Force = Annotated[float, Quantity("N")]
HeatOfCombustion = Annotated[float, Quantity("J/kg")]
Radiation = Annotated[float, Quantity("W/m2")]
Extinction = Annotated[float, Quantity("m2/kg")]
Conductivity = Annotated[float, Quantity("W/m/K")]
HeatTransmission = Annotated[float, Quantity("W/m2/K")]
Rate = Annotated[float, Quantity("1/s")]
EnergyPerVolume = Annotated[float, Quantity("J/m3")]
Voltage = Annotated[float, Quantity("V")]
Current = Annotated[float, Quantity("A")]
ApparentPower = Annotated[float, Quantity("VA")]
LineResistance = Annotated[float, Quantity("ohm/m")]
LinearPower = Annotated[float, Quantity("W/m")]
Conductance = Annotated[float, Quantity("W/K")]
SpecificHeat = Annotated[float, Quantity("J/kg/K")]
LinearMass = Annotated[float, Quantity("kg/m")]
MolarEnergy = Annotated[float, Quantity("J/mol")]
Pieces = Annotated[int, Field(ge=0, le=1_000_000)]


class Part(BaseModel):
    """A part of the station file: no unknown keys, never changed once read."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def say(
    help: str,
    *,
    low: float | None = None,
    high: float | None = None,
    above: float | None = None,
    mark: str = "",
    **more: Any,
) -> Any:
    """Declare a field: what it is, its limits in SI, and a default (SI) where it may be left out.

    `mark` is the source key of a default value.
    """
    return Field(
        description=help, ge=low, le=high, gt=above, json_schema_extra={"mark": mark} if mark else None, **more
    )
