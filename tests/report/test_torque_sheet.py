"""The torque sheet: what is asked and pulled, hole by hole; it warns, it never fills in."""

from __future__ import annotations

import re
from datetime import date
from html import unescape
from xml.etree import ElementTree

import pytest
from tests.replay.scenario_journal import SCENARIOS
from tests.report.journals import Written, job_of, scenario

from lastbolt import checks
from lastbolt.finding import Case, Severity
from lastbolt.report.torque_sheet import SetRow, TorqueSheet, torque_sheet
from lastbolt.torque.assembly import ESTIMATE_MARK
from lastbolt.torque.sequence import SUGGESTION_MARK, circle_order
from lastbolt.torque.specification import SOURCE_REMINDER

OF_TIGHTENING = frozenset(
    {"hole-empty", "loosened-and-left", "stage-or-sequence"}
    | {"torque-missing", "torque-out-of-range", "torque-undone"}
)
SOURCE = {"source": "launch engine manual", "revision": "3", "page": "41"}


def lid(n: int = 4, **described) -> Written:
    """A lid that is described and has been taken off."""
    return Written().add(
        "set-described", **({"set": "LID", "n": n, "type": "M8x1.25x30 8.8", "part": "lid"} | described)
    )


def off_and_on(job: Written, n: int = 4, **fields) -> Written:
    job.add("fasteners-removed", set="LID", n=n, to="B1")
    return job.add("fasteners-fitted", set="LID", source="B1", **(fields or {"n": n}))


def value(job: Written, low: float | None = 20, high: float | None = 25, **fields) -> Written:
    return job.add("spec-entered", set="LID", min_nm=low, max_nm=high, **{**SOURCE, "by": "Ana", **fields})


def wrench(
    job: Written, name: str = "W2", low: float | None = 20, high: float | None = 100, **fields
) -> Written:
    job.add("wrench-described", wrench=name, min_nm=low, max_nm=high, **fields)
    return job.add(
        "wrench-calibrated", wrench=name, calibrated_on="2026-01-10", due="2027-01-10T00:00:00+00:00"
    )


def pull(job: Written, value_nm: float | None = 22, **fields) -> Written:
    return job.add(
        "fasteners-tightened", set="LID", value_nm=value_nm, **({"wrench": "W2", "by": "Ben"} | fields)
    )


def sheet_of(job: Written) -> TorqueSheet:
    return torque_sheet(job.state, job.entries)


def row_of(job: Written) -> SetRow:
    (row,) = sheet_of(job).rows
    return row


def states(row: SetRow) -> dict[int, str]:
    return {hole.hole: hole.state for hole in row.holes}


def test_a_value_stands_as_printed_in_exact_newton_metres_and_with_its_page():
    row = row_of(value(lid(type="M10x1.5x30 8.8"), 45, 50, as_written="35 lbf ft", unit="lbf·ft"))

    assert (row.as_written, row.exact) == ("35 lbf ft", "47.453628191599014 N·m")
    assert row.source == "launch engine manual, edition 3, page 41"
    assert (row.typed_by, row.checked_by, row.superseded_by) == ("Ana", (), "")
    assert row.warnings == ()


def test_without_a_print_the_newton_metres_of_the_record_are_shown():
    assert row_of(value(lid(), 20, 25)).exact == "20–25 N·m"
    assert row_of(value(lid(), 22.5, None)).exact == "22.5 N·m"


def test_no_source_a_general_table_and_a_newer_source_are_said():
    bare = row_of(value(lid(), source=None, revision=None, page=None))
    table = row_of(value(lid(), source="shop wall", general_table=True))
    old = row_of(value(lid()).add("spec-superseded", set="LID", by_source="bulletin 7", min_nm=30, max_nm=32))

    assert bare.source == "no source" and bare.warnings[0].startswith("No source is given")
    assert table.source.startswith("no value from the maker, general table used: shop wall")
    assert "the lead decides" in table.warnings[0]
    assert old.superseded_by == "bulletin 7" and "bulletin 7" in old.warnings[0]
    assert (old.stages[0].low_nm, old.stages[0].high_nm) == (30, 32)


def test_who_else_read_the_page_is_named_and_asked_for_where_it_is_critical():
    critical = value(lid(critical=True))

    assert "second person" in " ".join(row_of(critical).warnings)
    checked = row_of(critical.add("spec-checked", set="LID", by="Ida"))
    assert (checked.checked_by, checked.warnings) == (("Ida",), ())


