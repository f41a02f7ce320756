"""The rooms of the API that the lead's desk asks, beside those of the jobs themselves."""

from __future__ import annotations

from . import board, handover, label_layouts, record, release

DESK_ROOMS = (board, handover, release, record, label_layouts)
