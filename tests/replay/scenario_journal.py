"""The acceptance scenarios (practice section 9) turned into journals, as a phone would record them."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any
from uuid import UUID

DAY_ONE = datetime(2026, 3, 2, tzinfo=UTC)
SCENARIOS: list[dict[str, Any]] = json.loads((Path(__file__).parent / "scenarios.json").read_text())
CHECKS = {
    1: "tray-not-empty", 2: "hole-empty", 3: "part-not-back-on", 4: "count-short", 5: "more-than-logged",
    6: "leftover", 7: "lost-maybe-inside", 8: "wrong-fastener", 9: "new-for-old", 10: "look-alikes-in-one-bag",
    11: "tray-of-another-job", 12: "recount-differs", 13: "picture-count-differs", 14: "found-bad-not-decided",
    15: "torque-missing", 16: "torque-out-of-range", 17: "stage-or-sequence", 18: "wrench-out-of-its-range",
    19: "wrench-not-in-calibration", 20: "torque-undone", 21: "spec-not-trusted", 22: "single-use-reused",
    23: "locking-missing", 24: "covered-too-early", 25: "hold-point-passed", 26: "signed-but-open",
    27: "opening-left-open", 28: "cover-left-on", 29: "open-and-unattended", 30: "item-not-out",
    31: "closed-over-an-item", 32: "not-looked-inside", 33: "isolation-not-proven",
    34: "isolation-left-or-lifted-wrong", 35: "fluid-not-back", 36: "old-seal-or-consumable",
    37: "not-reconnected", 38: "loosened-and-left", 39: "setting-not-restored", 40: "test-missing-or-stale",
    41: "second-person-missing", 42: "person-not-allowed", 43: "handover-gap",
    44: "other-job-open-on-the-machine", 45: "changed-after-release", 46: "photo-missing", 47: "loose-ends",
    48: "clock-doubt", 49: "label-twice", 50: "phone-not-sent",
}  # fmt: skip


def moment(text: str) -> datetime:
    day, clock = text.split()
    hours, minutes = clock.split(":")
    return DAY_ONE + timedelta(days=int(day) - 1, hours=int(hours), minutes=int(minutes))


class Journal:
    """Writes entries as devices would: ids of version 7 and a number of its own for each device."""

    def __init__(self, devices: int = 1) -> None:
        self.devices = devices
        self.seq: dict[str, int] = {}
        self.entries: list[dict[str, Any]] = []

    def add(
        self,
        kind: str,
        at: datetime,
        *,
        by: str = "Lee",
        job: str = "job 1",
        device: str | None = None,
        **fields: Any,
    ) -> str:
        number = len(self.entries)
        name = device or f"device {number % self.devices + 1}"
        self.seq[name] = self.seq.get(name, 0) + 1
        stamp = int(at.timestamp() * 1000)
        entry_id = str(UUID(int=(stamp << 80) | (7 << 76) | (number << 64) | (2 << 62) | number))
        self.entries.append(
            {
                "id": entry_id,
                "job": job,
                "device": name,
                "seq": self.seq[name],
                "at": at.isoformat(),
                "by": by,
                "kind": kind,
            }
            | {key: value for key, value in fields.items() if value is not None}
        )
        return entry_id


def journal_of(scenario: dict[str, Any], devices: int = 1) -> list[dict[str, Any]]:
    out = Journal(devices)
    _standing_data(scenario["setup"], out)
    for event in scenario["events"]:
        _event(event, out)
    return out.entries


def _standing_data(setup: dict[str, Any], out: Journal) -> None:
    start = DAY_ONE - timedelta(days=1)
    out.add("job-opened", start, machine="the loader", title="Scenario", level=3)
    for person, data in setup["people"].items():
        out.add("person-described", start, person=person, roles=[data["role"]])
    for wrench, data in setup["wrenches"].items():
        due = moment(data["due"]).isoformat() if "due" in data else None
        out.add("wrench-described", start, wrench=wrench, min_nm=data["lo"], max_nm=data["hi"], due=due)
    for point, data in setup.get("isolation", {}).items():
        out.add("isolation-described", start, isolation=point, high_energy=data.get("hi", False))
    for name, data in setup.get("groups", {}).items():
        _group(name, data, out, start)
    for part, data in setup.get("parts", {}).items():
        out.add("part-described", start, part=part, minutes=data.get("min"))
    for name, data in setup.get("discs", {}).items():
        out.add(
            "connection-described",
            start,
            connection=name,
            part=data.get("part"),
            photo_wanted=data.get("photo", False),
        )
    for name, data in setup.get("openings", {}).items():
        out.add(
            "opening-described",
            start,
            opening=name,
            opening_class=data["cls"],
            mouths=data.get("mouths", 1),
            clean_first=data.get("clean", False),
        )
    for name, data in setup.get("consumables", {}).items():
        out.add(
            "renewal-needed",
            start,
            renewal=name,
            n=data["n"],
            under=data.get("under"),
            see_old_off=data.get("seen_off", False),
        )
    for name, data in setup.get("fluids", {}).items():
        out.add("fluid-described", start, fluid=name, capacity_l=data.get("cap"))
    for name, data in setup.get("settings", {}).items():
        out.add("setting-described", start, setting=name, tolerance=data["tol"])
    for name, data in setup.get("holds", {}).items():
        out.add("hold-described", start, hold=name, before=data["before"])
    for name, data in setup.get("tests", {}).items():
        out.add("test-described", start, test=name, scope=data["scope"])
    for edge in setup.get("covers", []):
        out.add(
            "access-said",
            start,
            part=edge["by"],
            element=edge["hid"],
            need=edge.get("need", "final"),
            strength=edge["strength"],
            route=edge.get("route"),
        )
    _elsewhere(setup, out, start)


def _group(name: str, data: dict[str, Any], out: Journal, start: datetime) -> None:
    out.add(
        "set-described", start, set=name, n=data["n"], type=data.get("type"), types=data.get("types"), part=data.get("part"),
        gasketed=data.get("gasket", False), critical=data.get("crit", False), single_use=data.get("single", False),
        photo_wanted=data.get("photo", False), loosened_only=data.get("loosen", False),
    )  # fmt: skip
    if "spec" in data:
        spec = data["spec"]
        out.add(
            "spec-entered",
            start,
            set=name,
            min_nm=spec["lo"],
            max_nm=spec["hi"],
            stage_count=spec.get("stages", 1),
            order=spec.get("seq"),
            source=spec["source"],
        )


def _elsewhere(setup: dict[str, Any], out: Journal, start: datetime) -> None:
    for other in setup.get("other_jobs", []):
        out.add("job-opened", start, job="job 311", machine="the loader", title=other)
    for tray, where in setup.get("trays_elsewhere", {}).items():
        job = " ".join(where.split()[:2])
        if job == "job 311":
            out.add("fasteners-removed", start, job=job, set="GUARD", n=2, to=tray)
        else:
            out.add("job-opened", start, job=job, machine="another loader", title="Old job")
            out.add("label-bound", start, job=job, label=tray, container=tray)
            out.add("release-signed", start, job=job)


def _event(event: dict[str, Any], out: Journal) -> None:
    at, by, kind = moment(event["t"]), event["by"], event["e"]
    photos = [event["photo"]] if "photo" in event else None
    device = event.get("dev") if kind in ("fast.fit",) else None
    if "dev_time" in event:
        at, device = moment(event["dev_time"]), "phone B"
    name, fields = FIELDS[kind](event)
    out.add(name, at, by=by, device=device, photos=photos, **fields)


FIELDS: dict[str, Any] = {
    "sign.on": lambda e: ("signed-on", {}),
    "sign.off": lambda e: ("signed-off", {"why": e.get("why")}),
    "iso.apply": lambda e: ("isolation-applied", {"isolation": e["p"]}),
    "iso.prove": lambda e: ("isolation-proven", {"isolation": e["p"]}),
    "iso.transfer": lambda e: ("isolation-transferred", {"isolation": e["p"], "to": e["to"]}),
    "iso.remove": lambda e: ("isolation-removed", {"isolation": e["p"]}),
    "fluid.drain": lambda e: ("fluid-drained", {"fluid": e["f"], "litres": e["l"]}),
    "fluid.fill": lambda e: ("fluid-filled", {"fluid": e["f"], "litres": e["l"]}),
    "fluid.check": lambda e: ("fluid-checked", {"fluid": e["f"]}),
    "disc": lambda e: ("connection-parted", {"connection": e["d"]}),
    "conn": lambda e: ("connection-made", {"connection": e["d"]}),
    "fast.remove": lambda e: ("fasteners-removed", {"set": e["g"], "n": e.get("n"), "holes": e.get("holes"), "bagged": e.get("put"), "to": e["to"]}),
    "fast.loosen": lambda e: ("fasteners-loosened", {"set": e["g"], "n": e.get("n"), "holes": e.get("holes")}),
    "fast.fit": lambda e: ("fasteners-fitted", {"set": e["g"], "n": e.get("n"), "holes": e.get("holes"), "source": e.get("from"), "type": e.get("type")}),
    "fast.move": lambda e: ("fasteners-moved", {"set": e["g"], "n": e["n"], "source": e["from"], "to": e["to"], "type": e.get("type")}),
    "torque": lambda e: ("fasteners-tightened", {"set": e["g"], "holes": e.get("holes"), "stage": e.get("stage"), "value_nm": e["v"], "wrench": e["w"], "reached": e.get("reach", False)}),
    "part.remove": lambda e: ("part-removed", {"part": e["p"]}),
    "part.fit": lambda e: ("part-fitted", {"part": e["p"]}),
    "open.open": lambda e: ("opening-opened", {"opening": e["o"]}),
    "open.cover": lambda e: ("opening-covered", {"opening": e["o"], "n": e.get("n")}),
    "open.uncover": lambda e: ("opening-uncovered", {"opening": e["o"], "n": e.get("n")}),
    "open.close": lambda e: ("opening-closed", {"opening": e["o"]}),
    "look.inside": lambda e: ("looked-inside", {"opening": e["o"]}),
    "clean.done": lambda e: ("cleaned", {"opening": e["o"]}),
    "thing.lost": lambda e: ("thing-lost", {"loss": e["id"], "what": e["what"], "set": e["g"], "type": e["type"], "last_seen": moment(e["last_seen"]).isoformat()}),
    "thing.found": lambda e: ("thing-found", {"find": e["id"], "matches": e["matches"], "type": e["type"], "to": e["to"]}),
    "handover.accept": lambda e: ("handover-accepted", {"containers": e["trays"]}),
    "tray.count": lambda e: ("container-counted", {"container": e["c"], "n": e["n"]}),
    "tray.scan": lambda e: ("container-scanned", {"container": e["c"]}),
    "cons.new": lambda e: ("renewal-fitted", {"renewal": e["c"]}),
    "cons.off": lambda e: ("renewal-seen-off", {"renewal": e["c"]}),
    "release.ask": lambda e: ("release-asked", {}),
    "test.run": lambda e: ("test-run", {"test": e["x"], "passed": e["r"] == "pass"}),
    "decide": lambda e: ("finding-decided", {"check": CHECKS[e["c"]], "subject": e["obj"], "decision": e["d"], "reason": "as the scenario says"}),
    "photo.count": lambda e: ("photo-counted", {"container": e["c"], "n": e["n"], "confidence": e.get("conf", 0.9)}),
    "photo.add": lambda e: ("photo-added", {"photo": e["ph"]}),
    "photo.link": lambda e: ("photo-linked", {"photo": e["ph"], "element": e["link"]}),
    "item.in": lambda e: ("item-brought-in", {"item": e["i"], "opening": e["o"]}),
    "item.out": lambda e: ("item-taken-out", {"item": e["i"], "opening": e["o"]}),
    "work.interrupted": lambda e: ("work-interrupted", {"element": e["g"]}),
    "work.resumed": lambda e: ("work-resumed", {"element": e["g"], "rechecked": e["rechecked"]}),
    "setting.asfound": lambda e: ("setting-found", {"setting": e["s"], "value": e["v"]}),
    "setting.set": lambda e: ("setting-set", {"setting": e["s"], "value": e["v"]}),
    "second.verify": lambda e: ("second-checked", {"elements": [e["g"]]}),
    "hold.release": lambda e: ("hold-released", {"hold": e["h"], "late": e.get("late", False)}),
    "label.bind": lambda e: ("label-bound", {"label": e["label"], "container": e["obj"]}),
    "label.retire": lambda e: ("label-retired", {"label": e["label"]}),
    "device.state": lambda e: ("device-reported", {"reported_device": e["dev"], "unsent": e["unsent"], "gap": e.get("gap"), "lost": e.get("lost", False)}),
    "clock.mark": lambda e: ("clock-marked", {"marked_device": e["dev"], "offset_s": e["off"], "order_flips": e.get("flips", False)}),
    "job.link": lambda e: ("job-linked", {"other": e["other"]}),
}  # fmt: skip
