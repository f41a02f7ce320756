"""A home for a lone bolt: measured by hand or in a photo, ranked against every open job (practice 8.1)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..errors import BadInputError
from ..finding import numbers
from ..journal.fastener_type import FastenerType
from ..state.fastener_set import FastenerSet, Reach
from ..state.job import Job
from ..state.ledger import UNKNOWN
from ..vision.match import Match, Measured, rank
from ..vision.outcome import Look
from .match_part import candidates, measured
from .verify import Bench


@dataclass(frozen=True, slots=True)
class Offer:
    """A set that a lone piece may be of: in which job, its type, a share among those shown, and why."""

    job: str
    set: str
    type: str
    share: float
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Orphan:
    """One lone piece as measured, and at most three homes for it, the likeliest first."""

    measured: Measured
    offers: tuple[Offer, ...]


def homes_for_measured(bench: Bench, job_name: str, piece: Measured) -> Orphan:
    """Rank the sets of a job and of the shop's other open jobs for one piece measured by hand.

    Raises:
        NotFoundError: no entry names that job.
        BadInputError: nothing was measured.
    """
    if piece.shank_mm is None and piece.length_mm is None and piece.head_mm is None:
        raise BadInputError("nothing was measured; give thickness and length in millimetres")
    return _home(_open_jobs(bench, job_name), piece)


def homes_in_photo(bench: Bench, job_name: str, seen: Look) -> tuple[Orphan, ...]:
    """Rank homes for every piece that a photo shows beside a label or on a count mat.

    Raises:
        NotFoundError: no entry names that job.
        BadInputError: no piece is seen in it, with the way out.
    """
    jobs = _open_jobs(bench, job_name)
    if not seen.parts:
        raise BadInputError("no piece was seen; lay it alone beside a label, or type thickness and length")
    return tuple(_home(jobs, measured(part)) for part in seen.parts)


def _open_jobs(bench: Bench, job_name: str) -> tuple[Job, ...]:
    """Give the job itself first, then the others that are neither released nor ended."""
    return (bench.state(job_name), *bench.open_beside(job_name))


def _home(jobs: Iterable[Job], piece: Measured) -> Orphan:
    known = [(job, *row) for job in jobs for row in candidates(job, piece.head_mm)]
    rows = {id(candidate): (job, group, kind) for job, group, kind, candidate in known}
    found = rank(piece, [candidate for *_, candidate in known])
    return Orphan(piece, tuple(_offer(match, *rows[id(match.candidate)], piece) for match in found))


def _offer(match: Match, job: Job, group: FastenerSet, kind: FastenerType, piece: Measured) -> Offer:
    reasons = (*_fits(match, piece), *_missing(job, group))
    return Offer(job.name, group.name, str(kind), match.share, reasons)


def _fits(match: Match, piece: Measured) -> list[str]:
    rows = (
        ("length", piece.length_mm, match.candidate.length_mm),
        ("thickness", piece.shank_mm, match.candidate.shank_mm),
        ("head", piece.head_mm, match.candidate.head_mm),
    )
    return [
        f"{name} {got:.1f} mm, it has {has:g}"
        for name, got, has in rows
        if got is not None and has is not None
    ]


def _missing(job: Job, group: FastenerSet) -> list[str]:
    empty = [hole.number for hole in group.of_reach(Reach.EMPTY)]
    unknown = job.ledger.balance(UNKNOWN, group.name)
    lost = sum(loss.n for loss in job.losses.values() if loss.closed is None and loss.set == group.name)
    said = [f"hole {numbers(empty)} stands empty"] * (len(empty) == 1)
    said += [f"holes {numbers(empty)} stand empty"] * (len(empty) > 1)
    said += [f"{unknown} of it went nobody knows where"] * bool(unknown)
    said += [f"{lost} of it lost"] * bool(lost)
    return said or ["none of it is missing by the record"]
