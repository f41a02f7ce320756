import atexit
import io
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from functools import cache
from itertools import groupby
from pathlib import Path
from typing import Any

import httpx
import qrcode
from fastapi import FastAPI
from PIL import Image, ImageDraw
from tests.web.serving import served
from tests.web.signing_in import CHEAP, Phones
from uuid6 import uuid7

from lastbolt.readers.pool import ReaderPool
from lastbolt.readers.process import Bounds
from lastbolt.settings import Settings
from lastbolt.web.app import create_app

JOB = "launch-7"
NEAT = "launch-8"


def entry(kind: str, number: int, /, job: str = JOB, by: str = "Ana", **fields: Any) -> dict[str, Any]:
    """Write one entry as a phone would: the number is its place in the phone's own counting and its minute."""
    at = f"2026-03-09T{8 + number // 60:02d}:{number % 60:02d}:00+00:00"
    envelope = {
        "id": str(uuid7()),
        "job": job,
        "device": f"phone of {job}",
        "seq": number,
        "at": at,
        "by": by,
    }
    return {**envelope, "kind": kind, **fields}


def half_finished() -> list[dict[str, Any]]:
    """An invented job left in the middle: bolts in a tray, a part off, a mouth covered, a battery isolated."""
    return [
        entry(
            "job-opened", 1, machine="Harbour launch, inboard engine", title="New water pump seal", level=2
        ),
        entry("signed-on", 2),
        entry("isolation-applied", 3, isolation="battery"),
        entry("isolation-proven", 4, isolation="battery", how="meter"),
        entry("set-described", 5, set="pump cover bolts", n=6, type="M6x1x16", part="pump cover"),
        entry("label-bound", 6, label="T0042E", container="T0042E", container_kind="tray"),
        entry("fasteners-removed", 7, set="pump cover bolts", n=6, to="T0042E"),
        entry("part-removed", 8, part="pump cover", place="shelf 2"),
        entry("opening-opened", 9, opening="pump housing", mouths=1),
        entry("opening-covered", 10, opening="pump housing", n=1),
        entry("container-placed", 11, container="T0042E", place="bench by the window"),
    ]


def neat() -> list[dict[str, Any]]:
    """An invented job with nothing disturbed: only opened."""
    return [entry("job-opened", 1, job=NEAT, machine="Work boat, bilge pump", title="Look it over", level=1)]


def picture(words: str, size: tuple[int, int] = (640, 480), label: str | None = None) -> bytes:
    """Draw a JPEG of its own for these words, with a label's symbol in a corner if one is asked for."""
    image = Image.new("RGB", size, "#d8d2c4")
    draw = ImageDraw.Draw(image)
    for place in range(6):
        draw.ellipse((60 + place * 90, 200, 120 + place * 90, 260), fill="#555", outline="#111", width=4)
    draw.text((40, 40), words, fill="#000")
    if label:
        symbol = qrcode.make(label, box_size=6, border=4).get_image().convert("RGB")
        image.paste(symbol, (size[0] - symbol.width - 20, size[1] - symbol.height - 20))
    out = io.BytesIO()
    image.save(out, "JPEG", quality=90)
    return out.getvalue()


def send(client: httpx.Client, entries: list[dict[str, Any]]) -> httpx.Response:
    """Send entries of one job, a parcel for each run of entries from one device; give the last answer."""
    for _, run in groupby(entries, key=lambda each: each.get("device")):
        answer = client.post(f"/api/jobs/{entries[0]['job']}/entries", json=list(run))
        if answer.is_error:
            break
    return answer


def fill(client: httpx.Client) -> None:
    """Put two jobs and three photos into a shop through its own API."""
    send(client, half_finished()).raise_for_status()
    shown = (("before the work", None), ("the tray", "T-0042-E"), ("pump housing, covered", None))
    for number, (words, label) in enumerate(shown):
        photo = (f"IMG_{number}.jpg", picture(words, (1600, 1200), label), "image/jpeg")
        client.post(f"/api/jobs/{JOB}/photos", files={"photos": photo}).raise_for_status()
    send(client, neat()).raise_for_status()


class Lent:
    """Readers that outlive the shop that asks them: each test has a shop of its own, and readers are slow to start."""

    def __init__(self, pool: ReaderPool) -> None:
        self.warm, self.queue, self.pids = pool.warm, pool.queue, pool.pids
        self.read, self.glance, self.turn = pool.read, pool.glance, pool.turn

    def close(self) -> None:
        """Go on running for the next shop."""


@cache
def lent_pool() -> Lent:
    """Give the readers of this test run, started at the first photo."""
    like = Settings(data=Path())
    pool = ReaderPool(like.readers, Bounds(like.reader_memory, like.reader_seconds, like.preview_edge_px))
    atexit.register(pool.close)
    return Lent(pool)


def lend_readers(app: FastAPI) -> FastAPI:
    """Let an application's photos be read by the readers of this test run."""
    desk = app.state.desk
    wired = desk.wired
    desk._wired = replace(wired, shop=replace(wired.shop, reader=lent_pool()), pool=lent_pool())
    return app


def app_in(folder: Path, *layouts: Path) -> FastAPI:
    """Make the real application over a folder of its own; its photos are read by the readers of this test run."""
    return lend_readers(create_app(Settings(data=folder, pin_cost=CHEAP, layouts=layouts)))


@contextmanager
def open_shop(folder: Path) -> Iterator[tuple[str, httpx.Client]]:
    """Serve a shop from a folder; give its address and a client that is signed in as whom it speaks for."""
    app = app_in(folder)
    with served(app) as address, httpx.Client(base_url=address, timeout=30, auth=Phones(app)) as client:
        yield address, client
