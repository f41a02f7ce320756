"""Friday: inlet manifold, air box and belt, fill, tests, the last covers; Ilse is asked for the release."""

from __future__ import annotations

from datetime import timedelta

from .reassembly import fit, pull
from .standing import TRAYS
from .teardown import Hand
from .writer import Writer, moment, tray

CLEARED_WITH_PHOTO = (101, 102, 103, 106, 107, 109, 110, 116)


def friday(story: Writer) -> None:
    """Put the rest back, run it, clear the trays, ask for the release."""
    ben, ana = Hand(story, "Ben", "fri"), Hand(story, "Ana", "fri")
    ben("07:55", "signed-on", bay="pontoon shed")
    ben("07:58", "kit-counted", kit="kit 7", complete=True)
    _manifold_on(ben)
    ana("09:15", "signed-on", bay="pontoon shed")
    ana("09:25", "second-checked", elements=["inlet manifold bolts", "raw-water pump bolts"], how="re-torque")
    ana("09:35", "signed-off", why="shift")
    _linkage_and_belt(ben)
    _fill_and_press(ben)
    _run(ben)
    _close_up(ben)
    _clear_trays(ben)
    _ask(story)


def _manifold_on(ben: Hand) -> None:
    ben.start("08:05", "Put the inlet manifold back")
    ben("08:08", "opening-uncovered", opening="inlet ports", n=3, covers=["cap 1", "cap 2", "cap 3"])
    ben(
        "08:09",
        "item-brought-in",
        item="white rag",
        n=3,
        opening="inlet ports",
        note="while the face is scraped",
    )
    ben("08:30", "renewal-seen-off", renewal="inlet manifold gasket")
    ben("08:33", "item-taken-out", item="white rag", n=3, opening="inlet ports")
    ben("08:34", "looked-inside", opening="inlet ports", clear=True, how="scope")
    ben("08:36", "kit-counted", kit="kit 7", complete=True)
    ben("08:38", "renewal-fitted", renewal="inlet manifold gasket", part_number="invented 41-1")
    ben.story.add(
        "Ilse", moment("fri", "08:40"), "hold-released", hold="look into the ports", how_seen="lamp, scope"
    )
    ben("08:42", "part-fitted", part="inlet manifold", orientation_seen=True)
    ben("08:42:20", "opening-closed", opening="inlet ports")
    fit(ben, "08:46", "inlet manifold bolts", 6, source=tray(106))
    order = [3, 4, 2, 5, 1, 6]
    pull(ben, "08:52", "inlet manifold bolts", 11, holes=order, stage=1)
    pull(ben, "08:58", "inlet manifold bolts", 24, holes=order, stage=2)
    ben("09:05", "witness-marked", set="inlet manifold bolts", n=6, colour="yellow")
    ben.view("09:06", "inlet-manifold", "after")
    ben.done("09:08", "inlet manifold bolts", "inlet ports")


def _linkage_and_belt(ben: Hand) -> None:
    ben.start("09:40", "Put linkage, air box and belt back")
    ben("09:45", "part-fitted", part="air box")
    fit(ben, "09:48", "air box bolts", 3, source=tray(103))
    ben("09:55", "part-fitted", part="throttle linkage")
    fit(ben, "09:58", "linkage nuts", 2, source=tray(114))
    ben("10:02", "renewal-fitted", renewal="linkage split pins", n=2)
    ben("10:03", "locking-fitted", set="linkage nuts", n=2, locking="split-pin", holes=[1, 2])
    ben("10:08", "connection-made", connection="throttle cable", pulled=True)
    ben("10:12", "setting-set", setting="throttle free play", value=2.2, unit="mm")
    ben("10:20", "part-fitted", part="drive belt")
    ben("10:28", "setting-set", setting="belt deflection", value=11, unit="mm")
    if not ben.story.has("adjuster never nipped up"):
        ben("10:32", "fasteners-retightened", set="alternator adjuster bolts", n=2, holes=[1, 2])
    ben.view("10:34", "adjuster", "after")
    ben("10:40", "part-fitted", part="belt guard")
    fit(ben, "10:43", "belt guard bolts", 3, source=tray(102))
    elements = ["air box bolts", "linkage nuts", "throttle cable", "belt guard bolts"]
    if not ben.story.faults:
        elements.append("alternator adjuster bolts")
    ben.done("10:50", *elements)