def test_two_units_that_do_not_agree_are_asked_about_and_the_value_stays():
    row = row_of(value(lid(), 10, 10, as_written="10 N·m / 88 lbf·ft"))

    assert "lbf·in written as lbf·ft?" in " ".join(row.warnings)
    assert (row.stages[0].low_nm, row.stages[0].high_nm) == (10, 10)


@pytest.mark.parametrize(
    ("low", "high", "written", "asked"),
    [
        (35, 35, "35 lbf ft", True),
        (45.1, 49.8, "35 lbf ft", False),
        (20, 25, "20-25 N·m", False),
        (20, 27, "20-25 N·m", True),
        (20, 25, "two thumbs", True),
    ],
)
def test_a_record_that_is_not_what_was_printed_is_asked_about(low, high, written, asked):
    said = " ".join(row_of(value(lid(), low, high, as_written=written)).warnings)

    assert bool(re.search("of the record|The record holds", said)) is asked


def test_a_value_that_cannot_be_right_for_the_thread_warns_and_is_marked_as_an_estimate():
    row = row_of(value(lid(type="M6x1x20 8.8"), 100, 110))

    assert "cannot be right for M6" in row.plausibility and row.plausibility.endswith(ESTIMATE_MARK)
    assert row.plausibility in row.warnings
    assert (row.stages[0].low_nm, row.stages[0].high_nm) == (100, 110)


def test_a_low_value_into_a_soft_joint_is_let_be_and_an_unknown_thread_is_said_to_be_unjudged():
    assert "lower than usual" in row_of(value(lid(), 5, 6)).plausibility
    assert row_of(value(lid(gasketed=True), 5, 6)).warnings == ()
    assert row_of(value(lid(type="clip"), 5, 6)).plausibility.startswith("Not judged against a thread")


def test_the_wrench_that_can_be_set_to_the_middle_comes_first_each_with_what_speaks_against_it():
    job = value(lid())
    for name, low, high in (("W1", 4, 20), ("W2", 20, 100), ("W3", None, 200)):
        wrench(job, name, low, high)
    job.add("wrench-described", wrench="W4")
    pull(off_and_on(job), wrench="borrowed")
    suits = {suit.wrench: suit for suit in row_of(job).stages[0].wrenches}

    assert list(suits) == ["W2", "W1", "W3", "W4"]
    assert (suits["W2"].setting_nm, suits["W2"].uncertainty_nm, suits["W2"].suits) == (22.5, 0.9, True)
    assert (suits["W1"].setting_nm, suits["W1"].suits) == (20, True)
    assert "below the range of wrench W3" in suits["W3"].objections[0]
    assert "range of W4 is not recorded" in suits["W4"].objections[0]


def test_a_wrench_is_judged_for_the_day_asked_about():
    job = wrench(value(lid()))

    (now,) = row_of(job).stages[0].wrenches
    (late,) = torque_sheet(job.state, on=date(2027, 1, 10)).rows[0].stages[0].wrenches
    assert (now.suits, late.suits) == (True, False)
    assert "ran out on 2027-01-09" in late.objections[0]


def test_drag_is_added_to_what_is_set_and_to_what_is_asked():
    row = row_of(wrench(value(lid(), prevailing_nm=7)))

    assert (row.drag_nm, row.stages[0].low_nm, row.stages[0].high_nm) == (7, 27, 32)
    assert row.stages[0].wrenches[0].setting_nm == 29.5


def test_a_click_says_reached_and_an_indicating_wrench_gives_a_value_each_with_its_uncertainty():
    job = wrench(off_and_on(value(lid())))
    wrench(job, "D1", 10, 60, wrench_kind="indicating")
    pull(job, 22, holes=[1, 2])
    pull(job, 23.1, holes=[3], wrench="D1")
    pull(job, 22, holes=[4], wrench="borrowed")
    said = {hole.hole: hole.pulls[0] for hole in row_of(job).holes}

    assert said[1].said == "reached 22 N·m (wrench ± 0.88 N·m)"
    assert said[3].said == "23.1 ± 0.92 N·m"
    assert said[4].said == "reached 22 N·m"
    assert (said[3].wrench, said[3].by, said[3].value_nm) == ("D1", "Ben", 23.1)
    assert row_of(job).open_holes == ()


