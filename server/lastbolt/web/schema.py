"""Routes about what the program itself knows: the schema of entries, the manual of checks."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from fastapi import APIRouter

from ..journal import ENTRY
from ..report.manual import manual
from . import wire

router = APIRouter(prefix="/api", tags=["schema"])


@router.get("/schema", operation_id="getSchema")
def get_schema() -> dict[str, Any]:
    """Give the schema that entries are held to; `lastbolt schema` prints the same."""
    return ENTRY.json_schema()


@router.get("/checks", operation_id="listChecks")
def list_checks() -> list[wire.CheckPage]:
    """Give the manual of the checks, made from their own words; `lastbolt checks` prints the same."""
    return [wire.CheckPage(**asdict(page)) for page in manual()]
