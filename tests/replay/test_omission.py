"""The omission test (practice 10): what the verifier notices when entries of the clean job were never recorded.

It is strong against half a record and blind to no record at all: what is quiet here is what only a plan, a
second person's walk-round or the question at release can catch. Run with -s to read the quiet ones.
"""

from __future__ import annotations

from itertools import combinations

from lastbolt.journal import entry_from
from lastbolt.report.verdict import verdicts

from .scenario_journal import SCENARIOS, journal_of

C0 = next(scenario for scenario in SCENARIOS if scenario["id"] == "C0")
EVENTS = C0["events"][:-1]
UNRECORDED = "apart and together again, both unrecorded: nothing in the record contradicts it"
WHY_QUIET = {
    "sign.on": "who is there is taken from who works; a sign-on changes no debt",
    "sign.off": "with the handover accepted, the end of the shift is known anyway",
    "photo.count": "an optional second count; the hand count stands",
}


def is_noticed(left_out: set[int]) -> bool:
    kept = [event for number, event in enumerate(C0["events"]) if number not in left_out]
    entries = [entry_from(raw) for raw in journal_of(C0 | {"events": kept})]
    return bool(verdicts(entries, "job 1")[0].findings)


def named(number: int) -> str:
    event = EVENTS[number]
    thing = next(
        (event[field] for field in ("g", "p", "d", "o", "c", "f", "s", "h", "x") if field in event),
        event["by"],
    )
    return f"{event['e']} {thing}"


def why(left_out: tuple[int, ...]) -> str:
    kinds = [EVENTS[number]["e"] for number in left_out]
    reasons = dict.fromkeys(WHY_QUIET.get(kind, UNRECORDED) for kind in kinds)
    return " / ".join(reasons)


def told(quiet: list[tuple[int, ...]]) -> str:
    return "\n".join(f"  quiet: {' + '.join(map(named, numbers))}: {why(numbers)}" for numbers in quiet)


def test_one_left_out_is_noticed_in_at_least_33_of_37() -> None:
    singles = [(number,) for number in range(len(EVENTS))]
    quiet = [numbers for numbers in singles if not is_noticed(set(numbers))]
    print(f"\n{len(singles) - len(quiet)} of {len(singles)} single omissions noticed\n{told(quiet)}")

    assert len(singles) == 37
    assert len(singles) - len(quiet) >= 33, told(quiet)


def test_two_left_out_are_noticed_in_at_least_655_of_666() -> None:
    pairs = list(combinations(range(len(EVENTS)), 2))
    quiet = [numbers for numbers in pairs if not is_noticed(set(numbers))]
    print(f"\n{len(pairs) - len(quiet)} of {len(pairs)} pairs noticed\n{told(quiet)}")

    assert len(pairs) == 666
    assert len(pairs) - len(quiet) >= 655, told(quiet)


def test_what_is_quiet_has_a_reason() -> None:
    quiet = {EVENTS[number]["e"] for number in range(len(EVENTS)) if not is_noticed({number})}

    assert quiet <= WHY_QUIET.keys()
