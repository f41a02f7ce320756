"""Ask for release, sign it with a PIN, take it back: every step is an entry, and what was signed is kept."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from threading import RLock
from typing import Any

from ..errors import BadInputError, ConflictError
from ..journal import Line, canonical
from ..journal.checking import ReleaseAsked
from ..paper.page import Print
from ..report.release_document import (
    KeptRelease,
    Signing,
    papers_document,
    record_text,
    release_document,
)
from ..report.release_record import release_record
from ..report.release_rules import (
    LEAST_REASON,
    Signers,
    against_signers,
    against_word,
    in_the_way,
    last_work,
    stands_alone,
    statement,
)
from ..said import joined, said
from ..state.job import Job
from .check_set import check_set_hash
from .papers import PAPERS, draw_sheet, link_to, pictures_of, printed_at
from .ports import Shop
from .record import received_text, record_here
from .release_ports import Confirming, Releases, Signer
from .release_source import source_from
from .require import require_job
from .verify import Bench, View

SLIPPED_IN = "another entry came in while it was being signed"
_ONE_AT_A_TIME = RLock()


@dataclass(frozen=True, slots=True)
class ReleaseRoom:
    """What releasing works with; `address` is what the printed symbol leads to."""

    shop: Shop
    bench: Bench
    releases: Releases
    signer: Signer
    people: Confirming
    address: str | None = None
    one_person: bool = False


@dataclass(frozen=True, slots=True)
class Standing:
    """How a release stands: what is in the way, what speaks against the signers, what to say."""

    view: View
    in_the_way: tuple[str, ...]
    against: tuple[str, ...]
    statement: str
    asked_at: datetime | None
    kept: KeptRelease | None
    no_longer: str


@dataclass(frozen=True, slots=True)
class Wish:
    """Who signs with which PIN, who else stands for it, and the statement that was read aloud."""

    by: str
    pin: str
    second: str | None = None
    second_pin: str = ""
    statement: str | None = None


def standing(room: ReleaseRoom, job: str, by: str = "", second: str | None = None) -> Standing:
    """Tell how a job's release stands, and whether these people may sign it.

    Raises:
        NotFoundError: no entry names that job.
    """
    finish(room, job)
    view, now = room.bench.view(job), room.shop.clock()
    asked = [e for e in room.bench.entries(job) if isinstance(e, ReleaseAsked)]
    state = view.job
    signers = _signers(room, state, by, second)
    kept = next((k for k in reversed(room.releases.of(job)) if state.released), None)
    return Standing(
        view=view,
        in_the_way=in_the_way(state, view.verdict, asked[-1] if asked else None, now),
        against=against_signers(state, signers, now, is_lead=room.people.is_lead(by)) if by else (),
        statement=statement(state, view.verdict, signers),
        asked_at=state.asked[-1].time if state.asked else None,
        kept=kept,
        no_longer=_no_longer(view, kept),
    )


def _signers(room: ReleaseRoom, state: Job, by: str, second: str | None) -> Signers:
    alone, done = room.one_person and second is None, last_work(state)
    elsewhere = (
        alone and done is not None and room.bench.was_elsewhere(state.name, by, done, room.shop.clock())
    )
    return Signers(by, second, one_person=alone, elsewhere=elsewhere)


def _no_longer(view: View, kept: KeptRelease | None) -> str:
    state = view.job
    if kept is None:
        return ""
    if state.changed_after_release is not None:
        act = state.changed_after_release
        return f"{act.by} worked on it after the release ({act.time:%Y-%m-%d %H:%M}); it no longer stands."
    return ""


def ask_release(room: ReleaseRoom, job: str, by: str, fields: Mapping[str, Any]) -> Line:
    """Record that release is asked for: the verdict is taken at this entry, and the look begins."""
    require_job(room.shop.look_up, job)
    return _record(room, job, by, "release-asked", fields)


def sign_release(room: ReleaseRoom, job: str, wish: Wish) -> KeptRelease:
    """Sign a release: nothing with a stop open, every word written, a PIN for each name.

    Raises:
        ConflictError: something is in the way; each thing in a sentence. Nothing was signed.
        BadInputError: a PIN does not fit.
        NotFoundError: no entry names that job.
    """
    require_job(room.shop.look_up, job)
    found = standing(room, job, wish.by, wish.second)
    if reasons := (*found.in_the_way, *found.against):
        raise ConflictError(said("Not signed. {reasons}", reasons=joined(" ", reasons)))
    by = room.people.confirm(wish.by, wish.pin)
    second = room.people.confirm(wish.second, wish.second_pin) if wish.second else None
    signers = _signers(room, found.view.job, by, second)
    fields: dict[str, Any] = {
        "statement": (wish.statement or found.statement)[:500],
        "head": found.view.head,
        "role": "lead",
    }
    if second:
        fields["second"] = second
    if stands_alone(found.view.job, signers):
        fields["one_person"] = True
    with _ONE_AT_A_TIME:
        fields["sealed"] = _seal(room.signer, job, {**fields, "by": by})
        _record(room, job, by, "release-signed", fields)
        kept = finish(room, job)
    if kept is None:
        raise ConflictError(said("Not signed: {why}. Look at it and sign again.", why=SLIPPED_IN))
    return kept


def finish(room: ReleaseRoom, job: str) -> KeptRelease | None:
    """Sign and keep what this shop's last `release-signed` entry says, or take it back; None where none is.

    The PINs were given before that entry was written, so a server that stopped behind it goes on from there.

    Raises:
        NotFoundError: no entry names that job.
        StoreError: the disk refused; the next call tries again.
    """
    with _ONE_AT_A_TIME:
        signed = [each for each in room.shop.journal.lines(job) if each.entry["kind"] == "release-signed"]
        line = signed[-1] if signed else None
        if line is None or line.entry.get("sealed") != _seal(room.signer, job, line.entry):
            return None
        kept = {each.position: each for each in room.releases.of(job)}
        if line.position in kept or room.bench.state(job).released is None:
            return kept.get(line.position)
        if line.prev != line.entry.get("head"):
            _record(room, job, line.entry["by"], "release-withdrawn", {"reason": SLIPPED_IN, "role": "lead"})
            return None
        return keep_release(room, job, line)


def _seal(signer: Signer, job: str, said: Mapping[str, Any]) -> str:
    """Give what only this shop can write under a release after its PINs; an import cannot bring another's."""
    names = ("head", "by", "second", "statement", "one_person")
    return signer.sign(canonical({"release": job, **{name: said.get(name) for name in names}}))