def test_open_holes_come_first_each_with_what_it_owes():
    job = off_and_on(wrench(value(lid(6))), 4, holes=[1, 2, 3])
    pull(job, holes=[1, 2])
    job.add("fasteners-loosened", set="LID", holes=[2])
    row = row_of(job)

    assert [(hole.hole, hole.why) for hole in row.holes if hole.state == "open"] == [
        (2, "Undone since it was tightened."),
        (3, "Not pulled."),
        (4, "Empty."),
    ]
    assert states(row) | {5: "untouched", 6: "untouched", 1: "done"} == states(row)
    assert [hole.hole for hole in row.holes] == [2, 3, 4, 1, 5, 6]


def test_a_pull_out_of_range_leaves_its_hole_open_and_says_why():
    job = pull(off_and_on(wrench(value(lid(), 89.3, 91.5))), 79, holes=[1])
    pull(job, 89.26, holes=[2])
    row = row_of(job)

    assert states(row)[1] == "open" and "79 N·m where 89.3–91.5 N·m is asked" in row.holes[0].why
    assert states(row)[2] == "done"


def test_of_two_ends_only_the_one_that_was_entered_is_held_to():
    job = pull(off_and_on(wrench(value(lid(), 20, None))), 24, holes=[1])
    pull(job, 18, holes=[2])

    assert (states(row_of(job))[1], states(row_of(job))[2]) == ("done", "open")


def test_stages_are_told_one_by_one_and_a_skipped_one_stays_open():
    stages = [{"min_nm": 10, "max_nm": 12}, {"min_nm": 20, "max_nm": 22, "angle_deg": 90}]
    job = off_and_on(wrench(value(lid(), None, None, stage_count=2, stages=stages, order=[1, 3, 2, 4])))
    pull(job, 11, stage=1, holes=[1, 3, 2])
    pull(job, 21, stage=2, holes=[1], angle_deg=91)
    pull(job, 21, stage=2, holes=[4], angle_deg=90)
    row = row_of(job)

    assert [(s.stage, s.low_nm, s.high_nm, s.angle_deg) for s in row.stages] == [
        (1, 10, 12, None),
        (2, 20, 22, 90),
    ]
    assert {h.hole: h.next_stage for h in row.holes} == {2: 2, 3: 2, 4: 1, 1: None}
    assert row.holes[-1].pulls[1].said == "reached 21 N·m (wrench ± 0.84 N·m) + 91°"
    assert row.drawing is not None and row.drawing.title == "Stage 1 of 2: 3 of 4 done"


def test_the_drawing_numbers_the_makers_order_and_fills_what_is_done():
    job = pull(off_and_on(wrench(value(lid(), order=[1, 3, 2, 4]))), holes=[1, 3])
    drawing = row_of(job).drawing
    assert drawing is not None
    root = ElementTree.fromstring(drawing.svg)
    texts = [element.text for element in root.iter("{http://www.w3.org/2000/svg}text")]

    assert (drawing.order, drawing.is_suggested, drawing.title) == (
        (1, 3, 2, 4),
        False,
        "Tightening order: 2 of 4 done",
    )
    assert {"1.", "2.", "3.", "4."} <= set(texts)
    assert SUGGESTION_MARK not in unescape(drawing.svg)
    assert "style" not in drawing.svg and "script" not in drawing.svg
    assert "Drawn on a circle" in drawing.remark


def test_an_order_of_our_own_is_marked_as_a_suggestion():
    drawing = row_of(value(lid(8))).drawing

    assert drawing is not None and drawing.is_suggested and drawing.order == circle_order(8)
    assert SUGGESTION_MARK in unescape(drawing.svg)


def test_holes_that_were_never_touched_are_not_drawn_beside_those_that_were():
    drawing = row_of(off_and_on(wrench(value(lid(6))), 2, holes=[1, 2])).drawing

    assert drawing is not None and drawing.title == "Tightening order: 0 of 2 done"
    assert drawing.remark.endswith("4 not touched in this job and not drawn.")


