"""Somebody did or signed what needs a licence or a role.

What it finds: licensed work (critical sets, sets with a value) by somebody without that licence on that
    day and no countersign by a holder; a release signed by somebody who is no lead.

Why it matters: the rules of the shop and the law ask who did it.

Example: a helper torqued the induction of an aircraft.

How to clear it: a holder of the licence looks and countersigns; the right person signs.

Silent when: the job has no licensed work; the person's roles are not on record; a person with the role
    "licensed" of whom no licence is on record counts as a holder.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, stop
from ..said import said
from ..state.fastener_set import Act, FastenerSet
from ..state.job import Job
from ..state.later_look import last_done

LEVEL = 3
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each doer without a licence the job asks for, and a signer without the role."""
    job = case.job
    licensed: set[str] = set(job.opened.licensed) if job.opened else set()
    if licensed:
        for group in job.sets.values():
            if not group.critical and not group.has_value:
                continue
            lacking = sorted({a.by for a in _doings(group) if not _holds(job, a, licensed)})
            since = last_done(group)
            counter = [
                act
                for act, _, result in job.second_checks.get(group.name, [])
                if _holds(job, act, licensed)
                and result == "good"
                and (since is None or act.when >= since.when)
            ]
            if lacking and not counter:
                yield stop(
                    group.name,
                    said(
                        "{set} was done by {people}, without the licence this job asks for ({licences}).",
                        set=group.name,
                        people=", ".join(lacking),
                        licences=", ".join(sorted(licensed)),
                    ),
                    to_do="A holder of the licence looks and countersigns. Local law decides, not this record.",
                    proof=evidence(group.last_final, photos=case.photos_of(group.name)),
                    never=True,
                )
    signer = job.released
    if signer is not None and signer.by in job.people and "lead" not in job.people[signer.by]:
        yield stop(
            signer.by,
            said("{who} signed the release and is no lead.", who=signer.by),
            to_do="A lead reviews it and signs, or withdraws it.",
            proof=evidence(signer),
            never=True,
        )


def _doings(group: FastenerSet) -> Iterator[Act]:
    yield from group.done
    yield from (pull.act for pull in group.tightened)


def _holds(job: Job, act: Act, licensed: set[str]) -> bool:
    held = job.licences.get(act.by, {})
    if not held and "licensed" in job.people.get(act.by, ()):
        return True
    return all(name in held and held[name] >= act.time.date() for name in licensed)
