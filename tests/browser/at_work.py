"""A job at the machine for browser tests: a manifold to take off and put back, its photo, its wrenches."""

import hashlib
import io
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
from axe_playwright_python.sync_playwright import Axe
from PIL import Image, ImageDraw
from playwright.sync_api import BrowserContext, BrowserType, Page, expect
from tests.browser import bagging
from tests.browser.bagging import Hand
from tests.web import shop
from tests.web.signing_in import sign_in_browser

JOB = "launch-9"
RAIL, LOOKALIKE, PART = "manifold bolts", "elbow bolts", "inlet manifold"
TRAY, TRAY_SHOWN = "T0106E", "T-0106-E"
HOLES = ((0.2, 0.3), (0.5, 0.3), (0.8, 0.3), (0.2, 0.7), (0.5, 0.7), (0.8, 0.7))
SIZE = (1600, 1200)
ENHANCED = {"rules": {"color-contrast-enhanced": {"enabled": True}}}


def machine() -> bytes:
    """Draw an invented manifold from the front: a plate with six holes, where `HOLES` says."""
    image = Image.new("RGB", SIZE, "#7b8794")
    draw = ImageDraw.Draw(image)
    draw.rounded_rectangle((120, 180, 1480, 1020), 60, fill="#aab4bd", outline="#39424b", width=10)
    for port in (420, 800, 1180):
        draw.ellipse((port - 130, 470, port + 130, 730), fill="#20262c", outline="#39424b", width=8)
    for x, y in HOLES:
        at = (x * SIZE[0], y * SIZE[1])
        draw.ellipse(
            (at[0] - 34, at[1] - 34, at[0] + 34, at[1] + 34), fill="#e6e9ec", outline="#111", width=8
        )
        draw.ellipse((at[0] - 12, at[1] - 12, at[0] + 12, at[1] + 12), fill="#111")
    out = io.BytesIO()
    image.save(out, "JPEG", quality=88)
    return out.getvalue()


def tell(client: httpx.Client, *acts: tuple[str, dict], first: int = 1) -> None:
    """Record acts of a phone of Ben's, in their order."""
    lines = [
        shop.entry(kind, n, job=JOB, by="Ben", **said) for n, (kind, said) in enumerate(acts, start=first)
    ]
    shop.send(client, lines).raise_for_status()


def described(client: httpx.Client) -> None:
    """Open the job and say what its machine has: nothing is disturbed yet."""
    stages = [{"min_nm": 10, "max_nm": 12}, {"min_nm": 22, "max_nm": 26}]
    value = {
        "min_nm": 22, "max_nm": 26, "as_written": "22-26 N·m", "stage_count": 2, "stages": stages,
        "order": [3, 4, 2, 5, 1, 6], "source": "workshop book (invented)", "revision": "3", "page": "41",
        "condition": "oiled",
    }  # fmt: skip
    tell(
        client,
        ("job-opened", {"machine": "Ferry tender, inboard", "title": "Inlet gasket", "level": 3}),
        ("part-described", {"part": PART}),
        ("part-described", {"part": "air box"}),
        ("set-described", {"set": RAIL, "n": 6, "type": "M8x1.25x35", "part": PART, "gasketed": True}),
        ("set-described", {"set": LOOKALIKE, "n": 4, "type": "M8x1.25x30"}),
        ("set-described", {"set": "adjuster bolts", "n": 2, "type": "M8x1.25x30", "loosened_only": True}),
        ("set-described", {"set": "lid latches", "n": 4, "captive": True}),
        ("spec-entered", {"set": RAIL, **value}),
        ("wrench-described", {"wrench": "small wrench", "min_nm": 4, "max_nm": 20}),
        ("wrench-described", {"wrench": "large wrench", "min_nm": 20, "max_nm": 100}),
        *(
            (
                "wrench-calibrated",
                {"wrench": name, "calibrated_on": "2026-03-01", "due": "2099-03-01T00:00:00Z"},
            )
            for name in ("small wrench", "large wrench")
        ),
        ("renewal-needed", {"renewal": "manifold gasket", "n": 1, "under": PART, "see_old_off": True}),
        ("connection-described", {"connection": "suction hose", "has_clamp": True}),
        ("opening-described", {"opening": "inlet ports", "opening_class": "A", "mouths": 3}),
        ("fluid-described", {"fluid": "coolant", "capacity_l": 6}),
        ("setting-described", {"setting": "belt deflection", "unit": "mm", "tolerance": 2}),
        ("access-said", {"part": "air box", "element": RAIL, "need": "final"}),
        ("label-bound", {"label": TRAY, "container": TRAY, "container_kind": "tray"}),
    )