def _top_up(ben: Hand, clock: str, litres: float, *, shut: bool) -> None:
    hour, minute = (int(part) for part in clock.split(":"))
    ben(f"{hour}:{minute}", "opening-opened", opening="coolant filler", mouths=1)
    ben(f"{hour}:{minute + 8}", "fluid-filled", fluid="coolant", litres=litres, grade="blue, ready mixed")
    if shut:
        ben(f"{hour}:{minute + 9}", "looked-inside", opening="coolant filler", clear=True, how="eye")
        ben(f"{hour}:{minute + 10}", "opening-closed", opening="coolant filler")


def _fill_and_press(ben: Hand) -> None:
    ben.start("11:00", "Fill and press")
    _top_up(ben, "11:05", 4.5, shut=True)
    ben("11:40", "test-run", test="pressure test", passed=True, values={"bar": 1.0, "minutes": 15})
    ben.done("11:42")


def _run(ben: Hand) -> None:
    ben.start("13:00", "Run it")
    for minute, isolation in ((5, "sea-cock"), (9, "battery")):
        ben(f"13:{minute:02d}", "isolation-cleared", isolation=isolation)
        ben(f"13:{minute + 1:02d}", "isolation-removed", isolation=isolation)
    ben("13:15", "start-asked", what="first start, ten minutes at the berth")
    ben("13:35", "test-run", test="running test", passed=True, values={"minutes": 10, "idle_rpm": 850})
    _top_up(ben, "14:20", 0.3, shut=not ben.story.has("coolant filler never shut"))
    ben.view("14:33", "coolant-filler", "after", "coolant filler never shut")
    ben("14:35", "fluid-checked", fluid="coolant", level_right=True, leaks=False, when="after-run")
    ben.done("14:36")


def _close_up(ben: Hand) -> None:
    ben.start("14:40", "Put the last covers on")
    ben("14:45", "part-fitted", part="front panel")
    fit(ben, "14:48", "front panel screws", 6, source=tray(101))
    ben("14:55", "part-fitted", part="engine box lid")
    ben("14:57", "captive-shut", set="lid quarter-turns", points=4)
    ben.done("15:00", "front panel screws", "lid quarter-turns")
    ben("15:02", "kit-counted", kit="kit 7", complete=True)


def _clear_trays(ben: Hand) -> None:
    """Look into every tray and feel; the tray with the bolt left in it is only photographed."""
    at = moment("fri", "15:05")
    left = ben.story.has("one water neck bolt left in its tray")
    for number in TRAYS:
        by, name = ben.by, tray(number)
        photos: list[str] = []
        if number in CLEARED_WITH_PHOTO:
            photos = ben.story.photo(by, at, f"empty-{number}", container=name)
        if number == 108 and left:
            ben.story.add(by, at, "container-scanned", mode="scan", container=name)
            at += timedelta(seconds=10)
            ben.story.photo(by, at, "left-108", container=name)
        else:
            at += timedelta(seconds=10)
            ben.story.add(by, at, "container-emptied", mode="scan", container=name, photos=photos)
        at += timedelta(seconds=20)


def _ask(story: Writer) -> None:
    for minute, phone in enumerate(("phone Ana", "phone Ben")):
        story.add("Ilse", moment("fri", f"15:2{minute}"), "device-reported", reported_device=phone, unsent=0)
    story.add(
        "Ilse", moment("fri", "15:25"), "duty-set", duty="coolant after 5 hours",
        what="look at the coolant level", limit="after 5 hours of running", told_to="owner",
    )  # fmt: skip
    story.add(
        "Ilse", moment("fri", "15:40"), "release-asked", scope="all of the job", nothing_else_apart=True
    )
    if not story.faults:
        story.add("Ilse", moment("fri", "15:45"), "release-signed", statement="Done as the journal says.")
