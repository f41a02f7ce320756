"""Steps that usually go wrong: how often, over past jobs of the same kind, never by person (practice 8.8)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from ..finding import Finding
from ..state.job import Job

PRIOR_TROUBLES, PRIOR_CLEAN = 1, 19
"""Beta(1, 19): before anything is known, one step in twenty goes wrong; a guess, to be tuned."""
SHOWN_ABOVE = 0.10
SHOWN_FROM = 3


@dataclass(frozen=True, slots=True)
class PastJob:
    """What was worked on in a past job, and what went wrong: pairs of element and check, near misses too."""

    worked_on: frozenset[str]
    troubles: frozenset[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class UsualTrouble:
    """What goes wrong with an element, in `times` of `jobs`; `rate` is the mean of Beta(1, 19) after that."""

    element: str
    check: str
    times: int
    jobs: int
    rate: float

    @property
    def sentence(self) -> str:
        """Say it in one sentence.

        >>> UsualTrouble("RW PUMP GASKET", "old-seal-or-consumable", 2, 5, 0.12).sentence
        'RW PUMP GASKET: old seal or consumable in 2 of 5 jobs.'
        """
        return f"{self.element}: {self.check.replace('-', ' ')} in {self.times} of {self.jobs} jobs."


def rate_of(times: int, jobs: int) -> float:
    """Give the mean of Beta(1, 19) after `times` troubles in `jobs` jobs.

    >>> rate_of(0, 0), rate_of(2, 5)
    (0.05, 0.12)
    """
    return (PRIOR_TROUBLES + times) / (PRIOR_TROUBLES + PRIOR_CLEAN + jobs)


def past_job(job: Job, raised: Iterable[Finding]) -> PastJob:
    """Take from a finished job what was worked on and what was ever raised about it, cured or not."""
    worked_on = frozenset({*job.touched, *job.renewals, *job.tests, *job.holds})
    return PastJob(worked_on, frozenset((f.subject, f.check) for f in raised if f.subject in worked_on))


def rates(past: Iterable[PastJob]) -> tuple[UsualTrouble, ...]:
    """Give every trouble that ever came up with its rate, the most frequent first."""
    seen = list(past)
    done = Counter(element for job in seen for element in job.worked_on)
    wrong = Counter(trouble for job in seen for trouble in job.troubles)
    found = [
        UsualTrouble(element, check, times, done[element], rate_of(times, done[element]))
        for (element, check), times in wrong.items()
    ]
    return tuple(sorted(found, key=lambda t: (-t.rate, t.element, t.check)))


def usual_trouble(past: Iterable[PastJob]) -> tuple[UsualTrouble, ...]:
    """Give the troubles worth showing: over one in ten, in an element done at least three times."""
    return tuple(t for t in rates(past) if t.rate > SHOWN_ABOVE and t.jobs >= SHOWN_FROM)
