"""Entries into state: one small function a kind, applied in the order of what happened."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, NamedTuple, get_args

from ..journal.entries import AnyEntry
from ..journal.envelope import Envelope
from ..journal.order import Happened, effective, in_order
from . import (
    clocks,
    covering,
    on_captive,
    on_checking,
    on_evidence,
    on_fasteners,
    on_losses,
    on_machine,
    on_openings,
    on_people,
    on_pieces,
    on_tightening,
)
from .fastener_set import Act
from .job import Job

Handler = Callable[[Job, Any, Act], None]

HANDLERS: dict[str, Handler] = {
    "job-opened": on_people.open_job,
    "plan-adopted": on_people.adopt_plan,
    "job-linked": on_people.link_job,
    "job-cancelled": on_people.cancel_job,
    "level-raised": on_people.raise_level,
    "machine-scanned": on_people.scan_machine,
    "signed-on": on_people.sign_on,
    "signed-off": on_people.sign_off,
    "step-started": on_people.start_step,
    "step-done": on_people.finish_step,
    "work-interrupted": on_people.interrupt,
    "work-resumed": on_people.resume,
    "handover-offered": on_people.offer,
    "handover-accepted": on_people.accept,
    "person-described": on_people.describe_person,
    "licence-recorded": on_people.record_licence,
    "duty-set": on_people.set_duty,
    "duty-done": on_people.do_duty,
    "photo-added": on_evidence.add_photo,
    "photo-linked": on_evidence.link_photo,
    "photo-pinned": on_evidence.pin_photo,
    "photo-counted": on_evidence.count_photo,
    "reading-corrected": on_evidence.correct_reading,
    "photo-rejected": on_evidence.reject_photo,
    "label-bound": on_evidence.bind_label,
    "label-retired": on_evidence.retire_label,
    "container-described": on_evidence.describe_container,
    "container-scanned": on_evidence.scan_container,
    "container-placed": on_evidence.place_container,
    "container-counted": on_evidence.count_container,
    "container-emptied": on_evidence.empty_container,
    "clock-marked": on_evidence.mark_clock,
    "device-reported": on_evidence.report_device,
    "entries-held": on_evidence.hold_entries,
    "set-described": on_fasteners.describe_set,
    "fasteners-removed": on_fasteners.remove,
    "fasteners-loosened": on_tightening.loosen_entry,
    "fasteners-retightened": on_tightening.retighten,
    "fasteners-found-bad": on_pieces.find_bad,
    "captive-released": on_captive.release_captive,
    "captive-shut": on_captive.shut_captive,
    "fasteners-moved": on_pieces.move,
    "thing-lost": on_losses.lose,
    "thing-found": on_losses.find,
    "fastener-identified": on_losses.identify,
    "loss-written-off": on_losses.write_off,
    "fasteners-fitted": on_fasteners.fit,
    "fasteners-tightened": on_tightening.tighten,
    "locking-fitted": on_tightening.lock,
    "witness-marked": on_tightening.mark_witness,
    "compound-applied": on_tightening.apply_compound,
    "spec-entered": on_tightening.enter_spec,
    "spec-checked": on_tightening.check_spec,
    "spec-superseded": on_tightening.supersede_spec,
    "wrench-described": on_tightening.describe_wrench,
    "wrench-calibrated": on_tightening.calibrate,
    "wrench-suspected": on_tightening.suspect,
    "part-described": on_machine.describe_part,
    "part-removed": on_machine.remove_part,
    "part-fitted": on_machine.fit_part,
    "access-said": on_machine.say_access,
    "connection-described": on_machine.describe_connection,
    "connection-parted": on_machine.part_connection,
    "connection-made": on_machine.make_connection,
    "fluid-described": on_machine.describe_fluid,
    "fluid-drained": on_machine.drain,
    "fluid-filled": on_machine.fill,
    "fluid-checked": on_machine.check_fluid,
    "renewal-needed": on_machine.need_renewal,
    "renewal-seen-off": on_machine.see_off,
    "renewal-fitted": on_machine.renew,
    "setting-described": on_machine.describe_setting,
    "setting-found": on_machine.find_setting,
    "setting-set": on_machine.set_setting,
    "isolation-described": on_machine.describe_isolation,
    "isolation-applied": on_machine.apply_isolation,
    "isolation-proven": on_machine.prove_isolation,
    "isolation-transferred": on_machine.transfer_isolation,
    "isolation-cleared": on_machine.clear_isolation,
    "isolation-removed": on_machine.lift_isolation,
    "opening-described": on_openings.describe_opening,
    "opening-opened": on_openings.open_opening,
    "cleaned": on_openings.clean,
    "opening-covered": on_openings.cover,
    "opening-uncovered": on_openings.uncover,
    "looked-inside": on_openings.look,
    "opening-closed": on_openings.close,
    "item-brought-in": on_openings.bring_in,
    "item-taken-out": on_openings.take_out,
    "kit-counted": on_openings.count_kit,
    "second-checked": on_checking.check_second,
    "hold-described": on_checking.describe_hold,
    "hold-released": on_checking.release_hold,
    "test-described": on_checking.describe_test,
    "test-run": on_checking.run_test,
    "finding-decided": on_checking.decide,
    "release-asked": on_checking.ask,
    "release-signed": on_checking.sign,
    "release-withdrawn": on_checking.withdraw,
    "job-reopened": on_checking.reopen,
}
KEPT_ONLY = frozenset(
    {"job-waiting", "labels-printed", "fastener-measured", "start-asked", "journal-sealed", "entry-voided"}
    | {"entry-replaced", "pair-seen"}
)
"""Kinds that change nothing in the state; they stand in the journal."""

DISTURBING = frozenset(
    {"fasteners-removed", "fasteners-loosened", "captive-released", "part-removed", "connection-parted"}
    | {"opening-opened", "fluid-drained"}
)
RESTORING = frozenset(
    {"fasteners-fitted", "fasteners-tightened", "fasteners-retightened", "captive-shut", "part-fitted"}
    | {"connection-made", "opening-closed", "fluid-filled", "setting-set", "renewal-fitted", "locking-fitted"}
)
WORK = DISTURBING | RESTORING
"""Hands on the machine."""
RUNNING = frozenset({"fluid-filled", "setting-set"})
"""What is done with energy back on purpose."""
LOOKED = frozenset(
    {
        "second-checked",
        "looked-inside",
        "cleaned",
        "test-run",
        "hold-released",
        "fluid-checked",
        "setting-found",
    }
    | {"isolation-applied", "isolation-proven", "isolation-removed", "fasteners-found-bad", "witness-marked"}
    | {"renewal-seen-off", "opening-covered", "opening-uncovered", "item-brought-in", "item-taken-out"}
    | {"compound-applied"}
)
"""Eyes on the machine: with the work, all that shows that somebody was at a thing; words alone do not."""

SUBJECT_FIELDS = (
    "set", "part", "connection", "opening", "isolation", "fluid", "renewal", "setting", "container",
    "element", "test", "hold", "item",
)  # fmt: skip
SUBJECTS_OF = {
    get_args(model.model_fields["kind"].annotation)[0]: tuple(
        f for f in SUBJECT_FIELDS if f in model.model_fields
    )
    for model in get_args(AnyEntry)
}
"""Kind -> the fields of it that name an element."""


class Trait(NamedTuple):
    """What the fold asks of each entry's kind, found in one look-up."""

    handle: Handler | None
    subjects: tuple[str, ...]
    is_work: bool
    is_seen: bool


