"""The same work written down in another way gives the same verdicts, and nothing raises."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from datetime import datetime, timedelta, timezone
from typing import Any

import pytest
from tests.builders import Line, back, e, mark, out, set_of, told

from lastbolt.journal import entry_from
from lastbolt.report.verdict import verdicts

from .more_scenario_journal import MORE_SCENARIOS
from .more_scenario_journal import journal_of as more_journal_of
from .scenario_journal import SCENARIOS
from .scenario_journal import journal_of as journal_of

Raw = dict[str, Any]
Rewrite = Callable[[list[Raw]], list[Raw]]
ALL_JOURNALS = {s["id"]: journal_of(s) for s in SCENARIOS} | {
    s["id"]: more_journal_of(s) for s in MORE_SCENARIOS
}
PIECES = ("fasteners-removed", "fasteners-fitted", "fasteners-loosened")
IN_LOCAL_HOURS = {"N15"}
"""Night falls by the clock on the wall: where the zone changes, so does what was left alone overnight."""
TYPES_DIFFER = {"S20", "S23"}
"""Bolts of another type lie in the bag: to say the wanted type at each fitting is another story."""
NEEDS_JOB = {"S6", "S8", "S14", "S15", "N14"}
"""Licences, the machine, the level and its units stand in the job's first entry."""


def is_standing(raw: Raw) -> bool:
    kind = raw["kind"]
    return kind.endswith("-described") or kind in (
        "job-opened",
        "spec-entered",
        "renewal-needed",
        "access-said",
    )


def wanted_n(raws: list[Raw]) -> dict[str, int]:
    return {raw["set"]: raw["n"] for raw in raws if raw["kind"] == "set-described"}


def is_all_of_a_set(raw: Raw, wanted: dict[str, int]) -> bool:
    return raw["kind"] in PIECES and not raw.get("holes") and raw.get("n") == wanted.get(raw["set"])


def standing_at_the_first_instant(raws: list[Raw]) -> list[Raw]:
    start = next(raw["at"] for raw in raws if not is_standing(raw) and raw["job"] == "job 1")
    return [raw | {"at": start} if is_standing(raw) else raw for raw in raws]


def standing_from_a_desk(raws: list[Raw]) -> list[Raw]:
    desk = [raw | {"device": "desk", "seq": k} for k, raw in enumerate(filter(is_standing, raws), 1)]
    return [*(raw for raw in standing_at_the_first_instant(raws) if not is_standing(raw)), *desk]


def sets_without_part(raws: list[Raw]) -> list[Raw]:
    return [
        {key: value for key, value in raw.items() if key != "part" or raw["kind"] != "set-described"}
        for raw in raws
    ]


def no_number_for_all(raws: list[Raw]) -> list[Raw]:
    wanted = wanted_n(raws)
    return [
        {k: v for k, v in raw.items() if k != "n" or not (is_all_of_a_set(raw, wanted) or raw.get("holes"))}
        for raw in raws
    ]


def every_hole_named(raws: list[Raw]) -> list[Raw]:
    wanted = wanted_n(raws)
    return [
        raw | {"holes": list(range(1, raw["n"] + 1))} if is_all_of_a_set(raw, wanted) else raw for raw in raws
    ]


def numbered_by(key: Callable[[Raw], str], device: Callable[[Raw], str]) -> Rewrite:
    def rewrite(raws: list[Raw]) -> list[Raw]:
        seq: Counter[str] = Counter()
        written = []
        for raw in raws:
            if raw["device"].startswith("device"):
                seq[key(raw)] += 1
                raw = raw | {"seq": seq[key(raw)], "device": device(raw)}
            written.append(raw)
        return written

    return rewrite


def in_zone(hours: float) -> Rewrite:
    zone = timezone(timedelta(hours=hours))
    return lambda raws: [
        raw | {"at": datetime.fromisoformat(raw["at"]).astimezone(zone).isoformat()} for raw in raws
    ]


def without_job(raws: list[Raw]) -> list[Raw]:
    return [raw for raw in raws if raw["kind"] != "job-opened" or raw["job"] != "job 1"]


def types_said_each_time(raws: list[Raw]) -> list[Raw]:
    types = {raw["set"]: raw.get("type") for raw in raws if raw["kind"] == "set-described"}
    return [
        raw | {"type": types[raw["set"]]}
        if raw["kind"] in PIECES[:2] and types.get(raw["set"]) and not raw.get("type")
        else raw
        for raw in raws
    ]


def accounts_in_small_letters(raws: list[Raw]) -> list[Raw]:
    return [
        raw | {key: raw[key].lower() for key in ("to", "source") if raw.get(key) in ("NEW", "SCRAP")}
        for raw in raws
    ]


def roles_in_each_entry(raws: list[Raw]) -> list[Raw]:
    roles = {"Lee": "lead", "Gus": "helper", "Ida": "licensed"}
    return [raw | {"role": roles.get(raw["by"], "tech")} for raw in raws]


