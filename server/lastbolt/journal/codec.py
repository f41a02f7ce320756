"""Entries as text and back: JSON, canonical bytes (RFC 8785), and plain reasons when a line is no entry."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

import rfc8785
from pydantic import ValidationError

from ..errors import BadInputError
from ..said import said
from .entries import ENTRY, AnyEntry, kinds

Raw = dict[str, Any]
"""An entry as it came: a JSON object. It is what is stored, so unknown fields survive."""


def canonical(raw: Raw) -> bytes:
    """Give the RFC 8785 bytes of a JSON object.

    >>> canonical({"b": 1.0, "a": "x"})
    b'{"a":"x","b":1}'

    Raises:
        BadInputError: a value has no canonical form (NaN, infinity, a whole number above 2^53).
    """
    try:
        return rfc8785.dumps(raw)
    except rfc8785.CanonicalizationError as error:
        raise BadInputError(
            said("this entry cannot be written down exactly: {error}", error=error)
        ) from error
    except RecursionError as error:
        raise BadInputError("this entry is nested too deep to be written down") from error


def entry_from(raw: Raw) -> AnyEntry:
    """Read one JSON object as an entry.

    Raises:
        BadInputError: with every mistake named by its field, in one sentence.
    """
    try:
        return ENTRY.validate_python(raw)
    except RecursionError as error:
        raise BadInputError("this is no entry: it is nested too deep") from error
    except (ValidationError, TypeError, ValueError) as error:
        raise BadInputError(said("this is no entry: {mistakes}", mistakes=_mistakes(error, raw))) from error


def raw_from(entry: AnyEntry) -> Raw:
    """Give the JSON object of an entry, without the fields left at their defaults."""
    return entry.model_dump(mode="json", exclude_unset=True)


def raws_from_lines(lines: Iterable[str]) -> list[Raw]:
    """Read JSON Lines: bare entries, or stored lines that hold one under `entry`.

    Raises:
        BadInputError: names the first line that is no JSON object.
    """
    found: list[Raw] = []
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        try:
            value = json.loads(line)
        except RecursionError as error:
            raise BadInputError(
                said("line {number} is nested too deep; mend or remove that line", number=number)
            ) from error
        except ValueError as error:
            raise BadInputError(
                said(
                    "line {number} is no JSON: {error}; mend or remove that line", number=number, error=error
                )
            ) from error
        if not isinstance(value, dict):
            raise BadInputError(
                said("line {number} is no JSON object; each line holds one entry", number=number)
            )
        found.append(
            value["entry"] if isinstance(value.get("entry"), dict) and "kind" not in value else value
        )
    return found


def _mistakes(error: Exception, raw: object) -> str:
    if not isinstance(error, ValidationError):
        return str(error)
    kind = raw.get("kind") if isinstance(raw, dict) else None
    if kind not in kinds():
        return f"its kind {kind!r} is unknown; `lastbolt schema` lists the kinds"
    parts = []
    for mistake in error.errors(include_url=False):
        where = ".".join(str(step) for step in mistake["loc"] if step != kind) or "it"
        parts.append(f"{where}: {mistake['msg']}")
    return f"{kind}: " + "; ".join(parts[:8])
