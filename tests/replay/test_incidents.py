"""Public accident reports replayed: the finding that should have stopped each does; the same work done well is quiet.

`EXPECTED` gives, for each release request of the job asked about, exactly what is found. Report codes and ours:
TRAY_NOT_EMPTY tray-not-empty and hole-empty; UNRECORDED_REMOVAL more-than-logged; TORQUE_MISSING torque-missing, or
loosened-and-left for what never came out; OPENING_OPEN opening-left-open and part-not-back-on; COVER_STILL_ON
cover-left-on; TOOL_OR_ITEM_OUT item-not-out; CONSUMABLE_NOT_RENEWED single-use-reused and old-seal-or-consumable;
LOCKING_DEVICE_MISSING locking-missing; WRONG_PART wrong-fastener; STEP_SKIPPED plan-step-never-touched; FALSE_COMPLETE
signed-but-open; HANDOVER_OPEN_ITEMS recount-differs, handover-gap and other-job-open-on-the-machine;
INDEPENDENT_CHECK_MISSING second-person-missing; SAME_PERSON_ALL_REDUNDANT same-hands-on-both; FUNCTION_TEST_MISSING
test-missing-or-stale; SPEC_SUPERSEDED spec-not-trusted; REPEAT_LOOSE found-bad-not-decided and loose-again.
"""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from tests.builders import mark

from lastbolt.actions.verify import replay_lines
from lastbolt.journal import entry_from, in_order, raws_from_lines
from lastbolt.report.verdict import Verdict, judge, states, verdicts

from .build_incidents import FOLDER, INCIDENTS, files

SKIPPED = [f"step {letter}" for letter in "efghijklm"]
COVERS = {
    (check, f"{thing} {k}", severity)
    for k in (1, 2)
    for check, thing, severity in (
        ("cover-left-on", "ROTOR DRIVE", "B!"),
        ("opening-left-open", "ROTOR DRIVE", "B!"),
        ("part-not-back-on", "ROTOR COVER", "B"),
        ("signed-but-open", "borescope engine", "L"),
    )
}
SCREWS = {
    ("tray-not-empty", "L1", "B"), ("hole-empty", "LEFT TOP SCREWS", "B"), ("recount-differs", "L1", "L"),
}  # fmt: skip
VALUE = {("torque-out-of-range", "THROUGH BOLTS", "B"), ("spec-not-trusted", "THROUGH BOLTS", "L")}
FLOOR = {
    ("part-not-back-on", "TOILET FLOOR", "B"), ("opening-left-open", "TOILET FLOOR OPENING", "B"),
}  # fmt: skip
EXPECTED: dict[str, list[set[tuple[str, str, str]]]] = {
    "ntsb_aar_92_04": [SCREWS],
    "ntsb_aar_92_04_46_refitted": [SCREWS],
    "aaib_1_92": [
        {
            ("wrong-fastener", "WINDSCREEN", "B"), ("tray-not-empty", "W1", "B"),
            ("second-person-missing", "WINDSCREEN", "B"), ("test-missing-or-stale", "CABIN PRESSURE", "B"),
        }
    ],
    "ntsb_air_25_04": [{("more-than-logged", "PLUG BOLTS", "B"), ("opening-left-open", "PLUG OPENING", "B!")}],
    "aaib_3_96": [
        COVERS
        | {
            ("tray-not-empty", "T1", "B"), ("hole-empty", "COVER 1 NUTS", "B"), ("hole-empty", "COVER 2 NUTS", "B"),
            ("test-missing-or-stale", "IDLE LEAK RUN", "B"), ("same-hands-on-both", "controller", "L"),
            ("handover-gap", "controller", "L"),
        }
    ],
    "atsb_ao_2024_006": [
        {("item-not-out", "turning tool", "B!")},
        {("item-not-out", "turning tool", "B!"), ("item-not-out", "borescope tools", "B!")},
    ],
    "atsb_ao_2018_053": [{("cover-left-on", "PITOT PROBES", "B!")}],
    "peru_603": [{("cover-left-on", "STATIC PORTS", "B!")}],
    "tsb_a00o0199": [
        {
            ("handover-gap", "day crew", "L"), ("loosened-and-left", "LEFT COWL LATCHES", "B"),
            ("loosened-and-left", "SCAVENGE CLAMP", "B"),
        }
    ],
    "ntsb_aar_04_01": [
        {("plan-step-never-touched", name, "L") for name in SKIPPED}
        | {("signed-but-open", f"signed: {name}", "L") for name in SKIPPED}
        | {("second-person-missing", "TURNBUCKLES", "B"), ("test-missing-or-stale", "FULL TRAVEL", "B")}
    ],
    "ntsb_aar_13_01": [
        {
            ("single-use-reused", "ROD NUT", "B"), ("old-seal-or-consumable", "SPLIT PIN", "B"),
            ("locking-missing", "ROD NUT", "B"),
        }
    ],
    "cullen_1990": [
        {
            ("opening-left-open", "VALVE FLANGE", "B!"), ("cover-left-on", "VALVE FLANGE", "B!"),
            ("torque-missing", "BLANK FLANGE BOLTS", "B"), ("part-not-back-on", "RELIEF VALVE", "B"),
            ("other-job-open-on-the-machine", "permit 1", "B"),
        },
        {("other-job-open-on-the-machine", "permit 2", "B")},
    ],
    "ntsb_mab_17_21": [{("torque-missing", "INLET FLANGE", "B")}],
    "ntsb_lax06la094": [VALUE],
    "ntsb_lax06la094_old_value": [VALUE],
    "raib_20_2008": [
        {("found-bad-not-decided", "JOINT J", "L"), ("torque-missing", "JOINT J", "B")},
        {("signed-but-open", "inspection", "L")},
    ],
    "raib_02_2018": [FLOOR, FLOOR],
    "raib_02_2018_deferred": [set(), FLOOR | {("changed-after-release", subject, "B") for _, subject, _ in FLOOR}],
}  # fmt: skip


