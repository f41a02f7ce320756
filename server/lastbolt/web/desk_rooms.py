"""The rooms of the API that the lead's desk asks, beside those of the jobs themselves."""

from __future__ import annotations

from . import (
    adapter,
    auditor,
    board,
    handover,
    label_layouts,
    record,
    release,
    search,
    statistics,
    take_along,
)

DESK_ROOMS = (
    board,
    handover,
    release,
    record,
    take_along,
    search,
    statistics,
    auditor,
    label_layouts,
    adapter,
)
