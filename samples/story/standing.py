"""What is known before the first bolt turns: people, sets, values, parts, openings, tests."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from lastbolt import label_code

from .writer import Writer, moment

Type = dict[str, Any]
BOOK = "Oderby M3 workshop book (invented)"
TRAYS = range(101, 118)


def metric(diameter: float, pitch: float, length: float | None = None, kind: str = "bolt") -> Type:
    """Write a fastener type down as fields."""
    sizes = {"diameter_mm": diameter, "pitch_mm": pitch, "length_mm": length}
    return {"kind": kind, **{k: v for k, v in sizes.items() if v is not None}}


SETS: list[tuple[str, int, Type | None, str | None, dict[str, Any]]] = [
    ("lid quarter-turns", 4, {"kind": "other"}, "engine box lid", {"captive": True}),
    ("front panel screws", 6, metric(5, 0.8, 16, "screw"), "front panel", {}),
    ("belt guard bolts", 3, metric(6, 1, 16), "belt guard", {}),
    ("air box bolts", 3, metric(6, 1, 20), "air box", {}),
    ("heat shield screws", 4, metric(5, 0.8, 12, "screw"), "heat shield", {}),
    ("elbow nuts", 4, metric(8, 1.25, kind="nut"), "exhaust elbow", {"single_use": True, "locking": "own"}),
    ("elbow washers", 4, {"kind": "washer", "diameter_mm": 8}, "exhaust elbow", {}),
    (
        "inlet manifold bolts", 6, metric(8, 1.25, 35), "inlet manifold",
        {"critical": True, "gasketed": True, "photo_wanted": True, "witness_wanted": True},
    ),
    ("thermostat housing bolts", 4, metric(6, 1, 25), "thermostat housing", {"gasketed": True}),
    ("water neck bolts", 3, metric(6, 1, 30), "water neck", {"gasketed": True}),
    (
        "raw-water pump bolts", 4, None, "raw-water pump",
        {
            "critical": True, "photo_wanted": True, "second_person": True,
            "types": {str(n): metric(8, 1.25, 60 if n % 2 == 0 else 20) for n in range(1, 5)},
        },
    ),
    ("pump cover screws", 6, metric(5, 0.8, 10, "screw"), "pump cover", {"gasketed": True}),
    ("alternator bracket bolts", 2, metric(10, 1.5, 40), "alternator bracket", {}),
    ("fuel filter bracket bolts", 2, metric(8, 1.25, 25), "fuel filter bracket", {}),
    ("loom bracket screws", 3, metric(6, 1, 12, "screw"), "loom bracket", {}),
    ("linkage nuts", 2, metric(6, 1, kind="nut"), "throttle linkage", {"locking": "split-pin"}),
    ("block drain plug", 1, metric(10, 1.5, 20), None, {"gasketed": True}),
    ("end cap bolts", 5, metric(6, 1, 16), "end cap", {"gasketed": True}),
    ("tank strap nuts", 2, metric(8, 1.25, kind="nut"), "header tank", {}),
    ("tank strap washers", 2, {"kind": "washer", "diameter_mm": 8}, "header tank", {}),
    ("alternator adjuster bolts", 2, metric(8, 1.25, 30), None, {"loosened_only": True}),
    ("hose strap bolts", 2, metric(8, 1.25, 20), None, {}),
]  # fmt: skip
"""Name, how many, type, the part they hold, what else is so."""

SPECS: list[tuple[str, float, float, str, dict[str, Any]]] = [
    (
        "inlet manifold bolts", 22, 26, "41",
        {
            "stage_count": 2, "order": [3, 4, 2, 5, 1, 6], "condition": "oiled",
            "stages": [{"min_nm": 10, "max_nm": 12}, {"min_nm": 22, "max_nm": 26}],
        },
    ),
    ("raw-water pump bolts", 20, 24, "58", {"condition": "dry"}),
    ("pump cover screws", 4, 5.5, "59", {}),
    ("thermostat housing bolts", 8, 10, "47", {}),
    ("water neck bolts", 8, 10, "47", {}),
    ("end cap bolts", 8, 10, "49", {}),
    ("elbow nuts", 20, 24, "44", {"order": [1, 3, 2, 4]}),
    ("alternator bracket bolts", 45, 50, "63", {}),
    ("fuel filter bracket bolts", 20, 24, "70", {}),
    ("block drain plug", 20, 24, "46", {}),
]  # fmt: skip

PARTS = (
    "engine box lid", "front panel", "belt guard", "drive belt", "air box", "throttle linkage",
    "inlet manifold", "heat shield", "exhaust elbow", "thermostat housing", "water neck", "end cap",
    "header tank", "raw-water pump", "pump cover", "alternator bracket", "fuel filter bracket",
    "loom bracket",
)  # fmt: skip

OPENINGS = (
    ("inlet ports", "A", 3, True),
    ("exhaust mouth", "A", 1, True),
    ("raw-water hose ends", "B", 2, False),
    ("thermostat bore", "B", 1, False),
    ("coolant filler", "B", 1, False),
)

CONNECTIONS = (
    ("raw-water suction hose", "raw-water pump", True),
    ("raw-water delivery hose", "raw-water pump", True),
    ("temperature sender plug", "thermostat housing", False),
    ("alternator plug", "alternator bracket", False),
    ("throttle cable", "throttle linkage", False),
)

RENEWALS = (
    ("inlet manifold gasket", 1, {"under": "inlet manifold", "see_old_off": True}),
    ("exhaust elbow gasket", 1, {"under": "exhaust elbow", "see_old_off": True}),
    ("thermostat gasket", 1, {"under": "thermostat housing", "see_old_off": True}),
    ("water neck gasket", 1, {"under": "water neck", "see_old_off": True}),
    ("end cap O-rings", 2, {"under": "end cap", "see_old_off": True}),
    ("pump cover O-ring", 1, {"under": "pump cover", "see_old_off": True}),
    ("drain plug crush washer", 1, {"set": "block drain plug", "see_old_off": True}),
    ("linkage split pins", 2, {"set": "linkage nuts", "see_old_off": True}),
)

BATTERY_REACH = [
    "alternator plug", "alternator bracket", "alternator bracket bolts", "temperature sender plug",
    "drive belt", "belt guard", "belt guard bolts", "inlet manifold", "inlet manifold bolts", "inlet ports",
]  # fmt: skip
SEA_COCK_REACH = [
    "raw-water suction hose", "raw-water delivery hose", "raw-water hose ends", "raw-water pump",
    "raw-water pump bolts",
]  # fmt: skip
PRESSURE_SCOPE = [
    "thermostat housing bolts", "water neck bolts", "end cap bolts", "block drain plug", "thermostat housing",
    "water neck", "end cap",
]  # fmt: skip
RUNNING_SCOPE = [
    "inlet manifold bolts", "elbow nuts", "raw-water pump bolts", "raw-water suction hose",
    "raw-water delivery hose", "drive belt", "linkage nuts", "throttle cable",
]  # fmt: skip


class Desk:
    """Ilse at the desk on Monday morning, an entry every five seconds."""

    def __init__(self, story: Writer) -> None:
        self.story, self.at = story, moment("mon", "07:20")

    def say(self, kind: str, **fields: Any) -> None:
        """Record the next entry."""
        self.story.add("Ilse", self.at, kind, **fields)
        self.at += timedelta(seconds=5)


def describe(story: Writer) -> None:
    """Record all standing data."""
    desk = Desk(story)
    title = "Raw-water pump, inlet gasket and cooling side"
    desk.say("job-opened", machine=story.machine, title=title, level=3, customer_reference="berth 14")
    for person, roles in (("Ana", ["tech"]), ("Ben", ["tech"]), ("Ilse", ["lead", "tech"])):
        desk.say("person-described", person=person, roles=roles)
    for name, low, high in (("small wrench", 4, 20), ("large wrench", 20, 100)):
        desk.say("wrench-described", wrench=name, wrench_kind="click", min_nm=low, max_nm=high)
        desk.say(
            "wrench-calibrated", wrench=name, calibrated_on="2026-04-13", due="2027-04-13T00:00:00+02:00",
            certificate=f"invented, {name}",
        )  # fmt: skip
    desk.say("labels-printed", codes=[label_code.make("T", number) for number in TRAYS], layout="a4-3x8")
    _describe_sets(desk)
    _describe_machine(desk)
    _describe_looks(desk)
    for number, name in enumerate(("inlet manifold bolts", "raw-water pump bolts")):
        story.add("Ana", moment("mon", f"07:5{number}"), "spec-checked", set=name)


def _describe_sets(desk: Desk) -> None:
    for name in PARTS:
        desk.say("part-described", part=name)
    for name, n, kind, part, more in SETS:
        known = {"type": kind, "part": part}
        desk.say("set-described", set=name, n=n, **{k: v for k, v in known.items() if v}, **more)
    for name, low, high, page, more in SPECS:
        written = f"{low:g}-{high:g} N·m"
        desk.say(
            "spec-entered", set=name, min_nm=low, max_nm=high, unit="N·m", as_written=written, source=BOOK,
            revision="3", page=page, **more,
        )  # fmt: skip


def _describe_machine(desk: Desk) -> None:
    for name, letter, mouths, clean in OPENINGS:
        desk.say("opening-described", opening=name, opening_class=letter, mouths=mouths, clean_first=clean)
    for name, part, clamp in CONNECTIONS:
        desk.say("connection-described", connection=name, part=part, has_clamp=clamp)
    desk.say("isolation-described", isolation="battery", scope=BATTERY_REACH)
    desk.say("isolation-described", isolation="sea-cock", scope=SEA_COCK_REACH)
    desk.say("fluid-described", fluid="coolant", capacity_l=6, grade="blue, ready mixed")
    for name, n, more in RENEWALS:
        desk.say("renewal-needed", renewal=name, n=n, **more)
    desk.say("setting-described", setting="belt deflection", unit="mm", tolerance=2)
    desk.say("setting-described", setting="throttle free play", unit="mm", tolerance=0.5)


def _describe_looks(desk: Desk) -> None:
    desk.say("test-described", test="pressure test", scope=PRESSURE_SCOPE)
    desk.say("test-described", test="running test", scope=RUNNING_SCOPE, before="front panel")
    desk.say(
        "hold-described", hold="look into the ports", before="inlet manifold", role_wanted="lead",
        text="Ilse looks into all three ports and at the clean face before the manifold goes on.",
    )  # fmt: skip
