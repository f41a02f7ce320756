"""What the API says of itself, as committed beside the page: `python -m lastbolt.web.contract`."""

from __future__ import annotations

import json
import sys

from fastapi import FastAPI

from .. import __version__
from . import (
    arriving,
    backup,
    entries,
    events,
    hand,
    jobs,
    label_sheets,
    labels,
    lead,
    one_job,
    people,
    phones,
    photos,
    pocket,
    reach,
    readings,
    schema,
    sessions,
    torque,
)
from .desk_rooms import DESK_ROOMS

ROOMS = (
    sessions,
    people,
    phones,
    hand,
    jobs,
    entries,
    events,
    photos,
    arriving,
    label_sheets,
    labels,
    torque,
    pocket,
    reach,
    lead,
    schema,
    readings,
    backup,
    one_job,
)
"""In this order: the address of one job is the beginning of the others, so it comes last."""


def install(app: FastAPI) -> None:
    """Give an application all routes of the API."""
    for room in (*DESK_ROOMS, *ROOMS):
        app.include_router(room.router)


def contract() -> str:
    """Write the OpenAPI description, always the same for the same routes."""
    app = FastAPI(title="Lastbolt", version=__version__)
    install(app)
    return json.dumps(app.openapi(), indent=2, sort_keys=True, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    sys.stdout.write(contract())
