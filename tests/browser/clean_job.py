"""The sample's clean job, line by line, as taps on the phone page: what each kind of entry is done with."""

import json
import re
from collections.abc import Callable, Iterator

from playwright.sync_api import expect
from tests.browser import in_hand
from tests.browser.whole_job import SAMPLES, SLOW_MS, STANDING, Tech

Row = dict
HAND_S_EACH = 2.1
"""A hand with a wrench takes that long a bolt; what is confirmed faster, the list rightly asks about."""
DONE_WITH_ANOTHER = frozenset(
    {"label-bound", "photo-added", "photo-counted", "photo-linked", "isolation-proven", "isolation-removed"}
    | {
        "opening-covered",
        "signed-on",
        "signed-off",
        "handover-offered",
        "handover-accepted",
        "container-emptied",
    }
    | {
        "isolation-transferred",
        "work-resumed",
        "release-asked",
        "job-opened",
        "entry-voided",
        "device-reported",
    }
)
"""Kinds that the page writes with another act, or that the test does by itself."""


def rows() -> list[Row]:
    """Read what was done in the clean job; what was undone again bears a mark."""
    all_rows = [json.loads(line) for line in (SAMPLES / "clean.jsonl").read_text().splitlines()]
    void = {each["entry"] for each in all_rows if each["kind"] == "entry-voided"}
    return [{**each, "undone": each["id"] in void} for each in all_rows]


def is_standing(kind: str) -> bool:
    """Tell whether the shop knows it before anybody touches the machine."""
    return any(mark in kind for mark in STANDING)


def labels(row: Row) -> str:
    """Write a code as it is printed: T-0106-E."""
    code = row["source"]
    return f"{code[0]}-{code[1:-1]}-{code[-1]}"


