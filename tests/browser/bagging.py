"""A phone in the hand for browser tests: a camera that shows a photo of a tray, a job to bag for, taps counted."""

import hashlib
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from pathlib import Path

import httpx
from PIL import Image
from playwright.sync_api import BrowserContext, BrowserType, Locator, Page, expect
from tests.web import shop
from tests.web.signing_in import sign_in_browser

PHOTOS = Path(__file__).resolve().parents[2] / "samples" / "photos"
JOB = "launch-9"
SET = "inlet manifold bolts"
PHONES = ((360, 740), (412, 915))


def clip(photo: Path, to: Path, size: tuple[int, int] = (1280, 960)) -> Path:
    """Make a camera clip of a photo held in an unsteady hand: JPEGs one after another are an .mjpeg."""
    still = Image.open(photo).convert("RGB").resize((size[0] + 16, size[1] + 16))
    with to.open("wb") as file:
        for turn in range(8):
            x, y = (turn * 5) % 16, (turn * 3) % 16
            frame = BytesIO()
            still.crop((x, y, x + size[0], y + size[1])).save(frame, "JPEG", quality=88)
            file.write(frame.getvalue())
    return to


def open_job(client: httpx.Client, job: str = JOB) -> None:
    """Put a job into the shop in which one set is described and nothing is out."""
    entries = [
        shop.entry("job-opened", 1, job=job, machine="Ferry tender, inboard", title="Gasket", level=1),
        shop.entry("set-described", 2, job=job, set=SET, n=8, type="M8x1.25x30", part="inlet manifold"),
    ]
    shop.send(client, entries).raise_for_status()


@contextmanager
def phone(
    browser_type: BrowserType, arguments: dict, *, film: Path | None, size: tuple[int, int] = PHONES[0]
) -> Iterator[BrowserContext]:
    """Start a browser of its own with a camera that shows the film; without one it has no camera."""
    fake = [
        "--use-fake-device-for-media-stream",
        "--use-fake-ui-for-media-stream",
        f"--use-file-for-fake-video-capture={film}",
    ]
    browser = browser_type.launch(**{**arguments, "args": [*arguments["args"], *(fake if film else [])]})
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]},
        has_touch=True,
        locale="en-GB",
        timezone_id="Europe/Berlin",
        permissions=["camera"] if film else [],
    )
    try:
        yield context
    finally:
        context.close()
        browser.close()


class Hand:
    """Taps like a finger, counts taps, and never types unless told to."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.taps = 0

    def tap(self, target: Locator) -> None:
        # While a camera is still being asked, what lies below its picture has not come to rest.
        expect(self.page.locator("div.live")).to_have_count(0, timeout=30_000)
        target.tap()
        self.taps += 1

    def tap_button(self, name: str) -> None:
        self.tap(self.page.get_by_role("button", name=name, exact=True))

    def count(self, n: int) -> None:
        for digit in str(n):
            self.tap_button(digit)


def take_phone(page: Page, base_url: str, job: str = JOB, by: str = "Ana") -> Hand:
    """Open the bagging screen of a job on a phone on which somebody is signed in."""
    if not page.context.cookies(base_url):
        sign_in_browser(page.context, base_url, by)
    page.goto(f"{base_url}/jobs/{job}/bag")
    return Hand(page)


def all_sent(page: Page, timeout: float = 30_000) -> None:
    """Wait until nothing of this phone waits; the line about it speaks up only after a blink."""
    expect(page.locator(".outbox")).to_have_attribute("data-waits", "0", timeout=timeout)


def entries_of(client: httpx.Client, job: str = JOB) -> list[dict]:
    """Give the job's entries, oldest first."""
    lines = client.get(f"/api/jobs/{job}/entries", params={"limit": 500}).json()["lines"]
    return [line["entry"] for line in reversed(lines)]


def sent_by_phone(client: httpx.Client, job: str = JOB) -> list[dict]:
    """Give what a phone's page recorded in the job."""
    own = (entry for entry in entries_of(client, job) if not entry["device"].startswith("phone of"))
    return [entry for entry in own if entry.get("role") != "machine"]


def photo_matches(client: httpx.Client, sha256: str) -> bool:
    """Tell whether the server holds a photo whose bytes have this hash."""
    answer = client.get(f"/api/photos/{sha256}")
    return answer.status_code == 200 and hashlib.sha256(answer.content).hexdigest() == sha256