def asked(name: str) -> list[Verdict]:
    return [v for v in replay_lines((FOLDER / f"{name}.jsonl").read_text().splitlines()) if v.at != "end"]


def marks(found: list[Verdict]) -> list[set[tuple[str, str, str]]]:
    return [{(f.check, f.subject, mark(f)) for f in v.findings} for v in found]


@pytest.mark.parametrize("name", EXPECTED)
def test_the_report_is_stopped_by_what_should_have_stopped_it(name: str) -> None:
    assert marks(asked(name)) == EXPECTED[name]


@pytest.mark.parametrize("name", INCIDENTS)
def test_the_good_twin_says_nothing(name: str) -> None:
    assert all(not findings for findings in marks(asked(f"{name}_good_twin")))


@pytest.mark.parametrize("name", EXPECTED)
def test_the_arrival_of_entries_changes_nothing(name: str) -> None:
    raws = raws_from_lines((FOLDER / f"{name}.jsonl").read_text().splitlines())
    entries = [entry_from(raw) for raw in raws]
    mixed = random.Random(11).sample(entries * 2, len(entries) * 2)

    assert marks([v for v in verdicts(mixed) if v.at != "end"]) == EXPECTED[name]


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("ntsb_aar_92_04", "47 pieces are still in L1"),
        ("ntsb_aar_92_04_46_refitted", "1 piece is still in L1"),
        ("aaib_1_92", "84 pieces are still in W1"),
        ("atsb_ao_2018_053", "3 covers (cover 1, cover 2, cover 3) are still on PITOT PROBES"),
        ("peru_603", "3 covers are still on STATIC PORTS"),
        ("ntsb_mab_17_21", "4 fasteners are fitted and not tightened"),
        ("raib_20_2008", "Why it was loose is not written down"),
    ],
)
def test_the_sentence_names_the_number(name: str, said: str) -> None:
    assert any(said in f.sentence for v in asked(name) for f in v.findings)


def test_all_ninety_windscreen_holes_are_named() -> None:
    wrong = next(f for f in asked("aaib_1_92")[0].findings if f.check == "wrong-fastener")

    assert wrong.holes == tuple(range(1, 91))


def test_a_start_looks_at_every_open_job_of_the_machine() -> None:
    raws = raws_from_lines((FOLDER / "cullen_1990.jsonl").read_text().splitlines())
    jobs = states(in_order([entry_from(raw) for raw in raws]))

    found = judge(jobs.pop("permit 1"), tuple(jobs.values()), asking="start").findings

    assert {(f.check, f.subject) for f in found} == {
        ("opening-left-open", "VALVE FLANGE"),
        ("cover-left-on", "VALVE FLANGE"),
    }
    assert all("permit 2" in f.sentence for f in found)


def test_the_files_are_what_the_builder_writes() -> None:
    assert {path.name: path.read_text(encoding="utf-8") for path in Path(FOLDER).glob("*.jsonl")} == files()


@pytest.mark.parametrize("name", INCIDENTS)
def test_each_journal_names_its_source(name: str) -> None:
    first = raws_from_lines((FOLDER / f"{name}.jsonl").read_text().splitlines())[0]

    assert first["kind"] == "job-opened" and first["note"]
