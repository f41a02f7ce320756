"""A technician who works a whole job by taps on the phone page: acts in words, as the page says them."""

import json
import re
from pathlib import Path

from playwright.sync_api import BrowserContext, Locator, expect
from tests.browser import in_hand
from tests.browser.bagging import PHOTOS
from tests.browser.in_hand import Shop
from tests.web import shop

SAMPLES = PHOTOS.parent
SLOW_MS = 60_000
STANDING = ("-described", "spec-", "wrench-", "renewal-needed", "access-said", "person-")
NAMES = (
    "set",
    "connection",
    "opening",
    "isolation",
    "renewal",
    "wrench",
    "person",
    "part",
    "fluid",
    "setting",
    "test",
    "hold",
)


def sample(journal: str = "half_finished") -> list[dict]:
    """Read one of the sample's jobs."""
    return [json.loads(line) for line in (SAMPLES / f"{journal}.jsonl").read_text().splitlines()]


def standing_data(job: str, about: frozenset[str] | None, journal: str = "half_finished") -> list[dict]:
    """Take what the shop knows before anybody touches the machine from the sample: sets, values, mouths, tags.

    `about` names the things that are worked on; None is all of them.
    """
    found = []
    for each in sample(journal):
        if not any(mark in each["kind"] for mark in STANDING):
            continue
        subject = next(each[field] for field in NAMES if field in each)
        names = {subject, each.get("element", subject)}
        if about is None or names <= about:
            fields = {
                k: v for k, v in each.items() if k not in {"id", "job", "device", "seq", "at", "by", "step"}
            }
            kind = fields.pop("kind")
            found.append(shop.entry(kind, len(found) + 1, job=job, by="Ilse", **fields))
    return found


def photo_of(container: str) -> Path:
    """Give the sample's photo of a tray."""
    manifest = json.loads((PHOTOS / "manifest.json").read_text())
    return next(
        PHOTOS / name
        for name, about in manifest.items()
        if [c["container"] for c in about["containers"]] == [container]
    )


class Tech:
    """One person with one phone, signed in; every act is taps on the page, counted."""

    def __init__(self, here: Shop, context: BrowserContext, name: str, role: str = "tech") -> None:
        self.here, self.name = here, name
        self.hand = in_hand.hand_of(here, context, name, role=role)
        self.page = self.hand.page
        self.page.set_default_timeout(SLOW_MS)
        self.acts = 0
        self.typed = 0

    def go(self, path: str) -> None:
        """Open an address of the shop, as a link does."""
        self.page.goto(f"{self.here.address}{path}")

    def at_the_machine(self, job: str) -> None:
        """Stand before the machine, where one stands already after an act."""
        if not re.search(r"/work$", self.page.url):
            self.go(f"/jobs/{job}/work")

    def act(self, job: str, name: str, *answers: str) -> None:
        """Do one act at the machine, and answer its questions in their order."""
        self.at_the_machine(job)
        self.hand.tap_button("All acts")
        self.hand.tap(self.page.locator(".actions.two").get_by_role("button", name=name, exact=True).first)
        for answer in answers:
            if answer.startswith("#"):
                self.figure(answer[1:])
                continue
            if answer.startswith("~"):
                self.named(answer[1:])
                continue
            self.choose(
                self.page.locator("section.form .actions, section.form .pad, section.form .figures")
                .get_by_role("button", name=re.compile(f"^{re.escape(answer)}"))
                .first
            )
        self.choose(self.page.get_by_role("button", name="All acts", exact=True), tap=False)
        self.acts += 1

    def named(self, name: str) -> None:
        """Choose a name that the job knows, or type it the first time."""
        box = self.page.get_by_label("Or type a name")
        known = self.page.locator("section.form .actions").get_by_role("button", name=name, exact=True)
        self.choose(known.or_(box).first, tap=False)
        if known.count():
            self.hand.tap(known.first)
            return
        box.fill(name)
        self.typed += len(name)
        self.hand.tap(self.page.locator("section.form form button"))

    def figure(self, figure: str) -> None:
        """Put a figure together on the pad."""
        pad = self.page.locator("section .pad:visible")
        other = self.page.get_by_role("button", name="Another figure")
        self.choose(pad.or_(other).first, tap=False)
        if other.is_visible():
            self.hand.tap(other)
        for digit in figure:
            self.hand.tap(pad.get_by_role("button", name=digit, exact=True))
        self.hand.tap(self.page.get_by_role("button", name=f"Record {figure}"))

    def item(self, job: str, item: str, n: int) -> None:
        """Bring n of an item in."""
        self.at_the_machine(job)
        self.hand.tap(self.page.get_by_role("button", name="Brought in", exact=True).first)
        self.choose(self.page.get_by_role("button", name=f"{n} × {item}", exact=True))
        self.choose(self.page.get_by_role("button", name="All acts", exact=True), tap=False)
        self.acts += 1

    def bag(self, job: str, container: str, fasteners: str, n: int) -> None:
        """Photograph a tray with its label; count; say where they were."""
        self.at_the_machine(job)
        with self.page.expect_file_chooser() as chooser:
            self.hand.tap_button("Take the photo")
        chooser.value.set_files(photo_of(container))
        place = self.page.get_by_role("button", name=fasteners, exact=True)
        expect(self.page.get_by_role("heading", name="Where were they?")).to_be_visible(timeout=SLOW_MS)
        self.hand.count(n)
        if not place.is_visible():
            self.hand.tap(self.page.locator("details summary", has_text="more set"))
        self.hand.tap(place)
        said = self.page.get_by_role("status").filter(has_text=f"· {fasteners} →")
        expect(said.first).to_be_visible(timeout=SLOW_MS)
        self.acts += 1

    def back(self, job: str, fasteners: str, *buttons: str) -> None:
        """Put a set back on: tap each button in turn; what it answers is waited for."""
        self.go(f"/jobs/{job}/back/{fasteners.replace(' ', '%20')}")
        for name in buttons:
            self.choose(self.page.get_by_role("button", name=re.compile(f"^{re.escape(name)}")).first)
        heard = "is empty and free" if buttons[-1].startswith("Empty") else re.compile("fitted|tightened at")
        expect(self.page.locator(".understood")).to_contain_text(heard, timeout=SLOW_MS)
        in_hand.all_sent(self.page)
        self.acts += 1

    def choose(self, target: Locator, *, tap: bool = True) -> None:
        """Tap what is wanted once it is there; a caution that comes first is read first."""
        read = self.page.get_by_role("button", name="Read", exact=True)
        expect(target.or_(read).first).to_be_visible(timeout=SLOW_MS)
        if read.is_visible():
            self.hand.tap(read)
        expect(target).to_be_visible(timeout=SLOW_MS)
        if tap:
            self.hand.tap(target)
