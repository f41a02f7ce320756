"""Before it turns: only what may not turn, in this job and the machine's others; no green tick."""

from __future__ import annotations

import re

from tests.report.journals import Written, job_of, jobs_of, scenario

from lastbolt.report.start_guard import start_guard, start_text


def test_names_what_is_open_in_or_cut_off():
    guard = start_guard(job_of(scenario("C0", "1 12:07")))

    assert {(f.check, f.subject) for f in guard.findings} >= {
        ("isolation-left-or-lifted-wrong", "BATTERY"),
        ("fluid-not-back", "COOLANT"),
        ("opening-left-open", "PUMP HOLE"),
    }
    assert guard.headline == f"DO NOT START: {len(guard.findings)} things to clear first."


def test_empty_holes_alone_do_not_stand_against_turning():
    guard = start_guard(Written().add("fasteners-removed", set="LID", n=2, to="B1").state)

    assert guard.findings == ()


def test_with_nothing_on_the_list_the_eyes_decide():
    guard = start_guard(job_of(scenario("C0")))

    assert guard.headline == "Nothing on the list. Your eyes decide."
    assert "does not mean that nothing is wrong" in start_text(guard)


def test_a_towel_in_another_job_of_the_machine_stands_against_it():
    here = Written().add("part-removed", part="LID")
    there = Written(job="job 2").add("item-brought-in", item="towel", opening="INTAKE")
    elsewhere = Written(job="job 3", machine="the tractor").add("item-brought-in", item="rag", opening="PORT")

    guard = start_guard(here.state, [there.state, elsewhere.state])

    assert [f.subject for f in guard.findings] == ["towel"]
    assert "job 2" in guard.findings[0].sentence


def test_a_rag_that_a_cancelled_job_left_in_stands_against_it():
    here = Written().add("part-removed", part="LID")
    there = Written(job="job 2").add("item-brought-in", item="rag").add("job-cancelled", reason="no parts")

    assert [f.subject for f in start_guard(here.state, [there.state]).findings] == ["rag"]


def test_a_drained_engine_asks_for_the_tag_on_the_key():
    text = start_text(start_guard(Written().add("fluid-drained", fluid="OIL", litres=5).state))

    assert "DO NOT START" in text and "on the key or starter" in text


def test_at_the_first_level_what_did_not_run_is_said():
    guard = start_guard(Written(level=1).state)

    assert "item-not-out" in guard.not_checked
    assert re.match(
        r"Nothing on the list, \d checks not run at this level\. Your eyes decide\.", guard.headline
    )
    assert "Not checked at this level:" in start_text(guard)


def test_no_word_promises():
    for name in ("S1", "S4", "C0"):
        for entries in (scenario(name), scenario(name, "1 14:00")):
            text = start_text(start_guard(jobs_of(entries)["job 1"]))
            assert re.findall(r"\b(safe|ok|airworthy|verified)\b", text, re.IGNORECASE) == []


def test_what_is_off_by_the_record_is_said_beside_an_empty_list() -> None:
    off = Written().add("part-removed", part="LID")
    assert "Off by the record: LID." in start_guard(off.state).cautions
    on = off.add("part-fitted", part="LID")
    assert not any("Off by" in each for each in start_guard(on.state).cautions)
