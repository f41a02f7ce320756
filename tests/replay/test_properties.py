"""What holds of every journal: clean jobs are quiet, a missing entry is named, arrival does not matter, nothing raises.

`LASTBOLT_HYPOTHESIS=long` runs fifty thousand examples of each.
"""

from __future__ import annotations

import os
from random import Random
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.builders import mark

from lastbolt.journal import AnyEntry, effective, entry_from, in_order
from lastbolt.report.verdict import judge, live_findings, verdicts
from lastbolt.state.fold import apply, fold, replay
from lastbolt.state.job import Job

from .any_entries import MODELS, journals, of_kind
from .random_jobs import clean_job

LONG = os.environ.get("LASTBOLT_HYPOTHESIS") == "long"
thorough = settings(
    max_examples=50_000 if LONG else 300,
    derandomize=not LONG,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
SEEDS = st.integers(0, 2**32)


def read(raws: list[dict[str, Any]]) -> list[AnyEntry]:
    return [entry_from(raw) for raw in raws]


def said(entries: list[AnyEntry]) -> list[set[tuple[str, ...]]]:
    return [
        {(f.check, f.subject, mark(f), f.sentence) for f in v.findings} for v in verdicts(entries, "job 1")
    ]


@given(SEEDS)
@thorough
def test_a_clean_job_says_nothing(seed: int) -> None:
    assert clean_job(Random(seed)).told.marks() == set()


@given(SEEDS, st.integers(0, 40))
@thorough
def test_one_restoring_entry_less_is_named(seed: int, left_out: int) -> None:
    job = clean_job(Random(seed), without=left_out)

    assert set(job.missed.values()) <= job.told.marks()


@given(SEEDS, st.integers(0, 40))
@thorough
def test_any_order_and_repetition_say_the_same(seed: int, left_out: int) -> None:
    random = Random(seed)
    entries = clean_job(random, without=left_out).told.entries
    arrived = [*entries, *random.sample(entries, len(entries) // 2)]
    random.shuffle(arrived)

    assert said(arrived) == said(entries)


@given(SEEDS, st.integers(0, 200))
@thorough
def test_a_voided_entry_was_never_recorded(seed: int, which: int) -> None:
    job = clean_job(Random(seed)).told
    raws = job.raws
    gone = raws[1:-1][which % (len(raws) - 2)]
    without = [raw for raw in raws if raw is not gone]
    job.say("entry-voided", after=0, entry=gone["id"], reason="wrong", device="desk")

    assert said(read(raws)) == said(read(without))


@given(SEEDS)
@thorough
def test_a_replaced_entry_was_recorded_so(seed: int) -> None:
    job = clean_job(Random(seed)).told
    fits = [raw for raw in job.raws if raw["kind"] in ("fasteners-fitted", "opening-covered", "fluid-filled")]
    if not fits:
        return
    target = fits[seed % len(fits)]
    fields = {"litres": 0.5} if target["kind"] == "fluid-filled" else {"n": 1}
    recorded_so = [raw | fields if raw is target else raw for raw in job.raws]
    job.say("entry-replaced", after=0, entry=target["id"], fields=fields, reason="wrong count", device="desk")

    assert said(read(job.raws)) == said(read(recorded_so))


@given(SEEDS, st.integers(0, 200))
@thorough
def test_any_prefix_folds(seed: int, length: int) -> None:
    entries = clean_job(Random(seed)).told.entries
    prefix = entries[: length % (len(entries) + 1)]

    assert replay(prefix, "job 1").entries == len(prefix)
    assert len(verdicts(prefix, "job 1")) >= 1


@given(SEEDS, st.integers(0, 200))
@thorough
def test_a_kept_job_that_goes_on_says_what_a_fresh_fold_says(seed: int, kept: int) -> None:
    timeline = in_order(clean_job(Random(seed), without=kept).told.entries)
    start = 1 + kept % (len(timeline) - 1)
    job = fold(timeline[:start], "job 1")
    for h in timeline[start:]:
        judge(job, ())
        apply(job, h)

    assert judge(job, ()).findings == judge(fold(timeline, "job 1"), ()).findings


@given(journals())
@thorough
def test_well_formed_entries_never_raise_whatever_they_say(raws: list[dict[str, Any]]) -> None:
    entries = read(raws)

    found = verdicts(entries, "job 1")

    assert said(entries[::-1]) == said(entries)
    assert all(f.sentence and f.to_do for v in found for f in v.findings)
    assert all(f.sentence for _, f in live_findings(entries, "job 1"))


@given(journals())
@thorough
def test_a_job_that_goes_on_says_at_every_entry_what_a_fresh_fold_says(raws: list[dict[str, Any]]) -> None:
    timeline = effective([h for h in in_order(read(raws)) if h.entry.job == "job 1"])
    asked = Job("job 1")
    for done, h in enumerate(timeline, start=1):
        apply(asked, h)

        assert judge(asked, ()).findings == judge(fold(timeline[:done], "job 1"), ()).findings


@pytest.mark.parametrize("kind", MODELS)
def test_each_kind_alone_folds(kind: str) -> None:
    @given(of_kind(kind))
    @settings(max_examples=3, derandomize=True, deadline=None)
    def fold_one(body: dict[str, Any]) -> None:
        envelope = {
            "id": "01890000-0000-7000-8000-000000000000",
            "job": "job 1",
            "device": "phone",
            "seq": 1,
            "at": "2026-03-02T08:00:00+00:00",
            "by": "Ana",
        }
        assert replay([entry_from(envelope | body)], "job 1").entries == 1

    fold_one()
