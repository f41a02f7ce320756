"""Monday and Tuesday: Ana takes it apart, covers what is open and hands over."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from lastbolt import label_code

from .writer import Writer, moment, tray

BESIDE = {104: "a rag lies in the tray", 113: "the cut cable tie of the loom lies with them"}
"""What a picture shows beside the fasteners."""


class Hand:
    """One person on one day; `hand("08:05", "signed-on")` records an entry."""

    def __init__(self, story: Writer, by: str, day: str) -> None:
        self.story, self.by, self.day = story, by, day

    def __call__(self, clock: str, kind: str, **fields: Any) -> str:
        """Record an entry at a time of this day."""
        return self.story.add(self.by, moment(self.day, clock), kind, **fields)

    def start(self, clock: str, name: str) -> None:
        """Begin a step."""
        self.story.start(self.by, moment(self.day, clock), name)

    def done(self, clock: str, *elements: str) -> None:
        """Say that the running step is done."""
        self.story.done(self.by, moment(self.day, clock), elements)

    def photo(self, clock: str, shot: str, container: str, **fields: Any) -> list[str]:
        """Record a photo."""
        return self.story.photo(self.by, moment(self.day, clock), shot, container=container, **fields)

    def view(self, clock: str, place: str, shape: str, fault: str = "") -> None:
        """Photograph a place before or after; the picture shows a fault that this variant has."""
        self.story.view(self.by, moment(self.day, clock), place, shape=shape, fault=fault)

    def bag(self, clock: str, number: int, *sets: tuple[str, int]) -> None:
        """Bind the tray, take its sets out into it, and photograph it: the label, then each set."""
        at, name = moment(self.day, clock), tray(number)
        self.story.add(
            self.by, at, "label-bound", mode="scan", label=label_code.make("T", number), container=name,
            container_kind="tray",
        )  # fmt: skip
        beside = {"note": BESIDE[number]} if number in BESIDE else {}
        photos = self.story.photo(
            self.by, at + timedelta(seconds=20), f"bag-{number}", container=name, element=sets[0][0], **beside
        )
        for place, (name_of_set, n) in enumerate(sets):
            self.story.add(
                self.by, at + timedelta(seconds=25 + 5 * place), "fasteners-removed", set=name_of_set, n=n,
                bagged=n, to=name, photos=photos,
            )  # fmt: skip

    def off(self, clock: str, part: str, place: str) -> None:
        """Take a part off and say where it lies."""
        self(clock, "part-removed", part=part, place=place)


def monday(story: Writer) -> None:
    """Isolate, open the engine box, drain, clear the front and the top of the engine."""
    ana = Hand(story, "Ana", "mon")
    ana("08:00", "signed-on", bay="pontoon shed")
    ana("08:01", "machine-scanned", mode="scan", machine=story.machine)
    ana("08:02", "kit-counted", kit="kit 7", complete=True)
    _isolate(ana)
    _open_box(ana)
    _clear_front(ana)
    _clear_top(ana)
    ana("16:05", "kit-counted", kit="kit 7", complete=True)
    ana("16:10", "signed-off", why="shift")


def _isolate(ana: Hand) -> None:
    ana.start("08:03", "Isolate")
    ana("08:05", "isolation-applied", isolation="battery", tag="tag 3")
    ana("08:07", "isolation-proven", isolation="battery", how="tester at the starter", value="0.0 V")
    ana("08:10", "isolation-applied", isolation="sea-cock", tag="tag 4")
    ana("08:13", "isolation-proven", isolation="sea-cock", how="strainer drain opened, no flow")
    ana.done("08:14")


def _open_box(ana: Hand) -> None:
    ana.start("08:20", "Open the engine box and drain")
    ana("08:22", "captive-released", set="lid quarter-turns", points=4)
    ana.off("08:23", "engine box lid", "cockpit, port side")
    ana.bag("08:30", 101, ("front panel screws", 6))
    ana.off("08:33", "front panel", "cockpit, port side")
    ana("08:34", "access-said", part="front panel", element="raw-water pump bolts", need="final", strength=3)
    ana(
        "08:36", "item-brought-in", item="blue rag", n=2, note="under the raw-water pump, against drips",
        must_be_out_before_turning=True,
    )  # fmt: skip
    ana.view("08:37", "under-the-pump", "before")
    ana.bag("08:45", 115, ("block drain plug", 1))
    ana("08:58", "fluid-drained", fluid="coolant", litres=4.5)
    ana.done("09:00")


def _clear_front(ana: Hand) -> None:
    ana.start("09:10", "Slacken and lift off the belt")
    ana("09:12", "setting-found", setting="belt deflection", value=10, unit="mm", how="thumb and rule")
    ana.bag("09:20", 102, ("belt guard bolts", 3))
    ana.off("09:23", "belt guard", "shelf 2")
    ana("09:24", "access-said", part="belt guard", element="drive belt", need="placed", strength=3)
    ana.view("09:28", "adjuster", "before")
    ana("09:30", "fasteners-loosened", set="alternator adjuster bolts", n=2, turns=2)
    ana.off("09:33", "drive belt", "shelf 2")
    ana(
        "09:40", "connection-parted", connection="alternator plug", ends=["alternator", "loom"], mark="tape 1"
    )
    ana.view("09:48", "alternator-bracket", "before")
    ana.bag("09:50", 111, ("alternator bracket bolts", 2))
    ana.off("09:55", "alternator bracket", "shelf 2")
    ana.done("10:00")


def _clear_top(ana: Hand) -> None:
    ana.start("10:20", "Lift off the air box and the throttle linkage")
    ana("10:22", "setting-found", setting="throttle free play", value=2, unit="mm", how="rule at the lever")
    ana("10:24", "connection-parted", connection="throttle cable", ends=["cable", "lever"], mark="tape 2")
    ana.bag("10:30", 114, ("linkage nuts", 2))
    ana("10:33", "renewal-seen-off", renewal="linkage split pins", n=2)
    ana.off("10:34", "throttle linkage", "shelf 2")
    ana.bag("10:45", 103, ("air box bolts", 3))
    ana.off("10:48", "air box", "shelf 1")
    ana("10:49", "access-said", part="air box", element="inlet manifold bolts", need="final", strength=3)
    wrong = ana("11:00", "fasteners-removed", set="loom bracket screws", n=3, bagged=3, to=tray(114))
    ana("11:00:06", "entry-voided", entry=wrong, reason="undo: wrong tray")
    ana.view("11:04", "hose-strap", "before")
    ana("11:05", "fasteners-removed", set="hose strap bolts", n=2, parked=True, note="strap swung aside")
    ana.done("11:10")
    ana.start("13:00", "Lift off the inlet manifold")
    ana("13:05", "cleaned", opening="inlet ports", how="vacuum")
    ana.view("13:15", "inlet-manifold", "before")
    ana.bag("13:20", 106, ("inlet manifold bolts", 6))
    ana.off("13:24", "inlet manifold", "bench, on clean paper")
    ana("13:24:20", "opening-opened", opening="inlet ports", by_taking_off="inlet manifold")
    ana("13:25", "opening-covered", opening="inlet ports", n=3, covers=["cap 1", "cap 2", "cap 3"])
    ana.bag("13:40", 113, ("loom bracket screws", 3))
    ana.off("13:43", "loom bracket", "hangs on the loom")
    ana(
        "13:44", "access-said", part="inlet manifold", element="loom bracket screws", need="final", strength=3
    )
    ana.bag("14:00", 112, ("fuel filter bracket bolts", 2))
    ana.off("14:03", "fuel filter bracket", "hangs on its hoses")
    ana.done("14:05")


def tuesday(story: Writer) -> None:
    """Exhaust elbow, cooling side, raw-water pump; then the handover."""
    ana = Hand(story, "Ana", "tue")
    ana("08:00", "signed-on", bay="pontoon shed")
    _exhaust_off(ana)
    _cooling_off(ana)
    _pump_off(ana)
    ana("15:50", "kit-counted", kit="kit 7", complete=True)
    for minute, (first, last) in enumerate(((101, 105), (106, 110), (111, 117))):
        for second, number in enumerate(range(first, last + 1)):
            clock = f"16:0{minute}:{5 + 7 * second:02d}"
            ana(clock, "container-placed", mode="scan", container=tray(number), place=f"rack {minute + 1}")
    ana(
        "16:10", "handover-offered", to="Ben",
        half_done="The adjuster is slack; the hose strap bolts only sit in their holes by two turns.",
        dangerous="Battery and sea-cock are tagged in my name. Coolant is out.",
        not_listed="Nothing else is apart.",
    )  # fmt: skip
    story.add("Ilse", moment("tue", "16:12"), "job-waiting", reason="gaskets and nuts come on Wednesday")
    ana("16:15", "signed-off", why="shift")


def _exhaust_off(ana: Hand) -> None:
    ana.start("08:05", "Take off heat shield and exhaust elbow")
    ana.bag("08:10", 104, ("heat shield screws", 4))
    ana.off("08:14", "heat shield", "shelf 1")
    ana("08:15", "access-said", part="heat shield", element="elbow nuts", need="final", strength=3)
    ana("08:20", "cleaned", opening="exhaust mouth", how="wipe")
    ana.bag("08:40", 105, ("elbow nuts", 4), ("elbow washers", 4))
    ana.off("08:44", "exhaust elbow", "bench")
    ana("08:44:20", "opening-opened", opening="exhaust mouth", by_taking_off="exhaust elbow")
    ana("08:45", "opening-covered", opening="exhaust mouth", n=1, covers=["cap 4"])
    ana.done("08:50")


def _cooling_off(ana: Hand) -> None:
    ana.start("09:10", "Take off thermostat housing, water neck, end cap and tank")
    ana.view("09:11", "sender-plug", "before")
    ana(
        "09:12",
        "connection-parted",
        connection="temperature sender plug",
        ends=["sender", "loom"],
        mark="tape 3",
    )
    ana.bag("09:20", 107, ("thermostat housing bolts", 4))
    ana.off("09:24", "thermostat housing", "bench")
    ana("09:24:20", "opening-opened", opening="thermostat bore", by_taking_off="thermostat housing")
    ana("09:25", "opening-covered", opening="thermostat bore", n=1, covers=["cap 5"])
    ana.view("09:38", "water-neck", "before")
    ana.bag("09:40", 108, ("water neck bolts", 3))
    ana.off("09:44", "water neck", "bench")
    both = ana.photo(
        "09:50", "pair-107-108", tray(107), note="look-alikes: 25 mm left alone, 30 mm apart from them"
    )
    for name in both:
        ana("09:51", "photo-linked", photo=name, element=tray(108), shape="tray")
    ana.bag("10:10", 116, ("end cap bolts", 5))
    ana.off("10:14", "end cap", "bench")
    ana.view("10:28", "coolant-filler", "before")
    ana.bag("10:30", 117, ("tank strap nuts", 2), ("tank strap washers", 2))
    ana.off("10:34", "header tank", "tied up to the beam")
    ana.done("10:40")


def _pump_off(ana: Hand) -> None:
    ana.start("13:00", "Take off the raw-water pump")
    ana.view("13:03", "raw-water-pump", "before")
    ana(
        "13:05",
        "connection-parted",
        connection="raw-water suction hose",
        ends=["sea-cock", "pump"],
        mark="tape 4",
    )
    ana(
        "13:08",
        "connection-parted",
        connection="raw-water delivery hose",
        ends=["pump", "cooler"],
        mark="tape 5",
    )
    ana("13:09", "opening-opened", opening="raw-water hose ends", mouths=2)
    ana("13:10", "opening-covered", opening="raw-water hose ends", n=2, covers=["bung 1", "bung 2"])
    ana.bag("13:30", 109, ("raw-water pump bolts", 4))
    ana.off("13:34", "raw-water pump", "bench")
    ana.bag("14:00", 110, ("pump cover screws", 6))
    ana.off("14:04", "pump cover", "bench")
    ana.done("14:10")
