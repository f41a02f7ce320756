"""Twenty clean jobs made from the control (practice 10.1): legal orders shuffled, bags split, phones shared."""

from __future__ import annotations

from random import Random
from typing import Any

import pytest
from tests.builders import mark

from lastbolt.journal import entry_from
from lastbolt.report.verdict import verdicts

from .scenario_journal import SCENARIOS, journal_of

C0 = next(scenario for scenario in SCENARIOS if scenario["id"] == "C0")
APART = range(3, 14)
TOGETHER = range(18, 37)
BEFORE = {
    6: [5], 9: [6], 10: [9], 11: [9, 10, 7], 12: [11, 8], 13: [12],
    19: [18], 21: [20], 22: [19, 21], 23: [22], 24: [23], 25: [24], 26: [25], 27: [26], 28: [22],
    31: [27, 28, 30], 32: [31], 34: [32, 33, 29, 28], 35: [34], 36: [33],
}  # fmt: skip
"""What must come before an event of the control for reasons of the machine; all else is habit."""


def legal_order(random: Random, numbers: range) -> list[int]:
    waiting, done = list(numbers), list[int]()
    while waiting:
        free = [k for k in waiting if all(b in done or b not in numbers for b in BEFORE.get(k, []))]
        done.append(waiting.pop(waiting.index(random.choice(free))))
    return done


def split(random: Random, events: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Put COVER's bolts into two bags, and take them from both."""
    first = random.randint(1, 5)
    out: list[dict[str, Any]] = []
    for event in events:
        if event["e"] in ("fast.remove", "fast.fit") and event["g"] == "COVER":
            way = "to" if event["e"] == "fast.remove" else "from"
            out += [event | {"n": first, way: "T1"}, event | {"n": 6 - first, way: "T3"}]
        elif event["e"] == "handover.accept":
            out.append(event | {"trays": ["T1", "T3", "B1"]})
        else:
            out.append(event)
    return out


def variant(seed: int) -> list[dict[str, Any]]:
    random = Random(seed)
    events = C0["events"]
    order = [0, 1, 2, *legal_order(random, APART), 14, 15, 16, 17, *legal_order(random, TOGETHER), 37]
    shuffled = [events[k] for k in order]
    return split(random, shuffled) if seed % 2 else shuffled


@pytest.mark.parametrize("seed", range(20))
def test_a_clean_variant_stops_nothing(seed: int) -> None:
    events = spaced(variant(seed))
    entries = [entry_from(raw) for raw in journal_of(C0 | {"events": events}, devices=1 + seed % 3)]

    found = verdicts(entries, "job 1")[0].findings

    assert [(f.check, f.subject) for f in found if mark(f) != "I"] == []


def spaced(events: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Give each event a minute of its own; the day keeps its morning and its afternoon."""
    noon = next(number for number, event in enumerate(events) if event["e"] == "sign.off")
    times = [f"1 08:{k:02}" if k < noon else f"1 12:{k - noon:02}" for k in range(len(events))]
    return [event | {"t": time} for event, time in zip(events, times, strict=True)]
