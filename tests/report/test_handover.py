"""The handover sheet: ten sections in their order, each debt once, the three answers, who saw which tray."""

from __future__ import annotations

import re

import pytest
from tests.replay.scenario_journal import SCENARIOS
from tests.report.journals import Written, job_of, scenario, verdict_of

from lastbolt.journal.order import effective, in_order
from lastbolt.report.handover import HandoverSheet, handover_sheet, handover_text

TITLES = [
    "Danger now", "Half done", "Open mouths", "Inside", "Loosened or apart", "Bags and trays", "To renew, on order",
    "Findings and decisions", "Said, not scanned", "Signatures",
]  # fmt: skip


def sheet_of(entries: list) -> HandoverSheet:
    own = [h.entry for h in effective(in_order(entries)) if h.entry.job == "job 1"]
    return handover_sheet(job_of(entries), verdict_of(entries), own)


def section(sheet: HandoverSheet, title: str) -> list[str]:
    return [line.text for part in sheet.sections if part.title == title for line in part.lines]


@pytest.mark.parametrize("name", [s["id"] for s in SCENARIOS])
def test_every_sheet_has_its_ten_sections_and_promises_nothing(name: str):
    sheet = sheet_of(scenario(name))

    assert [part.title for part in sheet.sections] == TITLES
    assert re.findall(r"\b(safe|ok|airworthy|verified)\b", handover_text(sheet), re.IGNORECASE) == []


def test_danger_comes_first_tags_fluids_losses():
    danger = section(sheet_of(scenario("S1", "1 17:00")), "Danger now")

    assert danger[0].startswith("BATTERY is off, tag of Ana, proven dead")
    assert any(line.startswith("DO NOT START: 8.5 L of COOLANT") for line in danger)
    assert any(line.startswith("LOST: 1 x manifold bolt") for line in danger)


def test_mouths_are_counted_and_bags_have_a_box_to_tick():
    sheet = sheet_of(scenario("S1", "1 17:00"))
    bags = {
        line.subject: line.ticked for part in sheet.sections for line in part.lines if line.ticked is not None
    }

    assert section(sheet, "Open mouths")[0].startswith("PORTS (class A): 3 of 4 mouths covered")
    assert bags == {"B1": False, "B2": False}
    assert "   [ ] B1: 7 x M8x1.25x30 (IM)." in handover_text(sheet)


def test_a_debt_stands_once_on_the_sheet():
    found = section(sheet_of(scenario("S1", "1 17:00")), "Findings and decisions")

    assert not any("8 holes are empty" in line or "still in B1" in line for line in found)
    assert any("PORTS stood bare when the last one signed off" in line for line in found)


def test_a_fault_of_something_that_is_open_anyway_is_not_left_out():
    found = section(sheet_of(scenario("S7", "1 11:30")), "Findings and decisions")

    assert any("MANIFOLD went on over SENSOR BOLT" in line for line in found)


def test_half_done_names_what_is_fitted_and_not_tight_and_what_was_interrupted():
    job = (
        Written().add("set-described", set="HEAD", n=4).add("spec-entered", set="HEAD", min_nm=20, max_nm=25)
    )
    job.add("set-described", set="LID", n=2).add("spec-entered", set="LID", min_nm=5, max_nm=7)
    for name, n in (("HEAD", 4), ("LID", 2)):
        job.add("fasteners-removed", set=name, n=n, to="B1").add(
            "fasteners-fitted", set=name, n=n, source="B1"
        )
    job.add("work-interrupted", element="HEAD", level_reached="snug", reason="phone", by="Ana")

    lines = section(sheet_of(job.entries), "Half done")

    assert lines[0].startswith("HEAD was interrupted at snug (Ana, ") and "Go back three steps" in lines[0]
    assert lines[1].startswith("LID: 2 are fitted and not tight")


def test_the_answers_are_printed_and_a_missing_one_is_said():
    job = Written().add("handover-offered", by="Ana", to="Ben", half_done="the head", voice_note="v1")
    sheet = sheet_of(job.entries)

    assert (sheet.giver, sheet.taker) == ("Ana", "Ben")
    assert section(sheet, "Said, not scanned") == [
        "What is half done? the head",
        "What is dangerous? NOT ANSWERED.",
        "What is not in here? NOT ANSWERED.",
        "Voice note: v1",
    ]


def handed_over() -> Written:
    job = Written()
    for n in (1, 2, 3):
        job.add("fasteners-removed", set=f"SET {n}", n=2, to=f"B{n}")
    job.add("handover-offered", by="Ana")
    return job.add("handover-accepted", by="Ben", giver="Ana", containers=["B1", "B3"], disputed=["SET 2"])


def test_the_signatures_say_which_trays_were_seen():
    sheet = sheet_of(handed_over().entries)

    assert sheet.taker == "Ben"
    assert "trays seen 2 of 3, missing B2." in section(sheet, "Signatures")[1]
    assert section(sheet, "Signatures")[2] == "1 point is disputed: SET 2."
    assert "[x] B1" in handover_text(sheet) and "[ ] B2" in handover_text(sheet)


def test_an_older_acceptance_does_not_sign_a_new_offer():
    sheet = sheet_of(handed_over().add("handover-offered", by="Ben", to="Cho").entries)

    assert (sheet.giver, sheet.taker) == ("Ben", "Cho")
    assert section(sheet, "Signatures")[1] == "Taken, trays seen: ................"


def test_inside_loosened_decisions_and_the_footer():
    job = (
        Written()
        .add("item-brought-in", item="towel", n=2, opening="INTAKE")
        .add("kit-counted", kit="K1", complete=False, missing=["10 mm socket"])
    )
    job.add("set-described", set="CLAMP", n=2).add("fasteners-loosened", set="CLAMP", n=2)
    job.add(
        "finding-decided",
        check="photo-missing",
        subject="CLAMP",
        decision="accept",
        reason="lens was oily",
        role="lead",
    )
    job.add("device-reported", reported_device="phone 2", unsent=3).add(
        "journal-sealed", head="ab" * 32, count=7
    )
    sheet = sheet_of(job.entries)

    assert (
        section(sheet, "Inside")[0].startswith("2 x towel in INTAKE")
        and "10 mm socket" in section(sheet, "Inside")[1]
    )
    assert "CLAMP: 2 loosened in place." in section(sheet, "Loosened or apart")
    assert "Decided by Lee: CLAMP, photo missing, accept: lens was oily." in section(
        sheet, "Findings and decisions"
    )
    assert f"Record: 7 entries sealed up to {'ab' * 32}." in handover_text(sheet)
    assert "phone 2 holds 3 entries not sent." in handover_text(sheet)


def test_a_clean_job_hands_over_nothing_but_signatures():
    sheet = sheet_of(scenario("C0"))
    titles = [
        "Half done",
        "Open mouths",
        "Inside",
        "Loosened or apart",
        "Bags and trays",
        "To renew, on order",
    ]

    assert all(section(sheet, title) == [] for title in [*titles, "Findings and decisions"])
