"""Thursday: Ben takes over and puts brackets, raw-water pump, cooling side and exhaust elbow back.

Each fault of the half-finished variant is one line left out here, and is named where it is left out.
"""

from __future__ import annotations

from typing import Any

from .standing import TRAYS
from .teardown import Hand
from .writer import Writer, tray


def thursday(story: Writer) -> None:
    """Take over, then brackets, raw-water pump, cooling side and exhaust elbow."""
    ben = Hand(story, "Ben", "thu")
    ben("08:00", "signed-on", bay="pontoon shed")
    ben(
        "08:10", "handover-accepted", mode="scan", giver="Ana", containers=[tray(n) for n in TRAYS],
        note="walked the rack with the list",
    )  # fmt: skip
    ben("08:12", "isolation-transferred", isolation="battery", to="Ben")
    ben("08:13", "isolation-transferred", isolation="sea-cock", to="Ben")
    ben("08:15", "kit-counted", kit="kit 7", complete=True)
    _walk(ben, "08:20", 106, ("inlet manifold bolts", 6))
    _walk(ben, "08:22", 109, ("raw-water pump bolts", 4))
    _brackets_on(ben)
    _pump_on(ben)
    _cooling_on(ben)
    _exhaust_on(ben)
    ben("15:55", "kit-counted", kit="kit 7", complete=True)
    ben("16:00", "signed-off", why="shift")


def _walk(ben: Hand, clock: str, number: int, held: tuple[str, int]) -> None:
    """Photograph a tray at the takeover; the machine counts what it sees in it."""
    name, n = held
    for photo in ben.photo(clock, f"walk-{number}", tray(number), element=name):
        ben(
            f"{clock}:20", "photo-counted", mode="machine", container=tray(number), n=n, photo=photo,
            confidence=0.9,
        )  # fmt: skip


def fit(ben: Hand, clock: str, name: str, n: int, **fields: Any) -> None:
    """Put a set in by hand."""
    ben(clock, "fasteners-fitted", set=name, n=n, **fields)


def pull(ben: Hand, clock: str, name: str, value: float, **fields: Any) -> None:
    """Pull a value with the wrench whose range it lies in."""
    wrench = "small wrench" if value < 20 else "large wrench"
    ben(
        clock, "fasteners-tightened", set=name, value_nm=value, as_written=f"{value:g} N·m",
        wrench=wrench, **fields,
    )  # fmt: skip


def _brackets_on(ben: Hand) -> None:
    ben.start("08:40", "Put the brackets back")
    ben("08:45", "part-fitted", part="loom bracket", orientation_seen=True)
    fit(ben, "08:48", "loom bracket screws", 3, source=tray(113))
    ben("09:00", "part-fitted", part="fuel filter bracket")
    fit(ben, "09:03", "fuel filter bracket bolts", 2, source=tray(112))
    pull(ben, "09:06", "fuel filter bracket bolts", 22, holes=[1, 2])
    ben("09:15", "part-fitted", part="alternator bracket")
    fit(ben, "09:18", "alternator bracket bolts", 2, source=tray(111))
    if not ben.story.has("alternator bracket never pulled to its value"):
        pull(ben, "09:24", "alternator bracket bolts", 48, holes=[1, 2])
    ben.view("09:26", "alternator-bracket", "after")
    ben("09:30", "connection-made", connection="alternator plug", pulled=True)
    if not ben.story.has("hose strap bolts still parked"):
        fit(ben, "09:40", "hose strap bolts", 2, note="strap swung back, bolts run home")
    ben.view("09:42", "hose-strap", "after", "hose strap bolts still parked")
    elements = ["loom bracket screws", "fuel filter bracket bolts", "alternator plug"]
    if not ben.story.faults:
        elements += ["alternator bracket bolts", "hose strap bolts"]
    ben.done("09:45", *elements)


def _pump_on(ben: Hand) -> None:
    ben.start("10:00", "Put the raw-water pump back")
    ben("10:05", "renewal-seen-off", renewal="pump cover O-ring")
    ben("10:08", "renewal-fitted", renewal="pump cover O-ring", part_number="invented 59-4")
    ben("10:10", "part-fitted", part="pump cover")
    fit(ben, "10:14", "pump cover screws", 6, source=tray(110))
    pull(ben, "10:20", "pump cover screws", 5, holes=[1, 4, 2, 5, 3, 6])
    ben("10:30", "part-fitted", part="raw-water pump", orientation_seen=True)
    short, long = {"diameter_mm": 8, "pitch_mm": 1.25, "length_mm": 20}, {"diameter_mm": 8, "pitch_mm": 1.25}
    fit(ben, "10:33", "raw-water pump bolts", 2, holes=[1, 3], source=tray(109), type=short)
    fit(
        ben, "10:35", "raw-water pump bolts", 2, holes=[2, 4], source=tray(109), type=long | {"length_mm": 60}
    )
    pull(ben, "10:40", "raw-water pump bolts", 22, holes=[1, 2, 3, 4])
    ben("10:50", "opening-uncovered", opening="raw-water hose ends", n=2, covers=["bung 1", "bung 2"])
    ben("10:51", "looked-inside", opening="raw-water hose ends", clear=True, how="eye")
    ben("10:53", "connection-made", connection="raw-water suction hose", pulled=True, clamp_tight=True)
    ben("10:55", "connection-made", connection="raw-water delivery hose", pulled=True, clamp_tight=True)
    ben("10:56", "opening-closed", opening="raw-water hose ends")
    ben.view("10:58", "raw-water-pump", "after")
    rags = 1 if ben.story.has("one of two rags never out") else 2
    ben("11:05", "item-taken-out", item="blue rag", n=rags)
    ben.view("11:06", "under-the-pump", "after", "one of two rags never out")
    ben("11:10", "renewal-seen-off", renewal="drain plug crush washer")
    ben("11:12", "renewal-fitted", renewal="drain plug crush washer", part_number="invented 46-2")
    fit(ben, "11:14", "block drain plug", 1, source=tray(115))
    pull(ben, "11:18", "block drain plug", 22, holes=[1])
    ben.done(
        "11:20", "pump cover screws", "raw-water pump bolts", "raw-water suction hose", "block drain plug"
    )


