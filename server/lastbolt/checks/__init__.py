"""What is wrong: one file, one fault; this is the one list of them."""

from __future__ import annotations

from dataclasses import replace
from types import ModuleType

from ..finding import DEFERRAL, Case, Finding, Severity, worst_first
from ..said import said
from ..state.job import Decided, Job
from . import (
    changed_after_release,
    clock_doubt,
    closed_over_an_item,
    count_short,
    cover_left_on,
    covered_too_early,
    duty_not_told,
    fluid_not_back,
    found_bad_not_decided,
    handover_gap,
    hold_point_passed,
    hole_empty,
    isolation_left_or_lifted_wrong,
    isolation_not_proven,
    item_not_out,
    label_twice,
    late_entry,
    leftover,
    locking_missing,
    look_alikes_in_one_bag,
    loose_again,
    loose_ends,
    loosened_and_left,
    lost_maybe_inside,
    more_than_logged,
    new_for_old,
    not_looked_inside,
    not_reconnected,
    old_seal_or_consumable,
    open_and_unattended,
    opening_left_open,
    other_job_open_on_the_machine,
    part_not_back_on,
    person_not_allowed,
    phone_not_sent,
    photo_missing,
    picture_count_differs,
    plan_step_never_touched,
    recount_differs,
    same_hands_on_both,
    second_person_missing,
    setting_not_restored,
    signed_but_open,
    single_use_reused,
    spec_not_trusted,
    stage_or_sequence,
    test_missing_or_stale,
    ticked_too_fast,
    torque_missing,
    torque_out_of_range,
    torque_undone,
    touched_by_another_job,
    tray_not_empty,
    tray_of_another_job,
    witness_mark_missing,
    wrench_not_in_calibration,
    wrench_out_of_its_range,
    wrong_fastener,
    wrong_machine_scanned,
)

ALL: tuple[ModuleType, ...] = (
    tray_not_empty,
    hole_empty,
    part_not_back_on,
    count_short,
    more_than_logged,
    leftover,
    lost_maybe_inside,
    wrong_fastener,
    new_for_old,
    look_alikes_in_one_bag,
    tray_of_another_job,
    recount_differs,
    picture_count_differs,
    found_bad_not_decided,
    torque_missing,
    torque_out_of_range,
    stage_or_sequence,
    wrench_out_of_its_range,
    wrench_not_in_calibration,
    torque_undone,
    spec_not_trusted,
    single_use_reused,
    locking_missing,
    covered_too_early,
    hold_point_passed,
    signed_but_open,
    opening_left_open,
    cover_left_on,
    open_and_unattended,
    item_not_out,
    closed_over_an_item,
    not_looked_inside,
    isolation_not_proven,
    isolation_left_or_lifted_wrong,
    fluid_not_back,
    old_seal_or_consumable,
    not_reconnected,
    loosened_and_left,
    setting_not_restored,
    test_missing_or_stale,
    second_person_missing,
    person_not_allowed,
    handover_gap,
    other_job_open_on_the_machine,
    changed_after_release,
    photo_missing,
    loose_ends,
    clock_doubt,
    label_twice,
    phone_not_sent,
    ticked_too_fast,
    duty_not_told,
    same_hands_on_both,
    late_entry,
    plan_step_never_touched,
    witness_mark_missing,
    wrong_machine_scanned,
    loose_again,
    touched_by_another_job,
)
"""Every check, in the order of the manual."""

START = frozenset(
    {"lost-maybe-inside", "opening-left-open", "cover-left-on", "item-not-out", "closed-over-an-item"}
    | {"isolation-left-or-lifted-wrong", "fluid-not-back"}
)
"""What the start guard asks before something is turned or started (practice 4.4)."""

INTERRUPTING = frozenset(
    {"lost-maybe-inside", "covered-too-early", "hold-point-passed", "cover-left-on", "closed-over-an-item"}
    | {"isolation-not-proven", "fluid-not-back"}
)
"""The seven that may interrupt with sound (practice 4.3)."""


def name_of(check: ModuleType) -> str:
    """Give a check's name: its file's, with hyphens.

    >>> name_of(hole_empty)
    'hole-empty'
    """
    return check.__name__.rsplit(".", 1)[-1].replace("_", "-")


def run(case: Case) -> tuple[Finding, ...]:
    """Run every check of the job's level and apply the lead's decisions; worst first.

    Before a start the machine's other jobs are asked too: one permit closed is not both, and a job that is
    over may have left something in.
    """
    found = _found(case)
    if case.asking == "start":
        for other in _others_on_machine(case):
            there = _found(replace(case, job=other, others=()))
            found += [
                replace(f, sentence=said("Job {job}: {what}", job=other.name, what=f.sentence)) for f in there
            ]
    return worst_first(found)


def _others_on_machine(case: Case) -> list[Job]:
    here = case.job.machine
    return [other for other in case.others if here and other.machine == here]


def _found(case: Case) -> list[Finding]:
    found: list[Finding] = []
    for check in ALL:
        if check.LEVEL > case.job.level or (case.is_live and not check.LIVE):
            continue
        name = name_of(check)
        if case.asking == "start" and name not in START:
            continue
        found.extend(finding.named(name) for finding in check.check(case))
    if case.asking == "start":
        found = [f for f in found if not f.waivable]
    there = {(f.check, f.subject) for f in found}
    found = [f for f in found if _deferred(f) in (None, *there)]
    return [f for f in found if not is_lifted(case, f)]


def _deferred(finding: Finding) -> tuple[str, str] | None:
    """Give check and subject of the finding whose deferral this one speaks of, if it does."""
    if not finding.variant.startswith(DEFERRAL):
        return None
    return finding.variant.removeprefix(DEFERRAL).strip(), finding.subject


def not_checked(job: Job) -> tuple[str, ...]:
    """Name the checks that did not run at the job's level; they are never counted as passed."""
    return tuple(name_of(check) for check in ALL if check.LEVEL > job.level)


def is_lifted(case: Case, finding: Finding) -> bool:
    """Tell whether the lead's word lifts a finding; what is known only since the word sets it up again."""
    decided = case.job.decisions.get((finding.check, finding.subject))
    if decided is None or not finding.waivable or not _is_by_lead(case.job, decided):
        return False
    if _is_older(decided, case.job, finding):
        return False
    word = decided.entry.decision
    if finding.severity is Severity.STOP:
        return word == "defer" and _is_sound_deferral(case, decided)
    return word in ("accept", "clear") or (word == "defer" and _is_sound_deferral(case, decided))


def _is_older(decided: Decided, job: Job, finding: Finding) -> bool:
    """Tell whether the word was given before the newest evidence, or before a correction of what it is about."""
    corrected = job.corrected.get(finding.subject)
    known = [finding.evidence.newest, corrected.when if corrected else None]
    return any(moment is not None and moment > decided.act.when for moment in known)


def _is_by_lead(job: Job, decided: Decided) -> bool:
    return job.is_lead(decided.entry.by, decided.entry.role)


def _is_sound_deferral(case: Case, decided: Decided) -> bool:
    word = decided.entry
    complete = word.limit is not None and bool(word.barrier) and word.second not in (None, word.by)
    return complete and (case.at is None or (word.limit is not None and word.limit >= case.at))