class Worker:
    """Two people and a lead who do what the journal says, each on a phone of their own."""

    def __init__(self, techs: dict[str, Tech], job: str, journal: list[Row]) -> None:
        self.techs, self.job, self.journal = techs, job, journal
        self.fitted: set[str] = set()
        self.left_out: set[str] = set()
        self.ways: dict[str, Callable[[Tech, Row], None]] = {
            name.removeprefix("do_").replace("_", "-"): getattr(self, name)
            for name in dir(self)
            if name.startswith("do_")
        }

    def work(self, part: list[Row]) -> None:
        """Do one part of the journal."""
        for row in part:
            way = self.ways.get(row["kind"])
            if way:
                way(self.techs[row["by"]], row)
            elif row["kind"] not in DONE_WITH_ANOTHER and not is_standing(row["kind"]):
                self.left_out.add(row["kind"])

    def _act(self, tech: Tech, name: str, *answers: str) -> None:
        tech.act(self.job, name, *answers)

    def _opened_by(self, row: Row) -> Iterator[str]:
        """Answer what comes after something is off: the mouth that it leaves, and its covers."""
        taken = row.get("part") or row.get("connection")
        opened = next(
            (r for r in self.journal if r["kind"] == "opening-opened" and r.get("by_taking_off") == taken),
            None,
        )
        yield opened["opening"] if opened else "No mouth"
        if opened:
            yield self._covers(opened["opening"])

    def _covers(self, opening: str) -> str:
        covered = next(
            (r for r in self.journal if r["kind"] == "opening-covered" and r["opening"] == opening), None
        )
        if covered is None:
            return "It stays bare for now"
        return f"{covered['n']} cover{'s go' if covered['n'] > 1 else ' goes'} on"

    def do_isolation_applied(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Cut off", row["isolation"], "Tester shows nothing")

    def do_captive_released(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Latches opened", row["set"])

    def do_part_removed(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Part off", row["part"], *self._opened_by(row))

    def do_connection_parted(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Apart", row["connection"], *self._opened_by(row))

    def do_fasteners_removed(self, tech: Tech, row: Row) -> None:
        if row.get("parked"):
            self._act(tech, "Parked in the hole", row["set"])
        else:
            tech.bag(self.job, row["to"], row["set"], row["n"])
            if row["undone"]:
                tech.hand.tap_button("Undo")
                expect(tech.page.locator(".understood")).to_contain_text("Taken back", timeout=SLOW_MS)

    def do_fasteners_loosened(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Loosened", row["set"])

    def do_setting_found(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Setting as found", row["setting"], f"#{row['value']}")

    def do_fluid_drained(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Drained", row["fluid"], f"#{row['litres']}")

    def do_item_brought_in(self, tech: Tech, row: Row) -> None:
        tech.item(self.job, "rag", row["n"])

    def do_item_taken_out(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Taken out", f"{row['n']} × rag")

    def do_cleaned(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Cleaned", row["opening"], {"vacuum": "Vacuum", "wipe": "Wiped"}[row["how"]])

    def do_renewal_seen_off(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Old seal off", row["renewal"])

    def do_renewal_fitted(self, tech: Tech, row: Row) -> None:
        self._act(tech, "New seal on", row["renewal"])

    def do_opening_opened(self, tech: Tech, row: Row) -> None:
        if not row.get("by_taking_off"):
            self._act(tech, "Mouth open", row["opening"], self._covers(row["opening"]))

    def do_opening_uncovered(self, tech: Tech, row: Row) -> None:
        n = row["n"]
        self._act(tech, "Covers", row["opening"], f"{n} cover{'s come' if n > 1 else ' comes'} off")

    def do_looked_inside(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Looked inside", row["opening"], f"Clear, by {row['how']}")

    def do_opening_closed(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Mouth shut", row["opening"])

    def do_part_fitted(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Part on", row["part"])

    def do_connection_made(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Joined", row["connection"], "Pulled, clamp tight")

    def do_fasteners_fitted(self, tech: Tech, row: Row) -> None:
        if row["set"] in self.fitted:
            return
        self.fitted.add(row["set"])
        if row.get("new"):
            return tech.back(self.job, row["set"], f"All {row['n']} from new ones")
        if not row.get("source"):
            return tech.back(self.job, row["set"], f"{row['n']} parked ones are fitted")
        n = sum(r["n"] for r in self.journal if r["kind"] == row["kind"] and r["set"] == row["set"])
        shown = labels(row)
        lay = {
            r["set"]
            for r in self.journal
            if r["kind"] == "fasteners-removed" and r.get("to") == row["source"]
        }
        shared = not lay <= self.fitted
        empty = () if shared else (f"{shown}: looked into", "Empty, without a photo")
        return tech.back(self.job, row["set"], f"All {n} from {shown}", *empty)

    def do_fasteners_tightened(self, tech: Tech, row: Row) -> None:
        value = f"{row['value_nm']:g}"
        tech.go(f"/jobs/{self.job}/back/{row['set'].replace(' ', '%20')}")
        read = tech.page.get_by_role("button", name="Read", exact=True)
        wrench = tech.page.get_by_role("button", name=re.compile(f"^{row['wrench']}"))
        other = tech.page.get_by_role("button", name="Another wrench")
        expect(wrench.or_(other).or_(read).first).to_be_visible(timeout=SLOW_MS)
        if read.is_visible():
            tech.hand.tap(read)
            expect(wrench.or_(other).first).to_be_visible(timeout=SLOW_MS)
        if other.is_visible():
            tech.hand.tap(other)
        all_holes = "Hole 1 at" if len(row["holes"]) == 1 else f"All {len(row['holes'])} at {value}"
        if row.get("stage", 1) > 1:
            tech.page.wait_for_timeout(HAND_S_EACH * 1000 * len(row["holes"]))
        self._button(tech, row["wrench"])
        offered = tech.page.get_by_role("button", name=re.compile(rf"^{re.escape(value)} N"))
        another = tech.page.get_by_role("button", name="Another figure")
        tech.choose(another, tap=False)
        if offered.count():
            tech.hand.tap(offered.first)
        else:
            tech.figure(value)
        self._button(tech, all_holes)
        expect(tech.page.locator(".understood")).to_contain_text("tightened at", timeout=SLOW_MS)
        in_hand.all_sent(tech.page)
        tech.acts += 1

    def _button(self, tech: Tech, name: str) -> None:
        tech.choose(tech.page.get_by_role("button", name=re.compile(f"^{re.escape(name)}")).first)

    def do_fasteners_moved(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Thrown away, moved", f"{row['n']} × {row['set']}", "Thrown away")
        self._act(tech, "Bag is empty", labels(row))

    def do_fasteners_retightened(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Tight again", row["set"])

    def do_witness_marked(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Paint mark", row["set"])

    def do_work_interrupted(self, tech: Tech, row: Row) -> None:
        tech.go(f"/jobs/{self.job}/work")
        tech.hand.tap_button("Called away")
        tech.hand.tap_button("Gone back, looked over: go on")
        expect(tech.page.locator(".understood p")).not_to_be_empty(timeout=SLOW_MS)
        tech.acts += 2

    def do_setting_set(self, tech: Tech, row: Row) -> None:
        found = next(
            r for r in self.journal if r["kind"] == "setting-found" and r["setting"] == row["setting"]
        )
        self._act(tech, "Setting set", row["setting"], f"{found['value']}")

    def do_fluid_filled(self, tech: Tech, row: Row) -> None:
        drained = sum(r["litres"] for r in self.journal if r["kind"] == "fluid-drained")
        if row["litres"] == drained:
            self._act(tech, "Filled", row["fluid"], f"{row['litres']}")

    def do_fluid_checked(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Level looked at", row["fluid"], "Level right, no leak")

    def do_isolation_cleared(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Tag off", row["isolation"], "Looked round, tag off, back on")

    def do_captive_shut(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Latched", row["set"])

    def _look(self, tech: Tech, said: str, *names: str) -> None:
        tech.go(f"/jobs/{self.job}/looks")
        for name in names:
            tech.choose(tech.page.get_by_role("button", name=re.compile(f"^{re.escape(name)}")).first)
        expect(tech.page.locator(".understood p")).to_contain_text(said, timeout=SLOW_MS)
        in_hand.all_sent(tech.page)
        tech.acts += 1

    def do_hold_released(self, tech: Tech, row: Row) -> None:
        self._look(tech, row["hold"], f"I looked: {row['hold']}")

    def do_second_checked(self, tech: Tech, row: Row) -> None:
        for element in row["elements"]:
            self._look(tech, element, f"I looked at {element}", "Good, and I did none of it")

    def do_locking_fitted(self, tech: Tech, row: Row) -> None:
        self._look(tech, row["set"], f"{row['set']}: {row['n']} ×")

    def do_test_run(self, tech: Tech, row: Row) -> None:
        self._look(tech, row["test"], f"{row['test']}: passed")

    def do_kit_counted(self, tech: Tech, row: Row) -> None:
        self._act(
            tech,
            "Kit counted",
            f"~{row['kit']}",
            "The kit is complete" if row["complete"] else "Something is missing",
        )

    def do_container_placed(self, tech: Tech, row: Row) -> None:
        code = row["container"]
        self._act(tech, "Put away", f"{code[0]}-{code[1:-1]}-{code[-1]}", f"~{row['place']}")

    def do_step_started(self, tech: Tech, row: Row) -> None:
        self._act(tech, "Step begun", f"~{row['name']}")

    def do_step_done(self, tech: Tech, row: Row) -> None:
        left = "All touched in it is finished" if row["elements"] else "Left apart for now"
        self._act(tech, "Step done", row["name"], left)

    def do_start_asked(self, tech: Tech, row: Row) -> None:
        tech.go(f"/jobs/{self.job}/start")
        expect(tech.page.locator(".headline")).to_be_visible(timeout=SLOW_MS)
        in_hand.all_sent(tech.page)
        tech.acts += 1