def keep_release(room: ReleaseRoom, job: str, line: Line) -> KeptRelease:
    """Make record, documents and papers for a `release-signed` entry, sign and keep them."""
    signer = room.signer
    lines = [each for each in room.shop.journal.lines(job) if each.position <= line.position]
    source = source_from(lines, room.bench, public_key=signer.public)
    sheet = release_record(source)
    record = record_text(sheet)
    now = room.shop.clock()
    entry = line.entry
    signing = Signing(
        job=job,
        position=line.position,
        head=line.hash,
        by=entry["by"],
        second=entry.get("second"),
        at=received_text(now),
        public_key=signer.public,
    )
    document = release_document(record, signing, str(line.entry.get("statement", "")), check_set_hash())
    pictures = pictures_of(room.shop.photos, sheet)
    papers = {
        f"record-{paper}.pdf": draw_sheet(
            room.shop.photos,
            sheet,
            Print(paper, link_to(job, room.address), printed_at(now), pictures, f"Release record, {job}"),
        )
        for paper in PAPERS
    }
    listed = papers_document(document, papers, signer.public)
    kept = KeptRelease(
        job,
        line.position,
        record,
        document,
        signer.sign(document.encode()),
        listed,
        signer.sign(listed.encode()),
    )
    room.releases.put(kept, {kept.files[name]: data for name, data in papers.items()})
    return kept


def withdraw_release(room: ReleaseRoom, job: str, by: str, reason: str) -> Line:
    """Take a release back, with the reason."""
    return _lead_entry(room, job, by, "release-withdrawn", {"reason": reason})


def reopen_job(room: ReleaseRoom, job: str, by: str, fields: Mapping[str, Any]) -> Line:
    """Reopen a released job: the release no longer stands, and work goes on in this scope."""
    return _lead_entry(room, job, by, "job-reopened", fields)


def decide(room: ReleaseRoom, job: str, by: str, fields: Mapping[str, Any]) -> Line:
    """Record the lead's word on one finding, when all that it needs was given.

    Raises:
        BadInputError: what is missing, each thing in a sentence.
    """
    view, now = room.bench.view(job), room.shop.clock()
    key = (fields.get("check"), fields.get("subject"))
    finding = next((f for f in view.verdict.findings if (f.check, f.subject) == key), None)
    lacks = list(against_word(finding, dict(fields), by, now))
    if not room.people.is_lead(by):
        lacks.insert(0, said("{by} is no lead here; a lead decides.", by=by))
    if lacks:
        raise BadInputError(joined(" ", lacks))
    plain = {
        key: value.isoformat() if isinstance(value, datetime) else value for key, value in fields.items()
    }
    return _record(room, job, by, "finding-decided", {**plain, "role": "lead"})


def _lead_entry(room: ReleaseRoom, job: str, by: str, kind: str, fields: Mapping[str, Any]) -> Line:
    require_job(room.shop.look_up, job)
    if room.bench.state(job).released is None:
        raise ConflictError(said("{job} is not released; there is nothing to take back.", job=job))
    if len(str(fields.get("reason") or "").strip()) < LEAST_REASON:
        raise BadInputError(said("Write the reason, in {n} letters or more.", n=LEAST_REASON))
    if not room.people.is_lead(by):
        raise BadInputError(said("{by} is no lead here; a lead takes a release back.", by=by))
    return _record(room, job, by, kind, {**fields, "role": "lead"})


def _record(room: ReleaseRoom, job: str, by: str, kind: str, fields: Mapping[str, Any]) -> Line:
    given = {key: value for key, value in fields.items() if value is not None}
    return record_here(room.shop, job, kind, by=by, fields=given)
