"""Values of rows as the trade writes them, with their unit: read once into SI."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator

from axlewright.quantities.units import parse


def _typed(kind: str) -> BeforeValidator:
    def read(value: Any) -> Any:
        return parse(value, kind).si if isinstance(value, str) else value

    return BeforeValidator(read)


Length = Annotated[float, _typed("length")]
Stress = Annotated[float, _typed("pressure")]
Torque = Annotated[float, _typed("torque")]
Force = Annotated[float, _typed("force")]
Hours = Annotated[float, _typed("duration")]
Mass = Annotated[float, _typed("mass")]
Volume = Annotated[float, _typed("volume")]
Density = Annotated[float, _typed("density")]
Stiffness = Annotated[float, _typed("stiffness")]
Angle = Annotated[float, _typed("angle")]