TRAITS = {
    kind: Trait(HANDLERS.get(kind), subjects, kind in WORK, kind in WORK or kind in LOOKED)
    for kind, subjects in SUBJECTS_OF.items()
}


def replay(entries: Iterable[AnyEntry], job_name: str) -> Job:
    """Fold the entries of one job, in any order of arrival and however often each was sent.

    Never raises on well-formed entries; what could not be placed stands in `unplaced`.
    """
    own = (entry for entry in entries if entry.job == job_name)
    return fold(effective(in_order(own)), job_name)


def fold(happened: Iterable[Happened], job_name: str) -> Job:
    """Apply entries that are in order and corrected already."""
    job = Job(job_name)
    for h in happened:
        apply(job, h)
    return job


def apply(job: Job, h: Happened) -> Act:
    """Let one more entry change the state; give its trace."""
    e = h.entry
    trait = TRAITS[e.kind]
    named = [name for field in trait.subjects if isinstance(name := getattr(e, field), str)]
    job.entries += 1
    act = Act(h.time, e.by, e.id, e.kind, e.photos, job.entries, h.written if h.written > h.time else None)
    if job.now is None or h.time > job.now:
        job.now = h.time
    is_noted = e.mode == "late" and _is_sorted(job, act)
    if e.mode == "late" and not is_noted:
        job.late.append(act)
    if trait.is_seen and not is_noted:
        if trait.is_work:
            _note_hands(job, act, named)
        job.at_work[act.by].append(act.time)
    on_people.note_night(job, act)
    if h.corrects is not None:
        _note_correction(job, e, h.corrects, act)
    if trait.handle is not None:
        trait.handle(job, e, act)
    _note_subjects(job, e, act, named, trait)
    if job.holds and trait.is_work:
        on_checking.note_holds(job, act, named)
    if e.kind == "part-fitted":
        covering.cover(job, e.part, act)
    elif e.kind == "part-removed":
        covering.uncover(job)
    return act