def _cooling_on(ben: Hand) -> None:
    ben.start("11:30", "Put the cooling side back")
    ben("11:32", "renewal-seen-off", renewal="end cap O-rings", n=2)
    ben("11:35", "renewal-fitted", renewal="end cap O-rings", n=2, part_number="invented 49-7")
    ben("11:38", "part-fitted", part="end cap")
    fit(ben, "11:42", "end cap bolts", 5, source=tray(116))
    ben(
        "11:45",
        "work-interrupted",
        element="end cap bolts",
        level_reached="placed",
        reason="delivery at the gate",
    )
    ben("12:40", "work-resumed", element="end cap bolts", went_back=3, rechecked=True)
    pull(ben, "12:45", "end cap bolts", 9, holes=[1, 3, 5, 2, 4])
    ben("12:55", "renewal-seen-off", renewal="thermostat gasket")
    ben("12:57", "renewal-fitted", renewal="thermostat gasket", part_number="invented 47-1")
    ben("12:59", "opening-uncovered", opening="thermostat bore", n=1, covers=["cap 5"])
    ben("13:00", "looked-inside", opening="thermostat bore", clear=True, how="eye")
    ben("13:02", "part-fitted", part="thermostat housing")
    ben("13:02:20", "opening-closed", opening="thermostat bore")
    fit(ben, "13:05", "thermostat housing bolts", 4, source=tray(107))
    pull(ben, "13:10", "thermostat housing bolts", 9, holes=[1, 3, 2, 4])
    if not ben.story.has("temperature sender plug never pushed on"):
        ben("13:15", "connection-made", connection="temperature sender plug", pulled=True)
    ben.view("13:16", "sender-plug", "after", "temperature sender plug never pushed on")
    ben("13:20", "renewal-seen-off", renewal="water neck gasket")
    ben("13:22", "renewal-fitted", renewal="water neck gasket", part_number="invented 47-2")
    ben("13:24", "part-fitted", part="water neck")
    holes = [1, 2] if ben.story.has("one water neck bolt left in its tray") else [1, 2, 3]
    fit(ben, "13:27", "water neck bolts", len(holes), holes=holes, source=tray(108))
    pull(ben, "13:32", "water neck bolts", 9, holes=holes)
    ben.view("13:35", "water-neck", "after", "one water neck bolt left in its tray")
    ben("13:40", "part-fitted", part="header tank")
    fit(ben, "13:43", "tank strap washers", 2, source=tray(117))
    fit(ben, "13:44", "tank strap nuts", 2, source=tray(117))
    elements = ["end cap bolts", "thermostat housing bolts", "tank strap nuts"]
    if not ben.story.faults:
        elements += ["water neck bolts", "temperature sender plug"]
    ben.done("13:50", *elements)


def _exhaust_on(ben: Hand) -> None:
    ben.start("14:10", "Put exhaust elbow and heat shield back")
    ben("14:12", "opening-uncovered", opening="exhaust mouth", n=1, covers=["cap 4"])
    ben("14:15", "renewal-seen-off", renewal="exhaust elbow gasket")
    ben("14:18", "looked-inside", opening="exhaust mouth", clear=True, how="scope")
    ben("14:20", "renewal-fitted", renewal="exhaust elbow gasket", part_number="invented 44-3")
    ben("14:22", "part-fitted", part="exhaust elbow", orientation_seen=True)
    ben("14:22:20", "opening-closed", opening="exhaust mouth")
    fit(ben, "14:25", "elbow washers", 4, source=tray(105))
    fit(ben, "14:27", "elbow nuts", 4, source="NEW", new=True)
    pull(ben, "14:33", "elbow nuts", 22, holes=[1, 3, 2, 4])
    ben("14:40", "fasteners-moved", set="elbow nuts", n=4, source=tray(105), to="SCRAP", note="old nuts")
    ben("14:45", "part-fitted", part="heat shield")
    fit(ben, "14:48", "heat shield screws", 4, source=tray(104))
    ben.done("14:55", "elbow nuts", "heat shield screws")
