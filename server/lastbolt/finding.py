"""A finding: what is wrong with which thing, how grave, on what evidence, and what to do now."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import datetime
from enum import StrEnum

from .journal.entries import AnyEntry
from .said import said
from .state.fastener_set import Act
from .state.job import Job


class Severity(StrEnum):
    """How much a finding stands in the way of release."""

    STOP = "stop"
    DECIDE = "decide"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Evidence:
    """The entries and photos that a finding rests on, and when the newest of all was known (`Act.known`)."""

    entries: tuple[str, ...] = ()
    photos: tuple[str, ...] = ()
    newest: tuple[datetime, int] | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault of one subject.

    `waivable` is false for what no word can lift; a waivable stop can be deferred with limit, barrier and a
    second name. `key` stays the same while the fault is the same; decisions hold on to it.
    """

    check: str
    severity: Severity
    subject: str
    sentence: str
    to_do: str
    waivable: bool = True
    evidence: Evidence = field(default_factory=Evidence)
    holes: tuple[int, ...] = ()
    variant: str = ""

    @property
    def key(self) -> str:
        """Name the fault: check, subject and, where one subject can have two faults of a check, which.

        >>> Finding("hole-empty", Severity.STOP, "COVER", "1 hole is empty.", "Fit it.").key
        'hole-empty/COVER'
        """
        return "/".join(part for part in (self.check, self.subject, self.variant) if part)

    def named(self, check: str) -> Finding:
        """Give the same finding under its check's name."""
        return replace(self, check=check)


DEFERRAL = "deferral of"
"""Begins the variant of a finding that speaks of the lead's word on another; the other's check follows."""

MOST_ENTRIES = 20
"""So many entries are named as evidence."""

GRAVITY = {Severity.STOP: 0, Severity.DECIDE: 1, Severity.NOTE: 2}


def worst_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Sort: what nothing can lift, other stops, what needs a word, notes; then by check and subject."""
    return tuple(
        sorted(findings, key=lambda f: (GRAVITY[f.severity], f.waivable, f.check, f.subject, f.variant))
    )


@dataclass(frozen=True, slots=True)
class Case:
    """What a check looks at: one job, the shop's other jobs, and what was asked.

    `asking` is "release", "start" (about to turn or start it) or "live" (one entry just came in; checks then
    speak only of what that entry brought up). `at` is the moment of asking.
    """

    job: Job
    others: tuple[Job, ...] = ()
    asking: str = "release"
    just: AnyEntry | None = None
    at: datetime | None = None

    @property
    def is_live(self) -> bool:
        """Tell whether one entry just came in."""
        return self.asking == "live"

    def photos_of(self, *names: str) -> tuple[str, ...]:
        """List the photos linked to elements, oldest first, at most six."""
        found = dict.fromkeys(photo for name in names for photo in self.job.photos_of.get(name, ()))
        return tuple(found)[-6:]


def evidence(*acts: Act | None, photos: Iterable[str] = (), most: int = MOST_ENTRIES) -> Evidence:
    """Gather entries and photos: of many acts the newest, in the order given.

    The lead's word is measured against the newest of all that are given: give every act that the fault rests
    on, not only those worth showing.
    """
    known = {act.entry: act for act in acts if act is not None}
    newest_last = sorted(known.values(), key=lambda act: act.known)
    shown = {act.entry for act in newest_last[-most:]}
    told = [act for act in known.values() if act.entry in shown]
    pictures = tuple(dict.fromkeys([*(p for act in told for p in act.photos), *photos]))
    newest = newest_last[-1].known if newest_last else None
    return Evidence(tuple(act.id for act in told), pictures, newest)


def stop(subject: str, sentence: str, *, to_do: str, proof: Evidence, never: bool = False) -> Finding:
    """Make a finding that stops release; with `never` no word can lift it."""
    return Finding("", Severity.STOP, subject, sentence, to_do, waivable=not never, evidence=proof)


def decide(subject: str, sentence: str, *, to_do: str, proof: Evidence) -> Finding:
    """Make a finding that needs the lead's written word."""
    return Finding("", Severity.DECIDE, subject, sentence, to_do, evidence=proof)


def note(subject: str, sentence: str, *, to_do: str, proof: Evidence) -> Finding:
    """Make a finding that stops nothing."""
    return Finding("", Severity.NOTE, subject, sentence, to_do, evidence=proof)


def pieces(n: int, thing: str) -> str:
    """Write a count with its noun.

    >>> pieces(1, "bolt"), pieces(3, "hole")
    ('1 bolt', '3 holes')
    """
    return said("1 " + thing) if n == 1 else said("{n} " + thing + "s", n=n)


def items(n: int, name: str) -> str:
    """Write a count with somebody's own name for a thing.

    >>> items(2, "blue rag")
    '2 blue rags'
    """
    return said("1 {name}" if n == 1 else "{n} {name}s", n=n, name=name)


def are(n: int) -> str:
    """Give the verb that goes with a count."""
    return said("is" if n == 1 else "are")


def numbers(holes: Iterable[int]) -> str:
    """Write hole numbers in order.

    >>> numbers([3, 1])
    '1, 3'
    """
    return ", ".join(str(n) for n in sorted(holes))
