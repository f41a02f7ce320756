"""Write the journals of public accident reports, and of the same work done well, as JSON Lines.

The first entry names the source; what was invented to make a replay complete says `(fill)` in its note.
Run `python -m tests.replay.build_incidents` to write the files anew.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from tests.builders import Told

FOLDER = Path(__file__).parent / "incidents"
FILL = "(fill)"


def at(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


def tell(source: str, *, start: str, machine: str, title: str, **opened: Any) -> Told:
    told = Told(
        start=at(start), machine=machine, title=title, job=opened.pop("job", "job 1"), note=source, **opened
    )
    for person in ("inspector", "lead"):
        told.say(
            "person-described",
            after=0,
            by="lead",
            person=person,
            roles=["tech" if person == "inspector" else "lead"],
            note=FILL,
        )
    return told


def ask(told: Told, when: str, job: str | None = None) -> Told:
    told.say("release-asked", at=at(when), by="lead", job=job, nothing_else_apart=True)
    return told


def leading_edge_screws(good: bool = False, refitted: int = 0) -> Told:
    """47 screws left out across a shift change."""
    t = tell(
        "NTSB/AAR-92/04", start="1991-09-10T21:30", machine="the stabilizer", title="Left and right de-ice boot",
    )  # fmt: skip
    for side, n in (("RIGHT EDGE SCREWS", 90), ("LEFT TOP SCREWS", 47)):
        t.say("set-described", after=0, set=side, n=n, critical=True, note=FILL)
    t.say("signed-on", by="tech A", at=at("1991-09-10T21:35"), note=FILL)
    t.say(
        "fasteners-removed",
        by="tech A",
        at=at("1991-09-10T22:00"),
        set="RIGHT EDGE SCREWS",
        n=90,
        to="R1",
        note=FILL,
    )
    t.say(
        "fasteners-removed",
        by="inspector",
        at=at("1991-09-10T22:10"),
        set="LEFT TOP SCREWS",
        n=47,
        to="L1",
        note=FILL,
    )
    t.say("signed-off", by="tech A", at=at("1991-09-10T22:30"), why="shift", note=FILL)
    t.say("signed-on", by="tech C", at=at("1991-09-10T22:40"), note=FILL)
    t.say(
        "handover-accepted",
        by="tech C",
        giver="tech A",
        containers=["R1", "L1"] if good else ["R1"],
        note=FILL,
    )
    t.say(
        "fasteners-fitted",
        by="tech C",
        at=at("1991-09-11T02:00"),
        set="RIGHT EDGE SCREWS",
        n=90,
        source="R1",
        note=FILL,
    )
    if good or refitted:
        t.say(
            "fasteners-fitted",
            by="tech C",
            after=30,
            set="LEFT TOP SCREWS",
            n=47 if good else refitted,
            source="L1",
            note=FILL,
        )
    t.say("step-done", by="tech C", after=10, name="right boot", elements=["RIGHT EDGE SCREWS"], note=FILL)
    t.say(
        "second-checked",
        by="inspector B",
        after=10,
        elements=["RIGHT EDGE SCREWS", "LEFT TOP SCREWS"],
        note=FILL,
    )
    if not good:
        for check, subject in (("tray-not-empty", "L1"), ("hole-empty", "LEFT TOP SCREWS")):
            t.say(
                "finding-decided",
                by="lead",
                at=at("1991-09-11T03:00"),
                check=check,
                subject=subject,
                decision="defer",
                reason="left boot comes tomorrow night",
                note=FILL,
            )
    return ask(t, "1991-09-11T06:00")


def windscreen(good: bool = False) -> Told:
    """Ninety out, ninety in, none of them right."""
    t = tell("AAIB 1/92", start="1990-06-08T02:00", machine="the airliner", title="Left windscreen")
    t.say("set-described", after=0, set="WINDSCREEN", n=90, type="A211-8D", part="SCREEN", critical=True)
    t.say("test-described", after=0, test="CABIN PRESSURE", scope=["WINDSCREEN"], note=FILL)
    t.say("signed-on", by="manager")
    t.say("fasteners-removed", by="manager", set="WINDSCREEN", n=90, type="A211-7D", to="W1")
    t.say("part-removed", by="manager", part="SCREEN")
    if good:
        t.say(
            "fasteners-moved", by="manager", set="WINDSCREEN", n=90, source="STORE", to="N1", type="A211-8D"
        )
        t.say("part-fitted", by="manager", part="SCREEN")
        t.say("fasteners-fitted", by="manager", set="WINDSCREEN", n=90, source="N1")
        t.say("fasteners-moved", by="manager", set="WINDSCREEN", n=90, source="W1", to="SCRAP")
        t.say("second-checked", by="inspector", elements=["WINDSCREEN"])
        t.say("test-run", by="inspector", test="CABIN PRESSURE", passed=True)
    else:
        t.say(
            "fasteners-moved", by="manager", set="WINDSCREEN", n=84, source="STORE", to="N1", type="A211-8C"
        )
        t.say("fasteners-moved", by="manager", set="WINDSCREEN", n=6, source="STORE", to="N2", type="A211-9D")
        t.say("part-fitted", by="manager", part="SCREEN")
        t.say(
            "fasteners-fitted",
            by="manager",
            set="WINDSCREEN",
            holes=list(range(1, 85)),
            source="N1",
            type="A211-8C",
        )
        t.say("fasteners-moved", by="manager", set="WINDSCREEN", n=6, source="N2", to="STORE", type="A211-9D")
        t.say(
            "fasteners-fitted",
            by="manager",
            set="WINDSCREEN",
            holes=list(range(85, 91)),
            source="W1",
            type="A211-7D",
        )
        t.say("second-checked", by="manager", elements=["WINDSCREEN"], note="performer is inspector")
    return ask(t, "1990-06-08T06:00")


def door_plug(good: bool = False) -> Told:
    """Four bolts never refitted, and no record that they came out."""
    t = tell(
        "NTSB AIR-25-04",
        start="2023-09-18T08:00",
        machine="the fuselage",
        title="Rivets beside the door plug",
    )
    t.say("set-described", after=0, set="PLUG BOLTS", n=4, part="DOOR PLUG", critical=True)
    t.say("opening-described", after=0, opening="PLUG OPENING", opening_class="B", note=FILL)
    t.say("access-said", after=0, part="INSULATION", element="PLUG BOLTS", need="placed", note=FILL)
    t.say("signed-on", by="tech", note=FILL)
    t.say("part-removed", by="tech", part="INSULATION", note=FILL)
    if good:
        t.say("fasteners-removed", by="tech", set="PLUG BOLTS", n=4, to="T1")
    t.say("part-removed", by="tech", part="DOOR PLUG")
    t.say("opening-opened", by="tech", opening="PLUG OPENING")
    t.say("step-done", by="riveter", at=at("2023-09-19T10:00"), name="rivets", note="5 rivets (fill)")
    t.say("part-fitted", by="tech", at=at("2023-09-19T16:00"), part="DOOR PLUG", photos=["three-empty-holes"])
    if good:
        t.say("looked-inside", by="tech", opening="PLUG OPENING")
        t.say("opening-closed", by="tech", opening="PLUG OPENING")
        t.say("fasteners-fitted", by="tech", set="PLUG BOLTS", n=4, source="T1")
        t.say("second-checked", by="inspector", elements=["PLUG BOLTS"])
    t.say("part-fitted", by="tech", part="INSULATION")
    return ask(t, "2023-09-20T08:00")


def rotor_covers(good: bool = False) -> Told:
    """Two covers not refitted, the job signed, nobody ran the engines."""
    t = tell(
        "AAIB 3/96", start="1995-02-22T22:00", machine="the airliner", title="Borescope of both engines",
        redundant_units=["engine 1", "engine 2"],
    )  # fmt: skip
    for k in (1, 2):
        t.say(
            "set-described",
            after=0,
            set=f"COVER {k} NUTS",
            n=3,
            part=f"ROTOR COVER {k}",
            unit=f"engine {k}",
            critical=True,
            note=FILL,
        )
        t.say("part-described", after=0, part=f"COWL {k}", unit=f"engine {k}", note=FILL)
        t.say("opening-described", after=0, opening=f"ROTOR DRIVE {k}", opening_class="A")
    t.say("test-described", after=0, test="IDLE LEAK RUN", scope=["ROTOR COVER 1", "ROTOR COVER 2"])
    t.say("signed-on", by="line engineer")
    for k in (1, 2):
        t.say("part-removed", by="line engineer", part=f"COWL {k}", note=FILL)
        t.say("fasteners-removed", by="line engineer", set=f"COVER {k} NUTS", n=3, to="T1", note=FILL)
        t.say("part-removed", by="line engineer", part=f"ROTOR COVER {k}")
        t.say("opening-opened", by="line engineer", opening=f"ROTOR DRIVE {k}")
        t.say("opening-covered", by="line engineer", opening=f"ROTOR DRIVE {k}", note=FILL)
    t.say("signed-off", by="line engineer", why="shift")
    t.say("signed-on", by="controller")
    if good:
        t.say("handover-accepted", by="controller", giver="line engineer", containers=["T1"])
    for k in (1, 2):
        if good:
            t.say("opening-uncovered", by="controller", opening=f"ROTOR DRIVE {k}")
            t.say("looked-inside", by="controller", opening=f"ROTOR DRIVE {k}", how="scope")
            t.say("part-fitted", by="controller", part=f"ROTOR COVER {k}")
            t.say("opening-closed", by="controller", opening=f"ROTOR DRIVE {k}")
            t.say("fasteners-fitted", by="controller", set=f"COVER {k} NUTS", n=3, source="T1")
            t.say("second-checked", by="inspector", elements=[f"COVER {k} NUTS", f"COWL {k}"])
        t.say("part-fitted", by="controller", part=f"COWL {k}")
        t.say(
            "step-done",
            by="controller",
            name=f"borescope engine {k}",
            elements=[f"ROTOR COVER {k}", f"COVER {k} NUTS"],
        )
    if good:
        t.say("test-run", by="controller", test="IDLE LEAK RUN", passed=True)
    return ask(t, "1995-02-23T06:00")


def turning_tool(good: bool = False) -> Told:
    """A tool left in an engine inlet and flown 34 times."""
    t = tell(
        "ATSB AO-2024-006", start="2023-12-06T07:00", machine="the airliner", title="Borescope of engine 1"
    )
    t.say("signed-on", by="engineer A")
    t.say("item-brought-in", by="engineer A", item="turning tool", opening="engine 1 inlet")
    if good:
        t.say(
            "item-taken-out",
            by="engineer A",
            at=at("2023-12-06T12:50"),
            item="turning tool",
            opening="engine 1 inlet",
        )
    t.say("signed-off", by="engineer A", at=at("2023-12-06T13:00"), why="shift")
    t.say("signed-on", by="engineer B", at=at("2023-12-06T13:05"), note=FILL)
    if good:
        t.say("handover-accepted", by="engineer B", giver="engineer A")
    ask(t, "2023-12-06T13:10")
    t.say(
        "step-done", by="engineer B", at=at("2023-12-06T18:00"), name="look for things left behind", note=FILL
    )
    t.say(
        "step-done",
        by="engineer C",
        at=at("2023-12-06T18:05"),
        name="look for things left behind, second",
        note=FILL,
    )
    t.say(
        "kit-counted",
        by="tool store",
        at=at("2023-12-07T09:00"),
        kit="borescope tools",
        complete=good,
        missing=[] if good else ["turning tool"],
    )
    if not good:
        for check in ("item-not-out",):
            for subject in ("turning tool", "borescope tools"):
                t.say(
                    "finding-decided",
                    by="lead",
                    check=check,
                    subject=subject,
                    decision="clear",
                    reason="report was down-graded",
                )
    return ask(t, "2023-12-08T08:00")


def probe_covers(good: bool = False) -> Told:
    """Three probe covers left on."""
    t = tell("ATSB AO-2018-053", start="2018-07-18T20:10", machine="the airliner", title="Turnaround")
    t.say("opening-described", after=0, opening="PITOT PROBES", opening_class="A", mouths=3, always_open=True)
    t.say("signed-on", by="support engineer")
    t.say(
        "opening-covered",
        by="support engineer",
        opening="PITOT PROBES",
        covers=["cover 1", "cover 2", "cover 3"],
    )
    t.say("step-done", by="captain", after=60, name="walk-round", note="partial (fill)")
    if good:
        t.say(
            "opening-uncovered",
            by="support engineer",
            opening="PITOT PROBES",
            covers=["cover 1", "cover 2", "cover 3"],
        )
    return ask(t, "2018-07-18T23:20")


def static_tape(good: bool = False) -> Told:
    """Tape left on static ports after a wash."""
    t = tell(
        "Aeroperu 603, Peruvian commission (from memory)",
        start="1996-10-01T20:00",
        machine="the airliner",
        title="Wash and polish",
    )
    t.say(
        "opening-described",
        after=0,
        opening="STATIC PORTS",
        opening_class="A",
        mouths=6,
        always_open=True,
        note=FILL,
    )
    t.say("signed-on", by="cleaner", note=FILL)
    t.say("opening-covered", by="cleaner", opening="STATIC PORTS", n=6, note="tape; the number is (fill)")
    t.say("opening-uncovered", by="cleaner", after=90, opening="STATIC PORTS", n=6 if good else 3, note=FILL)
    t.say("step-done", by="supervisor", name="wash and polish")
    return ask(t, "1996-10-02T00:10")


def cowl_latches(good: bool = False) -> Told:
    """Cowls closed and on purpose not latched, told by word only."""
    t = tell("TSB A00O0199", start="2000-09-12T19:00", machine="the airliner", title="Left engine oil leak")
    for side in ("LEFT", "RIGHT"):
        t.say(
            "set-described",
            after=0,
            set=f"{side} COWL LATCHES",
            n=4,
            captive=True,
            note="the number is (fill)",
        )
    t.say("set-described", after=0, set="SCAVENGE CLAMP", n=1, loosened_only=True)
    t.say(
        "spec-entered", after=0, set="SCAVENGE CLAMP", min_nm=4, max_nm=6, source="maker's manual", note=FILL
    )
    t.say("signed-on", by="night crew")
    t.say("captive-released", by="night crew", set="LEFT COWL LATCHES")
    t.say("fasteners-loosened", by="night crew", set="SCAVENGE CLAMP")
    t.say("handover-offered", by="night crew", half_done="spoken only", note=FILL)
    t.say("signed-off", by="night crew", at=at("2000-09-13T07:00"), why="shift")
    t.say("signed-on", by="day crew", at=at("2000-09-13T07:05"), note=FILL)
    if good:
        t.say("handover-accepted", by="day crew", giver="night crew")
        t.say("fasteners-tightened", by="day crew", set="SCAVENGE CLAMP", value_nm=5)
        t.say("captive-shut", by="day crew", set="LEFT COWL LATCHES", points=4)
    t.say("captive-released", by="day crew", set="RIGHT COWL LATCHES", note=FILL)
    t.say("captive-shut", by="day crew", set="RIGHT COWL LATCHES", note=FILL)
    return ask(t, "2000-09-13T15:30")


def rigging(good: bool = False) -> Told:
    """Nine steps of a rigging procedure skipped, all of them signed, the inspector was the trainer."""
    names = [f"step {letter}" for letter in "abcdefghijklmnopqrstuvwxy"]
    skipped = set() if good else set(names[4:13])
    t = tell(
        "NTSB/AAR-04/01", start="2003-01-06T21:00", machine="the commuter", title="Elevator cable tension"
    )
    t.say("set-described", after=0, set="TURNBUCKLES", n=2, critical=True, loosened_only=True)
    t.say("test-described", after=0, test="FULL TRAVEL", scope=["TURNBUCKLES"])
    t.say(
        "plan-adopted",
        after=0,
        by="lead",
        plan="rigging",
        version="1",
        elements=names,
        note="25 steps is (fill), 9 skipped is read",
    )
    t.say("signed-on", by="mechanic")
    t.say("fasteners-loosened", by="mechanic", set="TURNBUCKLES")
    for name in names:
        if name not in skipped:
            t.say("setting-found", by="mechanic", setting=name, value=1, note=FILL)
            t.say("setting-set", by="mechanic", setting=name, value=1, note=FILL)
    t.say("fasteners-retightened", by="mechanic", set="TURNBUCKLES", holes=[1])
    t.say(
        "fasteners-retightened",
        by="mechanic" if good else "inspector",
        set="TURNBUCKLES",
        holes=[2],
        note="the inspector is the trainer",
    )
    for name in names:
        t.say("step-done", by="mechanic", name=f"signed: {name}", elements=[name])
    t.say("second-checked", by="inspector", elements=["TURNBUCKLES"])
    if good:
        t.say("test-run", by="inspector", test="FULL TRAVEL", passed=True)
    return ask(t, "2003-01-07T06:00")


def servo_rod(good: bool = False) -> Told:
    """A worn self-locking nut went back without a split pin."""
    t = tell("NTSB/AAR-13/01", start="2011-12-06T08:00", machine="the helicopter", title="Fore-aft servo")
    t.say(
        "set-described",
        after=0,
        set="ROD NUT",
        n=1,
        type="M8x1.25/nut",
        single_use=True,
        locking="split-pin",
        critical=True,
        note="size is (fill)",
    )
    t.say(
        "spec-entered", after=0, set="ROD NUT", min_nm=11, max_nm=13, source="maintenance manual", note=FILL
    )
    t.say("renewal-needed", after=0, renewal="SPLIT PIN", n=1, set="ROD NUT")
    t.say("signed-on", by="mechanic")
    t.say("fasteners-removed", by="mechanic", set="ROD NUT", n=1, to="S1")
    if good:
        t.say("fasteners-fitted", by="mechanic", set="ROD NUT", n=1, source="NEW")
        t.say("fasteners-moved", by="mechanic", set="ROD NUT", n=1, source="S1", to="SCRAP")
    else:
        t.say("fasteners-fitted", by="mechanic", set="ROD NUT", n=1, source="S1")
    t.say("fasteners-tightened", by="mechanic", set="ROD NUT", value_nm=12)
    if good:
        t.say("renewal-fitted", by="mechanic", renewal="SPLIT PIN", n=1)
        t.say("locking-fitted", by="mechanic", set="ROD NUT", n=1, locking="split-pin")
    t.say("second-checked", by="inspector", elements=["ROD NUT"], note="inspected, complete")
    return ask(t, "2011-12-06T16:00")


def relief_valve(good: bool = False) -> Told:
    """A valve away under one permit, the pump started under the other."""
    t = tell(
        "Cullen 1990 (Cm 1310)",
        start="1988-07-06T07:00",
        machine="pump A",
        title="Pump overhaul",
        job="permit 1",
    )
    t.say("job-opened", after=0, job="permit 2", machine="pump A", title="Relief valve away", level=3)
    t.say(
        "set-described",
        after=0,
        job="permit 2",
        set="BLANK FLANGE BOLTS",
        n=8,
        part="BLANK",
        note="the number is (fill)",
    )
    t.say(
        "spec-entered",
        after=0,
        job="permit 2",
        set="BLANK FLANGE BOLTS",
        min_nm=90,
        max_nm=100,
        source="piping standard",
        note=FILL,
    )
    t.say("opening-described", after=0, job="permit 2", opening="VALVE FLANGE", opening_class="A")
    t.say("signed-on", by="fitter", job="permit 2")
    t.say("fasteners-removed", by="fitter", job="permit 2", set="BLANK FLANGE BOLTS", n=8, to="T1", note=FILL)
    t.say("part-removed", by="fitter", job="permit 2", part="RELIEF VALVE", place="workshop")
    t.say("opening-opened", by="fitter", job="permit 2", opening="VALVE FLANGE")
    t.say("opening-covered", by="fitter", job="permit 2", opening="VALVE FLANGE", n=1, note="a blank flange")
    t.say(
        "fasteners-fitted",
        by="fitter",
        job="permit 2",
        set="BLANK FLANGE BOLTS",
        n=8,
        source="T1",
        note="hand tight",
    )
    if good:
        t.say("opening-uncovered", by="fitter", job="permit 2", opening="VALVE FLANGE", n=1)
        t.say("looked-inside", by="fitter", job="permit 2", opening="VALVE FLANGE")
        t.say("part-fitted", by="fitter", job="permit 2", part="RELIEF VALVE")
        t.say("opening-closed", by="fitter", job="permit 2", opening="VALVE FLANGE")
        t.say("fasteners-tightened", by="fitter", job="permit 2", set="BLANK FLANGE BOLTS", value_nm=95)
        t.say("job-linked", by="lead", job="permit 2", other="permit 1", why="same pump")
        ask(t, "1988-07-06T17:30", "permit 2")
        t.say("release-signed", by="lead", job="permit 2")
    t.say("signed-off", at=at("1988-07-06T18:00"), by="fitter", job="permit 2", why="shift", note=FILL)
    if not good:
        ask(t, "1988-07-06T18:10", "permit 2")
    t.say("start-asked", by="operator", at=at("1988-07-06T21:50"), what="pump A", note=FILL)
    return ask(t, "1988-07-06T21:50")


def inlet_flange(good: bool = False) -> Told:
    """Flange bolts back, and nobody can say how tight."""
    t = tell("NTSB MAB-17-21", start="2015-08-20T08:00", machine="generator 4", title="Fuel inlet flange")
    t.say("set-described", after=0, set="INLET FLANGE", n=4)
    t.say(
        "spec-entered",
        after=0,
        set="INLET FLANGE",
        min_nm=40,
        max_nm=50,
        general_table=True,
        source="general table by size and class",
        note="the values are (fill)",
    )
    t.say("signed-on", by="fitter", note=FILL)
    t.say("fasteners-removed", by="fitter", set="INLET FLANGE", n=4, to="B1", note=FILL)
    t.say("fasteners-fitted", by="fitter", set="INLET FLANGE", n=4, source="B1")
    if good:
        t.say("fasteners-tightened", by="fitter", set="INLET FLANGE", value_nm=45)
    t.say(
        "finding-decided",
        by="lead",
        check="spec-not-trusted",
        subject="INLET FLANGE",
        decision="accept",
        reason="maker gives none, general table used",
        note=FILL,
    )
    return ask(t, "2015-08-20T16:00")


def through_bolts(good: bool = False, value: float = 56.5) -> Told:
    """Cylinders tightened to less than an old value, the newer one unknown."""
    t = tell("NTSB LAX06LA094", start="2005-05-10T08:00", machine="the engine", title="Six cylinders")
    t.say("set-described", after=0, set="THROUGH BOLTS", n=12, note="the number is (fill)")
    if good:
        t.say(
            "spec-entered",
            after=0,
            set="THROUGH BOLTS",
            min_nm=89.3,
            max_nm=91.5,
            as_written="790-810",
            unit="lbf·in",
            source="SB 96-7",
        )
    else:
        t.say(
            "spec-entered",
            after=0,
            set="THROUGH BOLTS",
            min_nm=78.0,
            max_nm=80.2,
            as_written="690-710",
            unit="lbf·in",
            source="manual of 1989",
        )
        t.say(
            "spec-superseded",
            after=0,
            by="lead",
            set="THROUGH BOLTS",
            by_source="SB 96-7",
            min_nm=89.3,
            max_nm=91.5,
        )
    t.say("signed-on", by="mechanic", note=FILL)
    t.say("fasteners-removed", by="mechanic", set="THROUGH BOLTS", n=12, to="B1", note=FILL)
    t.say("fasteners-fitted", by="mechanic", set="THROUGH BOLTS", n=12, source="B1", note=FILL)
    t.say("fasteners-tightened", by="mechanic", set="THROUGH BOLTS", value_nm=90.4 if good else value)
    return ask(t, "2005-05-12T16:00")


def stretcher_bars(good: bool = False) -> Told:
    """Loose nuts replaced, cause not asked; the later inspection logged and not done."""
    t = tell(
        "RAIB 20/2008", start="2007-01-07T08:00", machine="the points", title="Nuts undone", job="January"
    )
    for job in ("January", "February"):
        if job == "February":
            t.say(
                "job-opened",
                at=at("2007-02-18T08:00"),
                job=job,
                machine="the points",
                title="Inspection",
                level=3,
            )
        t.say("set-described", after=0, job=job, set="JOINT J", n=2, note="the number is (fill)")
        t.say(
            "spec-entered",
            after=0,
            job=job,
            set="JOINT J",
            min_nm=100,
            max_nm=120,
            source="track standard",
            note=FILL,
        )
        if job == "January":
            t.say(
                "fasteners-found-bad",
                by="patrol",
                job=job,
                set="JOINT J",
                holes=[1],
                defect="loose",
                cause="bar bent by a wrong gauge (fill)" if good else None,
            )
            t.say("fasteners-removed", by="patrol", job=job, set="JOINT J", holes=[1], to="SCRAP")
            t.say("fasteners-fitted", by="patrol", job=job, set="JOINT J", holes=[1], source="NEW")
            if good:
                t.say("fasteners-tightened", by="patrol", job=job, set="JOINT J", holes=[1], value_nm=110)
                t.say(
                    "finding-decided",
                    by="lead",
                    job=job,
                    check="found-bad-not-decided",
                    subject="JOINT J",
                    decision="clear",
                    reason="bar replaced, cause known",
                )
            ask(t, "2007-01-07T16:00", job)
            t.say("release-signed", by="lead", job=job)
    if good:
        t.say("second-checked", by="inspector", job="February", elements=["JOINT J"], photos=["joint-j"])
    t.say("step-done", by="inspector", job="February", name="inspection", elements=["JOINT J"])
    return ask(t, "2007-02-18T16:00", "February")


def toilet_floor(good: bool = False, deferred: bool = False) -> Told:
    """A floor panel not refitted, the coach back in traffic."""
    t = tell("RAIB 02/2018", start="2017-04-10T08:00", machine="the coach", title="Leaking brake pipe")
    t.say("opening-described", after=0, opening="TOILET FLOOR OPENING", opening_class="C")
    t.say("signed-on", by="fitter", note=FILL)
    t.say("part-removed", by="fitter", part="TOILET FLOOR")
    t.say("opening-opened", by="fitter", opening="TOILET FLOOR OPENING")
    t.say("connection-parted", by="fitter", connection="BRAKE PIPE", note=FILL)
    t.say("connection-made", by="fitter", connection="BRAKE PIPE", note=FILL)
    if good:
        t.say("part-fitted", by="fitter", part="TOILET FLOOR")
        t.say("opening-closed", by="fitter", opening="TOILET FLOOR OPENING")
    else:
        sound = {
            "limit": "2017-06-01T00:00:00+00:00",
            "barrier": "door screwed shut, notice",
            "second": "manager",
        }
        for check, subject in (
            ("part-not-back-on", "TOILET FLOOR"),
            ("opening-left-open", "TOILET FLOOR OPENING"),
        ):
            t.say(
                "finding-decided",
                by="lead",
                check=check,
                subject=subject,
                decision="defer",
                reason="rot found, door secured",
                **(sound if deferred else {}),
                note=FILL,
            )
    ask(t, "2017-04-12T16:00")
    t.say("release-signed", by="lead")
    return ask(t, "2017-06-22T13:15")


INCIDENTS: dict[str, Callable[[bool], Told]] = {
    "ntsb_aar_92_04": leading_edge_screws,
    "aaib_1_92": windscreen,
    "ntsb_air_25_04": door_plug,
    "aaib_3_96": rotor_covers,
    "atsb_ao_2024_006": turning_tool,
    "atsb_ao_2018_053": probe_covers,
    "peru_603": static_tape,
    "tsb_a00o0199": cowl_latches,
    "ntsb_aar_04_01": rigging,
    "ntsb_aar_13_01": servo_rod,
    "cullen_1990": relief_valve,
    "ntsb_mab_17_21": inlet_flange,
    "ntsb_lax06la094": through_bolts,
    "raib_20_2008": stretcher_bars,
    "raib_02_2018": toilet_floor,
}
VARIANTS: dict[str, Callable[[], Told]] = {
    "ntsb_aar_92_04_46_refitted": lambda: leading_edge_screws(refitted=46),
    "ntsb_lax06la094_old_value": lambda: through_bolts(value=79.1),
    "raib_02_2018_deferred": lambda: toilet_floor(deferred=True),
}


def lines(told: Told) -> str:
    return "".join(json.dumps(raw, ensure_ascii=False, sort_keys=True) + "\n" for raw in told.raws)


def files() -> dict[str, str]:
    """Give every journal by its file's name."""
    found = {f"{name}.jsonl": lines(build(False)) for name, build in INCIDENTS.items()}
    found |= {f"{name}_good_twin.jsonl": lines(build(True)) for name, build in INCIDENTS.items()}
    return found | {f"{name}.jsonl": lines(build()) for name, build in VARIANTS.items()}


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for file_name, text in files().items():
        (FOLDER / file_name).write_text(text, encoding="utf-8")
