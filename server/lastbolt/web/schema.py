"""The route that gives the JSON Schema of every entry kind."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter

from ..journal import ENTRY

router = APIRouter(prefix="/api", tags=["schema"])


@router.get("/schema", operation_id="getSchema")
def get_schema() -> dict[str, Any]:
    """Give the schema that entries are held to; `lastbolt schema` prints the same."""
    return ENTRY.json_schema()
