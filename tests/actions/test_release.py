"""Who may sign when: the question, the look, the second person, the deferral; and what a signature is over."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from tests.actions.releases import JOB, PIN, Clock, TwoLeads, room_in, sample_shop
from tests.builders import Told, back, out, set_of

from lastbolt.actions import check_signature
from lastbolt.actions.audit_release import audit_releases
from lastbolt.actions.print_record import record_paper
from lastbolt.actions.record import record
from lastbolt.actions.release import (
    Wish,
    ask_release,
    decide,
    reopen_job,
    sign_release,
    standing,
    withdraw_release,
)
from lastbolt.errors import BadInputError, ConflictError, NotAllowedError, NotFoundError
from lastbolt.journal import canonical
from lastbolt.keys.signing import is_signed

ANSWERED = {"nothing_else_apart": True}


@pytest.fixture
def clock():
    return Clock()


def told(*lines, level=2, by="Ana", **opened):
    """Tell a job of the day on which the clock stands."""
    story = Told(level=level, start=Clock().now.replace(hour=8), **opened)
    for kind, fields in lines:
        story.say(kind, by=by, **fields)
    return story


def in_shop(wired, clock, story, **more):
    record(wired.journal, clock, story.raws)
    return room_in(wired, clock, **more)


DONE = (set_of(4), out(4), back(4), ("container-emptied", {"container": "B1"}))


def ask_and_wait(room, clock, job="job 1", seconds=61):
    ask_release(room, job, "Ilse", ANSWERED)
    clock.move(seconds=seconds)


def test_a_lead_without_hands_on_it_signs_alone(wired, clock):
    room = in_shop(wired, clock, told(*DONE))
    ask_and_wait(room, clock)
    kept = sign_release(room, "job 1", Wish("Ilse", PIN))
    line = wired.journal.lines("job 1")[-1]
    said = json.loads(kept.document)
    assert (said["head"], said["by"], said["position"]) == (line.hash, "Ilse", line.position)
    assert canonical(said).decode() == kept.document
    assert is_signed(wired.signer.public, kept.document.encode(), kept.signature)
    assert check_signature.is_signed(wired.signer.public, kept.papers.encode(), kept.papers_signature)
    assert line.entry["head"] == line.prev


def test_whoever_did_the_work_needs_somebody_who_did_none(wired, clock):
    room = in_shop(wired, clock, told(*DONE, by="Ilse"))
    ask_and_wait(room, clock)
    for second, words in ((None, "a second person stands for it too"), ("ilse", "somebody else")):
        with pytest.raises(ConflictError, match=words):
            sign_release(room, "job 1", Wish("Ilse", PIN, second, PIN))
    with pytest.raises(NotAllowedError):
        sign_release(room, "job 1", Wish("Ilse", PIN, "Lee", "0000"))
    sign_release(room, "job 1", Wish("Ilse", PIN, "Lee", PIN))
    entry = wired.journal.lines("job 1")[-1].entry
    assert (entry["by"], entry["second"]) == ("Ilse", "Lee")
    assert "Lee looked too." in entry["statement"]


def test_two_who_both_had_hands_on_it_do_not_look_at_each_other(wired, clock):
    story = told(*DONE, by="Ilse")
    story.say("part-removed", by="Lee", part="LID")
    story.say("part-fitted", by="Lee", part="LID")
    room = in_shop(wired, clock, story)
    ask_and_wait(room, clock)
    assert "Lee had hands on this work too" in standing(room, "job 1", "Ilse", "Lee").against[0]


def alone_with(wired, clock, *more, minutes=5):
    """A shop of one where Ilse did job 1, asked for its release, and stands there minutes after the work."""
    room = in_shop(wired, clock, told(*DONE, by="Ilse"), one_person=True)
    for story in more:
        record(wired.journal, clock, story.raws)
    clock.now = max(a.time for a in wired.bench.state("job 1").touched.values())
    clock.move(minutes=minutes)
    ask_and_wait(room, clock)
    return room


def test_a_shop_of_one_looks_again_half_an_hour_later_and_after_a_night(wired, clock):
    room = alone_with(wired, clock)
    with pytest.raises(ConflictError, match=r"30 minutes after it, from 2026-05-08 09:13"):
        sign_release(room, "job 1", Wish("Ilse", PIN))
    clock.move(minutes=30)
    with pytest.raises(ConflictError, match=r"A night or work .* again from 2026-05-09 00:00\.") as refused:
        sign_release(room, "job 1", Wish("Ilse", PIN))
    assert "30 minutes" not in str(refused.value)
    clock.now = clock.now.replace(day=8, hour=23, minute=59)
    assert standing(room, "job 1", "Ilse").against
    clock.now = clock.now.replace(day=9, hour=0, minute=0)
    sign_release(room, "job 1", Wish("Ilse", PIN))
    entry = wired.journal.lines("job 1")[-1].entry
    assert entry["one_person"] and "nobody else looked" in entry["statement"]


def other_job(minute, by="Ilse", **opened):
    """Another job with one entry at the machine, so many minutes past the end of job 1 at 08:43."""
    story = Told(job="job 2", machine="the launch", start=Clock().now.replace(hour=7), **opened)
    story.say(
        "part-removed", at=Clock().now.replace(hour=8, minute=43 + minute, second=30), by=by, part="HATCH"
    )
    return story


@pytest.mark.parametrize(
    ("other", "counts"),
    [
        (other_job(10), True),
        (other_job(-2), False),
        (other_job(10, by="Lee"), False),
        (other_job(10, practice=True), False),
    ],
    ids=["work between", "before the last work", "somebody else's", "practice"],
)
def test_a_shop_of_one_looks_again_after_work_on_another_job(wired, clock, other, counts):
    room = alone_with(wired, clock, other, minutes=40)
    assert (standing(room, "job 1", "Ilse").against == ()) is counts
    if counts:
        sign_release(room, "job 1", Wish("Ilse", PIN))


def test_licensed_work_is_never_signed_by_its_own_hands_alone(wired, clock):
    story = told(*DONE, by="Ilse", licensed=["road-brakes-steering"])
    room = in_shop(wired, clock, story, one_person=True)
    ask_and_wait(room, clock)
    clock.move(minutes=60)
    (reason,) = standing(room, "job 1", "Ilse").against
    assert "licensed work" in reason and "own work" not in standing(room, "job 1", "Ilse").statement
    assert standing(room, "job 1", "Ilse", "Lee").against == ()


def test_in_a_shop_of_one_too_who_did_none_of_it_says_nothing_of_own_work(wired, clock):
    room = in_shop(wired, clock, told(*DONE), one_person=True)
    ask_and_wait(room, clock)
    sign_release(room, "job 1", Wish("Ilse", PIN))
    entry = wired.journal.lines("job 1")[-1].entry
    assert "one_person" not in entry and "own work" not in entry["statement"]


def test_a_tech_does_not_sign(wired, clock):
    room = in_shop(wired, clock, told(*DONE))
    ask_and_wait(room, clock)
    with pytest.raises(ConflictError, match="Ana is no lead here"):
        sign_release(room, "job 1", Wish("Ana", PIN, "Lee", PIN))


def test_with_findings_the_look_lasts_a_minute(wired, clock):
    room = in_shop(wired, clock, told(set_of(4), out(4)))
    limit = clock.now.replace(year=2027)
    for finding in standing(room, "job 1").view.verdict.findings:
        word = {
            "check": finding.check, "subject": finding.subject, "decision": "defer", "limit": limit,
            "reason": "the bolts come on Friday", "barrier": "tag on the key", "second": "Lee",
        }  # fmt: skip
        decide(room, "job 1", "Ilse", word)
    ask_and_wait(room, clock, seconds=20)
    with pytest.raises(ConflictError, match=r"4[01] seconds more"):
        sign_release(room, "job 1", Wish("Ilse", PIN))
    clock.move(seconds=41)
    kept = sign_release(room, "job 1", Wish("Ilse", PIN))
    assert "Deferred, and written into the release: " in kept.said["statement"]
    assert "barrier: tag on the key; second name: Lee" in kept.record


def test_work_between_asking_and_signing_asks_for_a_new_look(wired, clock):
    story = told(*DONE)
    room = in_shop(wired, clock, story)
    clock.now = story.now
    ask_and_wait(room, clock)
    more = told(("part-removed", {"part": "COVER"}), ("part-fitted", {"part": "COVER"})).raws[1:]
    for number, raw in enumerate(more):
        raw |= {
            "at": clock.now.isoformat(),
            "seq": 50 + number,
            "id": f"019df000-0000-7000-8000-{number:012d}",
        }
    record(wired.journal, clock, more)
    clock.move(seconds=5)
    with pytest.raises(ConflictError, match="Hands were on the machine since release was asked for"):
        sign_release(room, "job 1", Wish("Ilse", PIN))
    ask_and_wait(room, clock)
    sign_release(room, "job 1", Wish("Ilse", PIN))


def test_an_entry_that_slips_in_while_it_is_signed_takes_the_signature_back(wired, clock):
    room = in_shop(wired, clock, told(*DONE))
    ask_and_wait(room, clock)

    class SlipsIn(TwoLeads):
        def confirm(self, person, pin):
            ask_release(room, "job 1", "Ana", ANSWERED)
            return super().confirm(person, pin)

    with pytest.raises(ConflictError, match="another entry came in"):
        sign_release(replace(room, people=SlipsIn()), "job 1", Wish("Ilse", PIN))
    assert wired.bench.state("job 1").released is None
    assert wired.releases.of("job 1") == []
    sign_release(room, "job 1", Wish("Ilse", PIN))


def test_a_second_release_stands_beside_the_first_and_both_are_proven(wired, clock):
    room = in_shop(wired, clock, told(*DONE))
    ask_and_wait(room, clock)
    sign_release(room, "job 1", Wish("Ilse", PIN))
    first = record_paper(room, "job 1", "a4")
    with pytest.raises(ConflictError, match="released already"):
        sign_release(room, "job 1", Wish("Ilse", PIN))
    with pytest.raises(BadInputError, match="10 letters"):
        reopen_job(room, "job 1", "Ilse", {"reason": "oops"})
    reopen_job(room, "job 1", "Ilse", {"reason": "the lid rattles", "scope": ("LID",)})
    with pytest.raises(ConflictError, match="Nobody has asked"):
        sign_release(room, "job 1", Wish("Ilse", PIN))
    clock.move(seconds=5)
    ask_and_wait(room, clock)
    sign_release(room, "job 1", Wish("Ilse", PIN))
    assert len(wired.releases.of("job 1")) == 2
    found = audit_releases(wired.journal, wired.releases, is_signed, "job 1", own_key=wired.signer.public)
    assert found.faults == () and len(found.said) == 2
    assert record_paper(room, "job 1", "a4") != first
    withdraw_release(room, "job 1", "Lee", "it was the wrong boat")
    with pytest.raises(ConflictError, match="nothing to take back"):
        withdraw_release(room, "job 1", "Lee", "it was the wrong boat")


def test_no_word_lifts_what_no_word_can_lift(wired, clock):
    story = told(
        ("opening-described", {"opening": "INTAKE"}),
        ("opening-opened", {"opening": "INTAKE"}),
        ("thing-lost", {"loss": "L1", "what": "a washer", "opening": "INTAKE"}),
    )
    room = in_shop(wired, clock, story)
    with pytest.raises(BadInputError, match="No word can lift this"):
        decide(
            room, "job 1", "Ilse",
            {
                "check": "lost-maybe-inside", "subject": "L1", "decision": "defer",
                "reason": "it is surely on the floor", "limit": clock.now.replace(year=2027),
                "barrier": "tag", "second": "Lee",
            },
        )  # fmt: skip
    with pytest.raises(BadInputError, match="not on the list any more"):
        decide(
            room,
            "job 1",
            "Ilse",
            {"check": "hole-empty", "subject": "X", "decision": "accept", "reason": "x" * 12},
        )
    with pytest.raises(BadInputError, match="Ana is no lead"):
        decide(
            room,
            "job 1",
            "Ana",
            {"check": "hole-empty", "subject": "X", "decision": "accept", "reason": "x" * 12},
        )


def test_an_unknown_job_is_told(wired, clock):
    room = room_in(wired, clock)
    for what in (lambda: standing(room, "nowhere"), lambda: ask_release(room, "nowhere", "Ilse", ANSWERED)):
        with pytest.raises(NotFoundError, match="nowhere"):
            what()


def test_the_sample_is_released_and_later_work_makes_it_fall(tmp_path, clock):
    wired = sample_shop(tmp_path, photos=False)
    room = room_in(wired, clock)
    ask_and_wait(room, clock, JOB)
    sign_release(room, JOB, Wish("Ilse", PIN))
    assert standing(room, JOB).no_longer == ""
    later = {
        "id": "019df000-0000-7000-8000-00000000aaaa", "job": JOB, "device": "phone", "seq": 999,
        "at": "2026-06-01T08:00:00+02:00", "by": "Ben", "kind": "fasteners-loosened", "set": "belt guard bolts",
    }  # fmt: skip
    record(wired.journal, clock, [later], job=JOB)
    found = standing(room, JOB)
    assert "Ben worked on it after the release" in found.no_longer
    assert "reopen the job first" in found.in_the_way[0]
    assert record_paper(room, JOB, "a4") != wired.releases.paper(
        wired.releases.of(JOB)[0].files["record-a4.pdf"]
    )
    wired.close()


@pytest.mark.parametrize(
    ("came", "goes", "said"),
    [
        ("1204 h", " 1210 h ", "1204 h at the start; 1210 h at the release"),
        (None, "88 300 km", "88 300 km at the release"),
        (None, None, "nobody wrote the meter down"),
    ],
)
def test_the_record_says_what_the_meter_showed(wired, clock, came, goes, said):
    room = in_shop(wired, clock, told(*DONE, **({"meter": came} if came else {})))
    ask_release(room, "job 1", "Ilse", {**ANSWERED, "meter": goes})
    clock.move(seconds=61)
    assert f'"{said}"' in sign_release(room, "job 1", Wish("Ilse", PIN)).record