def another_job_in_the_file(raws: list[Raw]) -> list[Raw]:
    more = ("job-opened", {"machine": "a pump", "title": "Pump"}), ("fasteners-removed", {"set": "X", "n": 4})
    return raws + [
        raws[0]
        | {"id": f"{raws[0]['id'][:-4]}b00{k}", "job": "job 77", "device": "other", "seq": k, "kind": kind}
        | fields
        for k, (kind, fields) in enumerate(more, 1)
    ]


REWRITES: dict[str, Rewrite] = {
    "standing data at the first instant": standing_at_the_first_instant,
    "standing data from a desk": standing_from_a_desk,
    "sets without their part": sets_without_part,
    "no number where all are meant": no_number_for_all,
    "every hole named": every_hole_named,
    "each person a phone": numbered_by(lambda raw: str(raw["by"]), lambda raw: f"phone of {raw['by']}"),
    "one phone that counts for each person": numbered_by(lambda raw: str(raw["by"]), lambda raw: "phone"),
    "a phone that never counts": lambda raws: [raw | {"seq": 1} for raw in raws],
    "two hours east": in_zone(2),
    "five and a half hours east": in_zone(5.5),
    "five hours west": in_zone(-5),
    "no first entry": without_job,
    "types said each time": types_said_each_time,
    "accounts in small letters": accounts_in_small_letters,
    "roles in each entry": roles_in_each_entry,
    "another job in the file": another_job_in_the_file,
}


def found(raws: list[Raw]) -> list[set[tuple[str, str, str]]]:
    given = verdicts([entry_from(raw) for raw in raws], "job 1")[:-1]
    return [{(f.check, f.subject, mark(f)) for f in verdict.findings} for verdict in given]


@pytest.mark.parametrize("how", REWRITES)
@pytest.mark.parametrize("name", ALL_JOURNALS)
def test_the_verdicts_stay(name: str, how: str) -> None:
    raws = ALL_JOURNALS[name]
    rewritten = found(REWRITES[how](raws))

    other_story = {"no first entry": NEEDS_JOB, "types said each time": TYPES_DIFFER}
    if name in other_story.get(how, IN_LOCAL_HOURS if how.endswith(("east", "west")) else set()):
        assert len(rewritten) == len(found(raws))
    else:
        assert rewritten == found(raws)


PARKED = [set_of(3), out(2, holes=[2, 3]), e("fasteners-removed", set="LID", holes=[1], to="hole")]
CURED: dict[str, list[Line]] = {
    "parked by the word hole and put home from it": [
        *PARKED, back(2), e("fasteners-fitted", set="LID", n=1, source="hole"),
    ],
    "parked, and put home before the others": [
        *PARKED, e("fasteners-fitted", set="LID", holes=[1], source="hole"), back(2),
    ],
    "latches slackened by one word and shut by the other": [
        e("set-described", set="LATCHES", n=4, captive=True),
        e("fasteners-loosened", set="LATCHES"), e("captive-shut", set="LATCHES", points=4),
    ],
    "latches released and tightened": [
        e("set-described", set="LATCHES", n=4, captive=True),
        e("captive-released", set="LATCHES", points=4), e("fasteners-retightened", set="LATCHES"),
    ],
    "found without a bolt after five were counted out": [
        set_of(6), out(5), e("fasteners-found-bad", set="LID", holes=[2], defect="missing"), back(5),
        e("finding-decided", by="Lee", check="found-bad-not-decided", subject="LID", decision="accept", reason="was so"),
    ],
    "old ones sent to sent_out": [
        set_of(2), out(2), back(2, "STORE"), e("fasteners-moved", set="LID", n=2, source="B1", to="sent_out"),
    ],
}  # fmt: skip


@pytest.mark.parametrize("lines", CURED.values(), ids=CURED)
def test_said_in_other_words_it_is_cured_all_the_same(lines: list[Line]) -> None:
    given = told(*lines, e("release-asked", by="Lee")).findings()

    assert [(f.check, f.subject) for f in given] == []


def test_a_piece_that_is_only_parked_stays_open() -> None:
    given = told(*PARKED, back(2), e("release-asked", by="Lee")).findings()

    assert [(f.check, f.subject, f.holes) for f in given] == [("hole-empty", "LID", (1,))]


def test_a_set_described_after_its_bolts_came_out_still_knows_a_wrong_new_one() -> None:
    new = e("fasteners-moved", set="LID", n=4, source="NEW", to="NB", type="M6x1x30")
    given = told(out(4), set_of(4), new, back(4, "NB"), e("release-asked", by="Lee")).findings()

    assert {(f.check, f.subject) for f in given} == {("wrong-fastener", "LID"), ("tray-not-empty", "B1")}
