"""What rests on an entry, held against brute force: leave each entry of the sample out and see which others cry out."""

import json
from pathlib import Path

import pytest

from lastbolt.journal import effective, entry_from, in_order
from lastbolt.plan.rests_on import rests_on
from lastbolt.state.fold import WORK, fold

SAMPLES = Path(__file__).resolve().parents[2] / "samples"


def told(name: str) -> list:
    raws = (json.loads(line) for line in (SAMPLES / name).read_text().splitlines())
    return list(effective(in_order(entry_from(raw) for raw in raws)))


@pytest.mark.parametrize("name", ["clean.jsonl", "half_finished.jsonl"])
def test_every_entry_that_contradicts_the_record_without_one_rests_on_that_one(name):
    timeline = told(name)
    job = timeline[0].entry.job
    before = {(odd.subject, odd.what, odd.act.id) for odd in fold(timeline, job).oddities}
    tried = crying = 0
    for place, each in enumerate(timeline):
        if each.entry.kind not in WORK:
            continue
        tried += 1
        without = fold([*timeline[:place], *timeline[place + 1 :]], job)
        odd = {o.act.id for o in without.oddities if (o.subject, o.what, o.act.id) not in before}
        crying += bool(odd)
        resting = {str(h.entry.id) for h in rests_on(timeline, str(each.entry.id))}
        assert odd <= resting, (each.entry.kind, odd - resting)
    print(f"\n{name}: {tried} entries left out one by one, {crying} of them missed by later ones")
    assert crying > 10


def test_a_description_and_an_entry_that_is_not_there_bear_nothing():
    timeline = told("clean.jsonl")
    assert rests_on(timeline, "nothing") == ()
    last = timeline[-1].entry
    assert rests_on(timeline, str(last.id)) == ()


def test_a_bag_counted_as_a_whole_rests_on_all_that_went_into_it_and_another_set_of_it_does_not():
    timeline = told("clean.jsonl")
    nuts, washers = (
        next(h for h in timeline if h.entry.kind == "fasteners-removed" and h.entry.set == name)
        for name in ("elbow nuts", "elbow washers")
    )
    assert nuts.entry.to == washers.entry.to
    resting = rests_on(timeline, str(nuts.entry.id))
    kinds = {h.entry.kind for h in resting}
    assert "container-emptied" in kinds
    fitted = {h.entry.set for h in resting if h.entry.kind == "fasteners-fitted"}
    assert fitted == {"elbow nuts"}
