"""The route of a wrench with an adapter: what to set, and a drawing of L, E and the angle."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query

from ..torque.adapter import Adapter, setting_for_adapter
from ..torque.adapter_drawing import CAUTION, draw_adapter
from ..torque.specification import SOURCE_REMINDER
from ..units import Degrees, Millimetres, NewtonMetres
from .wire import Wire

router = APIRouter(prefix="/api/torque", tags=["torque"])


class AdapterSetting(Wire):
    """What to set on a wrench that works through an adapter; `svg` holds no styles, scripts or ids."""

    setting_nm: float
    svg: str
    cautions: list[str]


@router.get("/adapter", operation_id="getAdapterSetting")
def get_adapter(
    wanted_nm: Annotated[float, Query(ge=0.1, le=3000, description="at the fastener")],
    lever_mm: Annotated[
        float, Query(gt=0, le=5000, description="L: middle of the grip to middle of the drive")
    ],
    extension_mm: Annotated[float, Query(ge=-2000, le=2000, description="E: drive to fastener")],
    angle_deg: Annotated[float, Query(ge=0, le=360)] = 0.0,
) -> AdapterSetting:
    """Give what to set so that the fastener gets the wanted torque, with the drawing to measure by."""
    adapter = Adapter(Millimetres(lever_mm), Millimetres(extension_mm), Degrees(angle_deg))
    wanted = NewtonMetres(wanted_nm)
    return AdapterSetting(
        setting_nm=setting_for_adapter(wanted, adapter),
        svg=draw_adapter(adapter, wanted),
        cautions=[CAUTION, SOURCE_REMINDER],
    )