def _note_correction(job: Job, e: AnyEntry, target: AnyEntry, act: Act) -> None:
    """Keep what a correction changed: a word of the lead from before it did not mean what is so now."""
    if target.kind == "finding-decided":
        return
    own = {name: getattr(target, name) for name in type(target).model_fields.keys() - Envelope.model_fields}
    told = [*own.values(), *(e.fields.values() if e.kind == "entry-replaced" else ())]
    named = (each for value in told for each in (value if isinstance(value, tuple | list) else [value]))
    job.corrected.update((name, act) for name in named if isinstance(name, str))


def _is_sorted(job: Job, act: Act) -> bool:
    """Tell whether an entry says what a photo of that very moment shows: no memory is needed."""
    shots = [job.photos[photo].act for photo in act.photos if photo in job.photos]
    return any(shot.time == act.time and shot not in job.late for shot in shots)


def _note_subjects(job: Job, e: AnyEntry, act: Act, named: list[str], trait: Trait) -> None:
    if trait.is_seen:
        clocks.note_turn(job, e, act, about=e.elements if e.kind == "second-checked" else named)
    for name in named:
        if name in job.sets:
            job.sets[name].remembered.clear()
        if act.photos:
            job.photos_of[name].extend(act.photos)
        if trait.is_work:
            job.touched[name] = act
            job.hands[name].add(act.by)
        if trait.is_seen:
            job.recorded[name] = act
    if e.kind == "second-checked":
        job.recorded.update(dict.fromkeys(e.elements, act))
    job.named_photos.update(act.photos)
    for photo in act.photos:
        if photo in job.photos:
            job.photos[photo].linked = True


def _note_hands(job: Job, act: Act, named: list[str]) -> None:
    """Keep who works here: custody gaps, work on a live machine, changes after release."""
    job.first_work = job.first_work or act
    if job.released is not None:
        job.touched_after_release.setdefault(named[0] if named else job.name, act)
    if act.by not in job.workers and job.workers.keys() | ({"?"} if job.shift_ended else set()):
        on_people.note_newcomer(job, act)
    job.workers[act.by] = act
    if act.kind not in RUNNING:
        for here in job.isolations.values():
            scope = here.described.scope if here.described else ()
            live = here.proven is None or here.removed is not None
            known = here.described is not None or here.applied is not None or here.removed is not None
            in_scope = not scope or any(name in scope for name in named)
            if live and known and in_scope:
                here.worked_live = act
