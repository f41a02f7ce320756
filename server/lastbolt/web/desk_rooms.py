"""The rooms of the API that the lead's desk asks, beside those of the jobs themselves."""

from __future__ import annotations

from . import board, handover, review

DESK_ROOMS = (board, handover, review)