def taken_apart(client: httpx.Client) -> None:
    """The manifold is off, its bolts lie in the tray, the air box that goes over it is off too."""
    described(client)
    tell(
        client,
        ("part-removed", {"part": "air box", "place": "shelf 2"}),
        ("fasteners-removed", {"set": RAIL, "n": 6, "to": TRAY}),
        ("part-removed", {"part": PART, "place": "shelf 2"}),
        first=30,
    )


def photographed(client: httpx.Client, *, pinned: bool = False) -> str:
    """Put the photo of the machine into the job as the place of the bolts, with all holes marked if asked."""
    photo = machine()
    answer = client.post(f"/api/jobs/{JOB}/photos", files={"photos": ("before.jpg", photo, "image/jpeg")})
    answer.raise_for_status()
    name = hashlib.sha256(photo).hexdigest()
    link = ("photo-linked", {"photo": name, "element": RAIL, "shape": "before"})
    pins = [
        ("photo-pinned", {"photo": name, "element": RAIL, "hole": hole, "x": x, "y": y})
        for hole, (x, y) in enumerate(HOLES, start=1)
    ]
    tell(client, link, *(pins if pinned else []), first=50)
    return name


@contextmanager
def at_machine(
    browser_type: BrowserType, arguments: dict, *, film: Path | None, address: str, by: str = "Ana"
) -> Iterator[Page]:
    """A phone with a camera that shows the film, on which somebody is signed in."""
    with bagging.phone(browser_type, arguments, film=film) as context:
        sign_in_browser(context, address, by)
        yield context.new_page()


def hub(page: Page, address: str) -> Hand:
    """Open the job at the machine."""
    page.goto(f"{address}/jobs/{JOB}/work")
    expect(page.get_by_role("button", name="Take the photo", exact=True)).to_be_enabled(timeout=30_000)
    return Hand(page)


def recorded(client: httpx.Client, n: int) -> list[dict]:
    """Wait until n entries of the phone are here, and give them."""
    until = time.monotonic() + 40
    while len(found := by_ana(client)) < n and time.monotonic() < until:
        time.sleep(0.05)
    return found


def by_ana(client: httpx.Client) -> list[dict]:
    """Give what Ana's phone recorded, oldest first."""
    lines = client.get(f"/api/jobs/{JOB}/entries", params={"limit": 500}).json()["lines"]
    ours = (line["entry"] for line in reversed(lines))
    return [entry for entry in ours if entry["by"] == "Ana" and entry["kind"] != "device-reported"]


def said_by(entry: dict, *names: str) -> tuple:
    """Give some fields of an entry."""
    return tuple(entry.get(name) for name in names)


def offline(context: BrowserContext, is_off: bool) -> None:
    """Take the network away from a phone, or give it back."""
    context.set_offline(is_off)


def sound(page: Page) -> None:
    """No fault that axe sees, 7:1 in light and dark, nothing wider than the screen, nothing small for a glove."""
    for scheme in ("dark", "light"):
        page.emulate_media(color_scheme=scheme)
        found = Axe().run(page, options=ENHANCED)
        assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    heights = page.evaluate(
        "[...document.querySelectorAll('.work button, .work a.button')]"
        ".map(e => e.getBoundingClientRect().height).filter(Boolean)"
    )
    assert min(heights) >= 52


def keep_picture(page: Page, shots: Path | None, name: str) -> None:
    """Keep a picture of the screen in both sizes, light and dark, if asked."""
    if not shots:
        return
    for width, height in bagging.PHONES:
        page.set_viewport_size({"width": width, "height": height})
        for scheme in ("dark", "light"):
            page.emulate_media(color_scheme=scheme)
            page.screenshot(path=shots / f"{name}-{width}-{scheme}.png")
    page.set_viewport_size({"width": bagging.PHONES[0][0], "height": bagging.PHONES[0][1]})
