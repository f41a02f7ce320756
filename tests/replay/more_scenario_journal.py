"""More scenarios in the form of practice section 9, turned into journals by the same rules and a few more fields."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from . import scenario_journal as plain
from .scenario_journal import CHECKS, DAY_ONE, FIELDS, Journal, moment

MORE_SCENARIOS: list[dict[str, Any]] = json.loads(
    (Path(__file__).parent / "more_scenarios.json").read_text(encoding="utf-8")
)
SET_FIELDS = {"lock": "locking", "captive": "captive", "each": "each_alone", "unit": "unit"}


def journal_of(scenario: dict[str, Any], devices: int = 1) -> list[dict[str, Any]]:
    setup = scenario["setup"]
    out = Journal(devices)
    for raw in plain.journal_of({"setup": setup, "events": []}, devices):
        out.entries.append(raw | _more(raw, setup))
        out.seq[raw["device"]] = raw["seq"]
    for job, kind in setup.get("losses_elsewhere", {}).items():
        out.add("job-opened", DAY_ONE, job=job, machine="another boat", title="Another job")
        out.add("thing-lost", DAY_ONE, job=job, loss=f"{job} loss", what="a bolt", type=kind)
    ids: list[str] = []
    for event in scenario["events"]:
        ids.append(_event(event, out, ids))
    return out.entries


def _more(raw: dict[str, Any], setup: dict[str, Any]) -> dict[str, Any]:
    kind = raw["kind"]
    if kind == "job-opened" and raw["job"] == "job 1":
        return {
            "level": setup.get("level", 3),
            "licensed": setup.get("licensed", []),
            "redundant_units": setup.get("units", []),
        }
    if kind == "set-described":
        data = setup["groups"][raw["set"]]
        return {ours: data[short] for short, ours in SET_FIELDS.items() if short in data}
    if kind == "spec-entered" and "angle" in setup["groups"][raw["set"]]["spec"]:
        return {"angle_deg": setup["groups"][raw["set"]]["spec"]["angle"]}
    if kind == "part-described" and "unit" in setup["parts"][raw["part"]]:
        return {"unit": setup["parts"][raw["part"]]["unit"]}
    if kind == "fluid-described":
        return {"grade": setup["fluids"][raw["fluid"]].get("grade")}
    if kind == "hold-described":
        return {"witness_only": setup["holds"][raw["hold"]].get("witness", False)}
    if kind == "isolation-described" and "zone" in setup["isolation"][raw["isolation"]]:
        zone = setup["isolation"][raw["isolation"]]["zone"]
        within = [name for name, data in setup.get("openings", {}).items() if data.get("zone") == zone]
        return {"scope": within or [zone]}
    return {}


def _event(event: dict[str, Any], out: Journal, ids: list[str]) -> str:
    kind = event["e"]
    if kind in ("void", "replace"):
        name = "entry-voided" if kind == "void" else "entry-replaced"
        fields = {"bagged": event["with"]["put"]} if "with" in event else None
        more = {"entry": ids[event["of"]], "fields": fields, "reason": event["why"]}
    else:
        name, more = (FIELDS | MORE_FIELDS)[kind](event)
    if "late" in event and event["late"] is not True:
        more |= {
            "mode": "late",
            "happened_at": moment(event["late"]).isoformat(),
            "late_reason": "written later",
        }
    photos = [event["photo"]] if "photo" in event else None
    return out.add(name, moment(event["t"]), by=event["by"], photos=photos, **more)


def _removed(e: dict[str, Any]) -> tuple[str, dict[str, Any]]:
    name, fields = FIELDS["fast.remove"](e)
    fields["type"] = e.get("type")
    return name, fields | ({"to": None, "parked": True} if e["to"] == "hole" else {})


def _fitted(e: dict[str, Any]) -> tuple[str, dict[str, Any]]:
    name, fields = FIELDS["fast.fit"](e)
    return name, fields | {"source": None if e["from"] == "hole" else e["from"], "new": e.get("new", False)}


def _decided(e: dict[str, Any]) -> tuple[str, dict[str, Any]]:
    limit = moment(e["limit"]).isoformat() if "limit" in e else None
    return "finding-decided", {
        "check": CHECKS.get(e["c"], e["c"]), "subject": e["obj"], "decision": e["d"], "reason": "as the scenario says",
        "limit": limit, "barrier": e.get("barrier"), "second": e.get("second"),
    }  # fmt: skip


MORE_FIELDS: dict[str, Any] = {
    "fast.remove": _removed,
    "fast.fit": _fitted,
    "decide": _decided,
    "captive.release": lambda e: ("captive-released", {"set": e["g"], "points": e.get("n")}),
    "tight": lambda e: ("fasteners-retightened", {"set": e["g"], "n": e.get("n"), "value_nm": e.get("v")}),
    "lock.fit": lambda e: ("locking-fitted", {"set": e["g"], "n": e["n"], "locking": e["kind"]}),
    "kit.count": lambda e: ("kit-counted", {"kit": e["k"], "complete": e["complete"], "missing": e.get("missing")}),
    "step.done": lambda e: ("step-done", {"name": e["s"], "elements": e["groups"]}),
    "fast.asfound": lambda e: ("fasteners-found-bad", {"set": e["g"], "holes": e["holes"], "defect": e["defect"]}),
    "fast.identify": lambda e: ("fastener-identified", {"find": e["f"], "set": e.get("g"), "to": e.get("to"), "not_ours": e.get("not_ours", False)}),
    "lost.writeoff": lambda e: ("loss-written-off", {"loss": e["id"], "reason": "searched everywhere", "second": e["second"]}),
    "thing.lost": lambda e: ("thing-lost", {"loss": e["id"], "what": e["what"], "set": e.get("g"), "type": e.get("type"), "n": e.get("n"), "last_seen": moment(e["last_seen"]).isoformat(), "opening": e.get("o")}),
    "wrench.suspect": lambda e: ("wrench-suspected", {"wrench": e["w"], "since": moment(e["since"]).isoformat(), "why": e["why"]}),
    "spec.supersede": lambda e: ("spec-superseded", {"set": e["g"], "by_source": e["source"]}),
    "release.sign": lambda e: ("release-signed", {}),
    "job.reopen": lambda e: ("job-reopened", {"reason": e["why"], "scope": e["scope"]}),
    "job.plan": lambda e: ("plan-adopted", {"plan": e["plan"], "version": e["version"], "elements": e["elements"]}),
    "compound": lambda e: ("compound-applied", {"element": e["g"], "product": e["product"]}),
    "after.due": lambda e: ("duty-set", {"duty": e["id"], "what": e["what"], "limit": e["limit"], "told_to": e["told"]}),
    "open.cover": lambda e: ("opening-covered", {"opening": e["o"], "n": e.get("n"), "covers": e.get("covers")}),
    "open.uncover": lambda e: ("opening-uncovered", {"opening": e["o"], "n": e.get("n"), "covers": e.get("covers")}),
    "look.inside": lambda e: ("looked-inside", {"opening": e["o"], "how": e.get("how"), "clear": e.get("clear")}),
    "conn": lambda e: ("connection-made", {"connection": e["d"], "clamp_tight": e.get("clamp")}),
    "fluid.fill": lambda e: ("fluid-filled", {"fluid": e["f"], "litres": e["l"], "grade": e.get("grade")}),
    "cons.new": lambda e: ("renewal-fitted", {"renewal": e["c"], "n": e.get("n")}),
    "photo.add": lambda e: ("photo-added", {"photo": e["ph"], "element": e.get("link")}),
    "setting.set": lambda e: ("setting-set", {"setting": e["s"], "value": e["v"], "manual_page": e.get("page")}),
    "item.in": lambda e: ("item-brought-in", {"item": e["i"], "opening": e.get("o")}),
    "item.out": lambda e: ("item-taken-out", {"item": e["i"], "opening": e.get("o")}),
    "torque": lambda e: ("fasteners-tightened", {"set": e["g"], "holes": e.get("holes"), "stage": e.get("stage"), "value_nm": e.get("v"), "angle_deg": e.get("angle"), "wrench": e.get("w"), "reached": e.get("reach", False)}),
}  # fmt: skip