def test_pins_of_every_hole_on_one_photo_place_the_holes():
    job = value(lid(4)).add("photo-added", photo="ph1", width=2000, height=1000)
    for hole, (x, y) in enumerate([(0.1, 0.1), (0.9, 0.1), (0.9, 0.9)], start=1):
        job.add("photo-pinned", photo="ph1", element="LID", hole=hole, x=x, y=y)
    before = row_of(job).drawing
    after = row_of(job.add("photo-pinned", photo="ph1", element="LID", hole=4, x=0.1, y=0.9)).drawing
    rejected = row_of(job.add("photo-rejected", photo="ph1", why="blurred")).drawing

    assert before is not None and after is not None and rejected is not None
    assert "circle" in before.remark and after.remark == "Drawn from the pins on a photo."
    assert rejected.svg == before.svg != after.svg
    box = re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', after.svg)
    assert box is not None and float(box[1]) > float(box[2])


def test_figures_that_cannot_be_meant_are_asked_about():
    upside_down = row_of(value(lid(), 25, 20))
    short = row_of(value(lid(), order=[1, 3]))

    assert upside_down.warnings[0] == "Stage 1 has a range that does not run upwards from above zero."
    assert short.warnings == ("Stage 1 has an order that does not name each of its holes once.",)


def test_a_value_for_a_set_of_which_nothing_else_is_known_has_no_hole_and_no_drawing():
    row = row_of(
        value(Written().add("photo-pinned", photo="ph1", element="LID", hole=1, x=0, y=0), order=[1, 2])
    )

    assert (row.holes, row.drawing, row.warnings) == ((), None, ())


def test_a_hole_beyond_those_of_the_set_is_shown_too():
    row = row_of(pull(value(lid(2)), holes=[5]))

    assert [hole.hole for hole in row.holes] == [5, 1, 2]


def test_one_or_two_holes_are_drawn_only_for_an_order_of_the_makers():
    assert row_of(value(lid(1))).drawing is None
    assert row_of(value(lid(2))).drawing is None
    drawing = row_of(value(lid(2), order=[2, 1])).drawing
    assert drawing is not None and (drawing.order, drawing.is_suggested) == ((2, 1), False)


def test_sets_with_open_holes_come_first_and_sets_without_a_value_are_named():
    job = value(lid(2))
    for name in ("PUMP", "CAP"):
        job.add("set-described", set=name, n=1).add("spec-entered", set=name, min_nm=9, max_nm=11, **SOURCE)
    job.add("fasteners-removed", set="CAP", n=1, to="B1").add("fasteners-removed", set="GUARD", n=2, to="B2")
    job.add("spec-entered", set="KNOB", hand_tight=True).add("fasteners-removed", set="KNOB", n=1, to="B3")
    sheet = sheet_of(job)

    assert [row.set for row in sheet.rows] == ["CAP", "LID", "PUMP"]
    assert sheet.without_value == ("GUARD",)
    assert sheet.on == date(2026, 3, 2)


def test_a_value_written_by_no_entry_of_its_ends_is_shown_and_asks_nothing_of_ours():
    row = row_of(wrench(value(lid(), None, None, as_written="see page")))

    assert row.stages[0].low_nm is None and row.stages[0].wrenches == ()
    assert row.warnings[0] == "The specification has no stage: enter at least one."
    assert "cannot be compared" in row.warnings[1]


@pytest.mark.parametrize("name", [s["id"] for s in SCENARIOS])
def test_a_set_has_open_holes_just_when_a_check_of_its_tightening_stops_release(name: str):
    """At every moment of every scenario: two routes to one answer, the sheet's holes and the checks' findings."""
    entries = scenario(name)
    for moment in range(1, len(entries) + 1):
        job = job_of(entries[:moment])
        found = checks.run(Case(job, at=job.now))
        stopped = {f.subject for f in found if f.check in OF_TIGHTENING and f.severity is Severity.STOP}
        for row in torque_sheet(job).rows:
            assert bool(row.open_holes) == (row.set in stopped), (row.set, moment, row.holes)


@pytest.mark.parametrize("name", [s["id"] for s in SCENARIOS])
def test_the_sheet_of_every_scenario_carries_its_cautions_and_promises_nothing(name: str):
    entries = scenario(name)
    sheet = torque_sheet(job_of(entries), entries)

    assert sheet.cautions == (SOURCE_REMINDER, ESTIMATE_MARK, SUGGESTION_MARK)
    assert re.findall(r"\b(safe|ok|airworthy|verified)\b", str(sheet), re.IGNORECASE) == []
    assert all(
        row.drawing is None or ElementTree.fromstring(row.drawing.svg) is not None for row in sheet.rows
    )
