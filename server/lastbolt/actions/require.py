"""A job that is asked for must be here."""

from __future__ import annotations

from difflib import get_close_matches

from ..errors import NotFoundError
from ..said import said
from ..state.job import Job
from .ports import KnownJob, LookUp


def require_job(look_up: LookUp, job: str) -> KnownJob:
    """Give a job.

    Raises:
        NotFoundError: no entry names it.
    """
    known = look_up.job(job)
    if known is None:
        raise no_such_job(job)
    return known


def no_such_job(job: str) -> NotFoundError:
    """Give the refusal of a job that no entry names."""
    return NotFoundError(said("there is no job {job} here; look at the list of jobs", job=repr(job[:120])))


def require_element(job: Job, name: str) -> None:
    """Refuse a name that nothing of the job has.

    Raises:
        NotFoundError: names what comes nearest.
    """
    known = [*job.sets, *job.parts, *job.connections, *job.openings, *job.tests, *job.settings]
    if name not in known:
        near = ", ".join(get_close_matches(name, known, n=3, cutoff=0.4))
        none = said(
            "the job {job} has no set, part, connection or opening {name}", job=job.name, name=repr(name)
        )
        raise NotFoundError(said("{none}; near it: {near}", none=none, near=near) if near else none)
