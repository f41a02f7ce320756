"""Multi-stage tightenings printed in service manuals, as a technician records them; read at charm.li and myvehicle.help."""

from __future__ import annotations

from typing import Any, NamedTuple

import pytest
from tests.builders import Told

from lastbolt.report.torque_sheet import torque_sheet

OF_TIGHTENING = {"stage-or-sequence", "torque-missing", "torque-out-of-range", "torque-undone"}
ONE_TO_TEN, ONE_TO_TWELVE = list(range(1, 11)), list(range(1, 13))


class Printed(NamedTuple):
    """A procedure as it is printed: what is said of it, how many holes, and its stages."""

    words: str
    holes: int
    stages: list[dict[str, Any]]


def torque(value: float, holes: list[int] | None = None, **more: Any) -> dict[str, Any]:
    return {"min_nm": value * 0.95, "max_nm": value * 1.05, "holes": holes or [], **more}


def turn(degrees: float, holes: list[int] | None = None) -> dict[str, Any]:
    return {"angle_deg": degrees, "holes": holes or []}


V10 = Printed(
    "V10 inlet: 47 then 122 N·m on 1–12, then the valley bolts 11 N·m",
    16,
    [torque(47, ONE_TO_TWELVE), torque(122, ONE_TO_TWELVE), torque(11, [13, 14, 15, 16])],
)
V8 = Printed(
    "V8 head: 27, 27 again, 14 on 11–14, +90°, +90°, 26 on 11–14",
    14,
    [
        *(torque(27, ONE_TO_TEN), torque(27, ONE_TO_TEN), torque(14, [11, 12, 13, 14])),
        *(turn(90, ONE_TO_TEN), turn(90, ONE_TO_TEN), torque(26, [11, 12, 13, 14])),
    ],
)
V6 = Printed("V6 head: 61, 88, 88 again, + a quarter turn", 8, [torque(61), torque(88), torque(88), turn(90)])
STRETCH = Printed(
    "head: 20, 35, 45 + 90°, +90°, all bolts new",
    10,
    [torque(20), torque(35), {"min_nm": 43, "max_nm": 47, "angle_deg": 90}, turn(90)],
)
ALL = [V10, V8, V6, STRETCH]


def holes_of(printed: Printed, stage: int) -> list[int]:
    return printed.stages[stage - 1].get("holes") or list(range(1, printed.holes + 1))


def fitted(printed: Printed) -> Told:
    told = Told()
    told.say("set-described", set="HEAD", n=printed.holes, type="M10x1.5x90")
    told.say("spec-entered", set="HEAD", source="manual p. 12", stages=printed.stages)
    told.say("fasteners-removed", set="HEAD", n=printed.holes, to="B1")
    told.say("fasteners-fitted", set="HEAD", n=printed.holes, source="NEW")
    return told


def pull(told: Told, printed: Printed, stage: int, **fields: Any) -> None:
    asked = printed.stages[stage - 1]
    middle = (asked["min_nm"] + asked["max_nm"]) / 2 if "min_nm" in asked else None
    said = {"value_nm": middle, "angle_deg": asked.get("angle_deg"), "holes": holes_of(printed, stage)}
    told.say("fasteners-tightened", set="HEAD", stage=stage, **(said | fields))


def next_stages(told: Told) -> set[int]:
    (row,) = torque_sheet(told.state, told.entries).rows
    return {hole.next_stage for hole in row.holes if hole.next_stage is not None}


def wrong(told: Told) -> dict[str, set[int]]:
    return {f.check: set(f.holes) for f in told.findings() if f.check in OF_TIGHTENING}


@pytest.mark.parametrize("printed", ALL, ids=[one.words for one in ALL])
def test_a_printed_procedure_runs_through(printed: Printed) -> None:
    told = fitted(printed)
    for stage in range(1, len(printed.stages) + 1):
        assert min(next_stages(told)) == stage
        pull(told, printed, stage)

    assert next_stages(told) == set()
    assert wrong(told) == {}


@pytest.mark.parametrize("printed", [V8, V6, STRETCH], ids=[one.words for one in (V8, V6, STRETCH)])
def test_leaving_out_a_middle_stage_is_found_for_every_hole_it_was_for(printed: Printed) -> None:
    told = fitted(printed)
    for stage in range(1, len(printed.stages) + 1):
        if stage != 2:
            pull(told, printed, stage)

    assert wrong(told) == {"stage-or-sequence": set(holes_of(printed, 2))}


def test_valley_bolts_do_not_wait_for_stages_that_are_not_theirs() -> None:
    told = fitted(V10)
    pull(told, V10, 3)

    assert wrong(told) == {"torque-missing": set(ONE_TO_TWELVE)}


def test_two_separate_turns_are_not_one_turn_of_180() -> None:
    told = fitted(V8)
    for stage in (1, 2, 3, 4):
        pull(told, V8, stage)
    pull(told, V8, 5, angle_deg=180)
    pull(told, V8, 6)

    assert wrong(told) == {"torque-out-of-range": set(ONE_TO_TEN)}


def test_torque_then_angle_needs_both() -> None:
    told = fitted(STRETCH)
    for stage in (1, 2):
        pull(told, STRETCH, stage)
    pull(told, STRETCH, 3, angle_deg=None)
    assert next_stages(told) == {3}

    pull(told, STRETCH, 3, angle_deg=93)
    assert next_stages(told) == {4}
