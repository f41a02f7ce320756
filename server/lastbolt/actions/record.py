"""Record what happened: entries as a phone or a person wrote them, all of them or none."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from typing import Any

from ..errors import BadInputError, told
from ..journal import Line, Raw, entry_from
from ..said import joined, said
from .ports import Clock, Journal, Shop

DESK = "desk"
"""The device that entries made on this machine are from."""


def record(
    journal: Journal, clock: Clock, entries: Sequence[Raw], *, job: str | None = None
) -> Sequence[Line]:
    """Append whole entries of one job in their order and give their lines; nothing is filled in.

    An entry that is here already gives the line that it has. Without `job` they go to the job they name.

    Raises:
        BadInputError: names every entry that is unsound or of another job; nothing was recorded.
        ConflictError: an id is here with other content; nothing was recorded.
    """
    mistakes: list[str] = []
    named = job
    for number, raw in enumerate(entries, start=1):
        try:
            own = entry_from(raw).job
        except BadInputError as error:
            mistakes.append(said("entry {number}: {error}", number=number, error=told(error)))
            continue
        named = named or own
        if own != named:
            mistakes.append(
                said(
                    "entry {number}: it names the job {own}, not {named}; send it there",
                    number=number,
                    own=own,
                    named=named,
                )
            )
    if mistakes:
        more = [said("and {n} more", n=len(mistakes) - 5)] if len(mistakes) > 5 else []
        raise BadInputError(joined("; ", [*mistakes[:5], *more]))
    if named is None:
        raise BadInputError("there is no entry to record; send at least one")
    return journal.append(named, entries, received=received_text(clock()))


def record_here(shop: Shop, job: str, kind: str, *, by: str, fields: Mapping[str, Any]) -> Line:
    """Record one entry that a person states at this machine: its id, number and time are made here.

    Raises:
        BadInputError: the fields do not make an entry of that kind.
    """
    now = shop.clock()
    raw = {**fields, **envelope(shop, job, by=by, at=now), "kind": kind}
    entry_from({**raw, "seq": 1})
    return shop.journal.append_own(job, [raw], received=received_text(now))[0]


def fields_from(texts: Sequence[str]) -> dict[str, Any]:
    """Read FIELD=VALUE texts; a value is JSON where it can be, else plain text.

    >>> fields_from(["set=COVER", "n=6", "holes=[1,2]"])
    {'set': 'COVER', 'n': 6, 'holes': [1, 2]}

    Raises:
        BadInputError: a text has no name or no `=`.
    """
    fields: dict[str, Any] = {}
    for text in texts:
        name, sign, value = text.partition("=")
        if not sign or not name:
            raise BadInputError(said("{text} is no FIELD=VALUE; write it like n=6", text=repr(text)))
        try:
            fields[name] = json.loads(value)
        except (ValueError, RecursionError):
            fields[name] = value
    return fields


def envelope(shop: Shop, job: str, *, by: str, at: datetime, device: str = DESK) -> Raw:
    """Give what every entry made here carries, but for its number, which the journal gives."""
    return {
        "id": str(shop.new_id()),
        "job": job,
        "device": device,
        "at": at.isoformat(timespec="milliseconds"),
        "by": by,
    }


def received_text(now: datetime) -> str:
    """Write the time of arrival: RFC 3339 in UTC, to the millisecond.

    >>> received_text(datetime(2026, 3, 9, 8, 0, tzinfo=UTC))
    '2026-03-09T08:00:00.000Z'
    """
    return now.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
