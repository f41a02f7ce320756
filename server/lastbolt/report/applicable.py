"""Which checks had nothing to look at in a job: they ran, and say nothing about what was never recorded."""

from __future__ import annotations

from collections.abc import Callable

from ..state.job import Job

LOOKS_AT: tuple[tuple[Callable[[Job], bool], frozenset[str]], ...] = (
    (
        lambda job: bool(job.openings),
        frozenset({"opening-left-open", "cover-left-on", "not-looked-inside", "open-and-unattended"}),
    ),
    (lambda job: bool(job.items or job.kits), frozenset({"item-not-out", "closed-over-an-item"})),
    (
        lambda job: bool(job.isolations),
        frozenset({"isolation-not-proven", "isolation-left-or-lifted-wrong"}),
    ),
    (lambda job: bool(job.fluids), frozenset({"fluid-not-back"})),
    (lambda job: bool(job.renewals), frozenset({"old-seal-or-consumable"})),
    (lambda job: bool(job.connections), frozenset({"not-reconnected"})),
    (lambda job: bool(job.settings), frozenset({"setting-not-restored"})),
    (lambda job: bool(job.tests), frozenset({"test-missing-or-stale"})),
    (lambda job: bool(job.holds), frozenset({"hold-point-passed"})),
    (lambda job: bool(job.losses or job.finds), frozenset({"lost-maybe-inside", "leftover"})),
    (lambda job: bool(job.plan_elements), frozenset({"plan-step-never-touched"})),
    (lambda job: bool(job.machine_scans), frozenset({"wrong-machine-scanned"})),
    (lambda job: bool(job.duties), frozenset({"duty-not-told"})),
    (
        lambda job: any(group.has_value for group in job.sets.values()),
        frozenset({"torque-missing", "torque-out-of-range", "stage-or-sequence", "spec-not-trusted"}),
    ),
    (
        lambda job: bool(job.wrenches),
        frozenset({"wrench-not-in-calibration", "wrench-out-of-its-range"}),
    ),
)
"""What a job must hold -> the checks that look at nothing else."""


def not_applicable(job: Job) -> frozenset[str]:
    """Name the checks whose things were never recorded in a job."""
    return frozenset().union(*(names for holds, names in LOOKS_AT if not holds(job)))
