"""Routes about torque: the sheet of a job, and reading a torque as typed."""

from __future__ import annotations

from fastapi import APIRouter

from ..actions.torque import ReadSpec, spec_from_text
from ..errors import BadInputError
from ..torque.assembly import ESTIMATE_MARK
from ..torque.quantity import Quantity
from ..torque.specification import SOURCE_REMINDER
from . import torque_wire as wire
from .desk import AtDesk

router = APIRouter(tags=["torque"])


@router.get("/api/jobs/{job:path}/torque", operation_id="getTorqueSheet")
def get_torque_sheet(job: str, desk: AtDesk) -> wire.TorqueSheet:
    """Give what is asked, pulled and open of every set with a value; the wrenches are judged for today."""
    return wire.TorqueSheet.model_validate(desk.torque(job), from_attributes=True)


@router.post("/api/torque/read", operation_id="readTorque")
def read_torque(typed: wire.TorqueText) -> wire.TorqueRead:
    """Read a torque as typed, with warnings; it is refused in one sentence where it cannot be read."""
    read = spec_from_text(typed.text, thread=typed.thread, class_name=typed.property_class)
    if not isinstance(read, ReadSpec):
        raise BadInputError(read.reason)
    return wire.TorqueRead(
        quantities=[_quantity(each) for each in read.written.quantities],
        fields=read.fields,
        warnings=list(read.warnings),
        cautions=[SOURCE_REMINDER, ESTIMATE_MARK],
    )


def _quantity(each: Quantity) -> wire.TorqueQuantity:
    return wire.TorqueQuantity(
        text=each.text,
        unit=each.unit.value,
        low=float(each.low),
        high=float(each.high),
        low_nm=float(each.low_newton_metres),
        high_nm=float(each.high_newton_metres),
    )
