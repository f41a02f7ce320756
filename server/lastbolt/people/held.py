"""Entries held until a lead has looked at them: kept, let in, discarded; none is lost and none slips in."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import replace
from uuid import UUID

from ..errors import BadInputError, NotFoundError, WaitError
from ..journal import AnyEntry, Raw, canonical
from ..roster import Deed, HeldEntry
from ..said import said
from .corrections import LEAST_REASON
from .ports import Clock, Rows, written

MOST_HELD = 20_000
"""So many entries of one device are held; a phone in wrong hands cannot fill the disk."""
Record = Callable[[str, Raw], object]
"""Puts one entry into the journal of its job."""


class Held:
    """Keeps held entries and settles them."""

    def __init__(self, rows: Rows, clock: Clock) -> None:
        self._rows, self._clock = rows, clock

    def hold(self, job: str, entries: Sequence[tuple[Raw, AnyEntry, str]]) -> None:
        """Keep entries of one job apart from the journal; keeping one twice keeps one.

        Raises:
            BadInputError: an entry names another job.
            WaitError: the device has more held than will be looked at.
        """
        if not entries:
            return
        if other := next((e.job for _, e, _ in entries if e.job != job), None):
            raise BadInputError(
                said("an entry names the job {other}, not {job}; send it there", other=other, job=job)
            )
        device, received = entries[0][1].device, written(self._clock())
        if len(self._rows.held.waiting(device)) + len(entries) > MOST_HELD:
            raise WaitError(
                said(
                    "{device} has {n} entries waiting for a lead; settle those first.",
                    device=device,
                    n=MOST_HELD,
                )
            )
        self._rows.held.hold(
            [
                HeldEntry(str(e.id), e.job, e.device, e.by, why, received, canonical(raw).decode())
                for raw, e, why in entries
            ]
        )

    def waiting(self) -> list[HeldEntry]:
        """Give what nobody has settled yet, in the order in which it came."""
        return list(self._rows.held.waiting())

    def waiting_in(self, job: str, device: str) -> int:
        """Count what nobody has settled yet of a device's entries of a job."""
        return sum(row.job == job for row in self._rows.held.waiting(device))

    def let_in(self, entry: UUID, *, by: str, record: Record) -> HeldEntry:
        """Put a held entry into the journal as it came, and give it."""
        row = self._waiting(entry)
        record(row.job, json.loads(row.raw))
        self._settle(row, "let in", by=by, reason=None)
        return row

    def discard(self, entry: UUID, *, by: str, reason: str) -> HeldEntry:
        """Keep an entry out of the journal for good, and give it; it stays among the held with the reason.

        Raises:
            BadInputError: the reason is too short.
        """
        if len(reason.strip()) < LEAST_REASON:
            raise BadInputError(said("give a reason of at least {n} characters", n=LEAST_REASON))
        row = self._waiting(entry)
        self._settle(row, "discarded", by=by, reason=reason.strip())
        return row

    def _waiting(self, entry: UUID) -> HeldEntry:
        row = self._rows.held.one(str(entry))
        if row is None or row.settled:
            raise NotFoundError("no such entry is held; somebody may have settled it already")
        return row

    def _settle(self, row: HeldEntry, outcome: str, *, by: str, reason: str | None) -> None:
        now = written(self._clock())
        self._rows.held.settle(replace(row, settled=now, settled_by=by, outcome=outcome, reason=reason))
        self._rows.people.write_deed(Deed(now, by, f"held entry {outcome}", f"{row.id} of {row.device}"))
