"""A later look by the same person (practice 5.10): how long after the work, and what lies between."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta

from .fastener_set import Act, FastenerSet
from .job import Job

LEAST_REST = timedelta(minutes=30)
"""A later look by the same person needs so long after the work."""
LEAST_NIGHT = timedelta(hours=6)
"""A night lies between when the date changed and so long went by; common practice, no source."""
SAME_PERSON = "re-look-same-person"


@dataclass(frozen=True, slots=True)
class LaterLook:
    """When the work was done, and when its own doer looks at it again; `elsewhere`: worked on another job."""

    done: datetime
    look: datetime
    elsewhere: bool = False

    @property
    def from_rest(self) -> datetime:
        """Give the moment from which it is late enough once another job lies between."""
        return self.done + LEAST_REST

    @property
    def from_night(self) -> datetime:
        """Give the moment from which a night lies between, by the clock of whoever did the work."""
        midnight = datetime.combine(self.done.date() + timedelta(days=1), time(0), self.done.tzinfo)
        return max(midnight, self.done + LEAST_NIGHT)

    @property
    def rested(self) -> bool:
        """Tell whether enough time went by."""
        return self.look >= self.from_rest

    @property
    def over_night(self) -> bool:
        """Tell whether a night lies between."""
        return self.look >= self.from_night

    @property
    def counts(self) -> bool:
        """Tell whether it is a later look: time went by, and a night or another job lies between."""
        return self.over_night or (self.rested and self.elsewhere)


def last_done(group: FastenerSet) -> Act | None:
    """Give the act that a look at a set must come after: the last tightening, else the last fitting.

    Without a value to pull, fitting tight is the last of it, whatever was pulled before.
    """
    if group.last_final is not None and group.has_value:
        return group.last_final
    ends = [*group.done, *([group.last_final] if group.last_final else [])]
    return max(ends, key=lambda act: act.when, default=None)


def tried_how(job: Job, group: FastenerSet, done: Act, look: Act) -> str:
    """Say what a look by the doer was more than a look: the torque tried again, or a photo taken since.

    A photo counts that was taken when the look was due, not one of the work itself; its angle is the looker's
    word. Where no value is owed there is no torque to try. Empty where it was a look alone.
    """
    if group.has_value and look.id in job.tried_again:
        return "torque"
    photos = [job.photos[name] for name in look.photos if name in job.photos]
    late = [each for each in photos if not each.rejected and each.act.time >= done.time + LEAST_REST]
    return "photo" if late else ""


def own_looks(job: Job) -> Iterator[tuple[FastenerSet, Act, Act]]:
    """Give for each set its newest good look by one who did it, after the doing: set, doing, look.

    One with a torque tried again or a new photo goes before one that was a look alone.
    """
    for name, looks in job.second_checks.items():
        group = job.sets.get(name)
        done = last_done(group) if group else None
        if group is None or done is None:
            continue
        own = [
            act
            for act, how, result in looks
            if how == SAME_PERSON and result == "good" and act.by in group.fitted_by and act.when >= done.when
        ]
        if own:
            yield group, done, _best(job, group, done, own)


def _best(job: Job, group: FastenerSet, done: Act, own: list[Act]) -> Act:
    return max(own, key=lambda act: (bool(tried_how(job, group, done, act)), act.when))


def was_elsewhere(others: Iterable[Job], person: str, done: datetime, look: datetime) -> bool:
    """Tell whether somebody was at the machine of another job between work and look; practice is no job."""
    return any(
        done < moment < look
        for job in others
        if not job.is_practice
        for moment in job.at_work.get(person, ())
    )


def days_between(done: datetime, look: datetime) -> Iterator[str]:
    """Name the days in UTC from work to look, as what ties jobs together writes them."""
    first = done.astimezone(UTC).date()
    days = (look.astimezone(UTC).date() - first).days
    yield from ((first + timedelta(days=n)).isoformat() for n in range(days + 1))


def day_of(moment: datetime) -> str:
    """Name the day of a moment in UTC."""
    return moment.astimezone(UTC).date().isoformat()
