"""A job that is asked for must be here."""

from __future__ import annotations

from ..errors import NotFoundError
from .ports import KnownJob, LookUp


def require_job(look_up: LookUp, job: str) -> KnownJob:
    """Give a job.

    Raises:
        NotFoundError: no entry names it.
    """
    known = look_up.job(job)
    if known is None:
        raise NotFoundError(f"there is no job {job[:120]!r} here; `lastbolt jobs` lists them")
    return known
