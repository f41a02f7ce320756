"""How long somebody waits after failed tries; pure.

Three budgets are kept: for one person at one place, for a place, and for one person from everywhere. A place
is a device on which that person was signed in before, else an address. The last budget does not hold up the
devices that the person was signed in on: no stranger can keep anybody from working by typing wrong PINs.
OWASP's authentication advice asks for growing delays and a count per account; NIST SP 800-63B (3.2.2) for no
more than 100 failed tries in a row on an account (both from memory of the texts).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

FORGOTTEN_AFTER = timedelta(hours=24)


@dataclass(frozen=True, slots=True)
class Budget:
    """So many tries are free; then a wait that doubles up to the longest; locked for good after a number."""

    free: int
    first: timedelta
    longest: timedelta
    locked_after: int | None = None


HERE = Budget(5, timedelta(seconds=15), timedelta(minutes=15))
PLACE = Budget(20, timedelta(seconds=15), timedelta(minutes=15))
EVERYWHERE = Budget(20, timedelta(minutes=1), timedelta(hours=1), locked_after=100)


@dataclass(frozen=True, slots=True)
class Tries:
    """How many tries failed in a row, and when the last one was."""

    failed: int = 0
    last: datetime | None = None


def after(tries: Tries, now: datetime, budget: Budget) -> Tries:
    """Count one more failed try; an old row of failures is forgotten, a lock is not."""
    return Tries(_standing(tries, now, budget) + 1, now)


def wait(tries: Tries, now: datetime, budget: Budget) -> timedelta | None:
    """Give how long to wait before the next try: zero for now, None for until a lead clears it.

    >>> wait(Tries(6, datetime(2026, 1, 1)), datetime(2026, 1, 1), HERE)
    datetime.timedelta(seconds=15)
    """
    failed = _standing(tries, now, budget)
    if budget.locked_after is not None and failed >= budget.locked_after:
        return None
    if failed <= budget.free or tries.last is None:
        return timedelta(0)
    doubled: timedelta = budget.first * 2 ** min(failed - budget.free - 1, 20)
    until = tries.last + min(doubled, budget.longest)
    return max(timedelta(0), until - now)


def _standing(tries: Tries, now: datetime, budget: Budget) -> int:
    locked = budget.locked_after is not None and tries.failed >= budget.locked_after
    old = tries.last is not None and now - tries.last > FORGOTTEN_AFTER
    return 0 if old and not locked else tries.failed
