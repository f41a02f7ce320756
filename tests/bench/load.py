"""Thirty phones at once against a true server over loopback: entries, and 12 MP photos in parts, one after the other.

    python -m tests.bench.load [--seconds 300] [--phones 30] [--pace 0]

Bounded in count and time; it speaks to the server that it started and to nobody else. The phones run on the
same cores as the server, so what they cost is in the figures. It prints and asserts no times; it ends with
status 1 when an answer was an error or something acknowledged is not there.
"""

from __future__ import annotations

import argparse
import hashlib
import io
import os
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import httpx
import numpy as np
import psutil
import qrcode
from PIL import Image, ImageDraw
from uuid6 import uuid7

from lastbolt.actions.audit import audit
from lastbolt.people.sign_in import Asking
from lastbolt.settings import settings_from
from lastbolt.wiring import wire

PART = 262_144
JOBS = 10
ENTRY_EVERY_S = 3.0
PAGE_EVERY_S = 0.1
PAGES = (
    "/",
    "/api/jobs",
    "/api/board",
    "/api/jobs/{job}",
    "/api/jobs/{job}/findings",
    "/api/jobs/{job}/entries",
)


@dataclass
class Told:
    """What the phones and the onlooker saw; appended to by threads."""

    errors: Counter[str] = field(default_factory=Counter)
    pages_s: list[float] = field(default_factory=list)
    entries: dict[str, str] = field(default_factory=dict)
    photos: list[tuple[str, str, float]] = field(default_factory=list)
    most_waiting: int = 0
    most_mib: Counter[str] = field(default_factory=Counter)
    sent_bytes: int = 0


def twelve_megapixels() -> bytes:
    """Draw a tray on a bench, 4000 x 3000, with a label, grain and some dark round things."""
    chance = np.random.default_rng(3)
    floor = Image.fromarray(chance.normal(200, 9, (3000, 4000, 3)).clip(0, 255).astype(np.uint8))
    draw = ImageDraw.Draw(floor)
    for place in range(6):
        draw.ellipse(
            (600 + place * 380, 1500, 760 + place * 380, 1660), fill="#3a3a3a", outline="#111", width=8
        )
    symbol = qrcode.make("T-0042-E", box_size=14, border=4).get_image().convert("RGB")
    floor.paste(symbol, (300, 300))
    out = io.BytesIO()
    floor.save(out, "JPEG", quality=88)
    return out.getvalue()


def of_its_own(photo: bytes, words: str) -> bytes:
    """Give the same picture as other bytes: with a comment of its own (a COM segment, ITU-T T.81 B.2.4.5)."""
    said = words.encode()
    return photo[:2] + b"\xff\xfe" + (len(said) + 2).to_bytes(2, "big") + said + photo[2:]


class Phone:
    """One phone: entries every few seconds, photos one after the other."""

    def __init__(
        self, number: int, told: Told, way: tuple[str, str, str], photo: bytes, pace_s: float
    ) -> None:
        self.job, self.told, self.photo, self.pace_s = f"launch {number % JOBS}", told, photo, pace_s
        base, token, self.device = way
        cookie = {"cookie": f"lastbolt-{httpx.URL(base).port}={token}"}
        self.clients = [
            httpx.Client(base_url=base, headers=cookie, timeout=300, verify=False) for _ in range(2)
        ]
        self.name, self.seq, self.turn = f"tech {number}", 0, threading.Lock()

    def entry(self, kind: str, **fields: Any) -> dict[str, Any]:
        with self.turn:
            self.seq += 1
            at = time.strftime("%Y-%m-%dT%H:%M:%S+00:00", time.gmtime())
            own = {"id": str(uuid7()), "job": self.job, "device": self.device, "seq": self.seq, "at": at}
            return {**own, "by": self.name, "kind": kind, **fields}

    def record(self, client: httpx.Client, raw: dict[str, Any]) -> None:
        answer = self.ask(client, "POST", f"/api/jobs/{self.job}/entries", json=[raw])
        for line in answer.json()["lines"] if answer else []:
            self.told.entries[line["entry"]["id"]] = line["hash"]

    def ask(self, client: httpx.Client, method: str, address: str, **more: Any) -> httpx.Response | None:
        try:
            answer = client.request(method, address, **more)
        except httpx.HTTPError as error:
            self.told.errors[f"{method} {type(error).__name__}"] += 1
            return None
        if answer.status_code >= 400:
            self.told.errors[f"{method} {answer.status_code} {answer.text[:90]}"] += 1
            return None
        return answer

    def write(self, until: float) -> None:
        while time.monotonic() < until:
            self.record(self.clients[0], self.entry("container-scanned", container="T0042E"))
            time.sleep(ENTRY_EVERY_S)

    def send_photos(self, until: float) -> None:
        client, number = self.clients[1], 0
        while time.monotonic() < until:
            number, began = number + 1, time.monotonic()
            photo = of_its_own(self.photo, f"{self.name}, photo {number}")
            sha256 = hashlib.sha256(photo).hexdigest()
            self.record(
                client,
                self.entry("photo-added", photo=sha256, sha256=sha256, container="T0042E", shape="tray"),
            )
            for part in range(-(-len(photo) // PART)):
                piece = photo[part * PART : (part + 1) * PART]
                self.ask(client, "PUT", f"/api/photos/{sha256}/parts/{part}", content=piece)
            answer = self.ask(client, "POST", f"/api/jobs/{self.job}/photos/{sha256}", json={"by": self.name})
            if answer and answer.json()["outcome"] == "kept":
                self.told.photos.append((self.name, sha256, time.monotonic() - began))
                self.told.sent_bytes += len(photo)
            elif answer:
                self.told.errors[f"photo {answer.json()}"] += 1
            time.sleep(self.pace_s)


def look_on(told: Told, base: str, token: str, until: float) -> None:
    """Ask for pages as a desk does, and take the time of each answer."""
    cookie = {"cookie": f"lastbolt-{httpx.URL(base).port}={token}"}
    with httpx.Client(base_url=base, headers=cookie, timeout=300, verify=False) as client:
        number = 0
        while time.monotonic() < until:
            number += 1
            address = PAGES[number % len(PAGES)].format(job=f"launch {number % JOBS}")
            began = time.monotonic()
            answer = client.get(address)
            told.pages_s.append(time.monotonic() - began)
            if answer.status_code >= 400:
                told.errors[f"page {answer.status_code} {address}"] += 1
            if number % 10 == 0:
                told.most_waiting = max(told.most_waiting, client.get("/api/readings").json()["waiting"])
            time.sleep(PAGE_EVERY_S)


def weigh(told: Told, pid: int, until: float) -> None:
    """Look twice a second at what the server and its readers hold of memory (RSS)."""
    server = psutil.Process(pid)
    while time.monotonic() < until:
        try:
            own = server.memory_info().rss // 2**20
            readers = sum(child.memory_info().rss // 2**20 for child in server.children(recursive=True))
        except psutil.NoSuchProcess:
            return
        for what, mib in (("server", own), ("readers", readers), ("together", own + readers)):
            told.most_mib[what] = max(told.most_mib[what], mib)
        time.sleep(0.5)


def prepared(folder: Path, phones: int) -> list[tuple[str, str]]:
    """Open the jobs and sign everybody in; give each phone's token and device."""
    wired = wire(settings_from({"LASTBOLT_DATA": str(folder)}))
    ways = []
    for number in range(phones + 1):
        wired.people.shop.add(f"tech {number}", "tech", "3141", by="load")
        opened = wired.people.sign_in.sign_in(f"tech {number}", "3141", Asking(None, f"phone {number:012x}"))
        ways.append((opened.token, opened.visit.device))
    for number in range(JOBS):
        job, at = f"launch {number}", "2026-03-09T08:00:00+00:00"
        own = {"id": str(uuid7()), "job": job, "device": f"desk {number}", "seq": 1, "at": at, "by": "tech 0"}
        opening = {"kind": "job-opened", "machine": "Harbour launch", "title": "Pump", "level": 2}
        wired.journal.append(job, [{**own, **opening}], received="2026-03-09T08:00:00.000Z")
    wired.close()
    return ways


def lost(folder: Path, told: Told) -> int:
    """Count what was acknowledged and is not there, or not whole."""
    wired = wire(settings_from({"LASTBOLT_DATA": str(folder)}))
    lines = [line for job in wired.journal.job_names() for line in wired.journal.lines(job)]
    kept = {line.entry["id"]: line.hash for line in lines}
    missing = sum(kept.get(entry) != digest for entry, digest in told.entries.items())
    missing += sum(wired.photos.state(sha256) != "here" for _, sha256, _ in told.photos)
    missing += sum(audit(wired.shop, job).broken is not None for job in wired.journal.job_names())
    wired.close()
    return missing


def run(folder: Path, told: Told, options: argparse.Namespace) -> float:
    """Start the server, let the phones loose for a while, stop; give how long it took until all was answered."""
    ways = prepared(folder, options.phones)
    photo = twelve_megapixels()
    command = [sys.executable, "-u", "-m", "lastbolt", "--data", str(folder), "serve", "--port", "0"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=dict(os.environ)) as server:
        try:
            assert server.stdout is not None
            base = server.stdout.readline().split()[2].rstrip(";")
            phones = [
                Phone(number, told, (base, *way), photo, options.pace) for number, way in enumerate(ways[:-1])
            ]
            time.sleep(5)
            began = time.monotonic()
            until = began + options.seconds
            threads = []
            for phone in phones:
                threads += [
                    threading.Thread(target=work, args=(until,)) for work in (phone.write, phone.send_photos)
                ]
            threads.append(threading.Thread(target=look_on, args=(told, base, ways[-1][0], until)))
            threading.Thread(target=weigh, args=(told, server.pid, until + 600), daemon=True).start()
            for thread in threads:
                thread.start()
            for thread in threads:
                thread.join()
            return time.monotonic() - began
        finally:
            server.terminate()
            server.wait(60)


def main() -> int:
    parser = argparse.ArgumentParser()
    parser.add_argument("--seconds", type=int, default=300, choices=range(1, 601), metavar="1..600")
    parser.add_argument("--phones", type=int, default=30, choices=range(1, 61), metavar="1..60")
    parser.add_argument("--pace", type=float, default=0.0, help="seconds that a phone waits after each photo")
    options = parser.parse_args()
    told = Told()
    with tempfile.TemporaryDirectory() as place:
        took = run(Path(place), told, options)
        missing = lost(Path(place), told)
    if not told.pages_s:
        print(f"no page was answered within {options.seconds} s; errors {dict(told.errors)}")
        return 1
    per_phone = Counter(name for name, _, _ in told.photos)
    counts = [per_phone[f"tech {number}"] for number in range(options.phones)]
    pages, photos = np.array(told.pages_s) * 1000, np.array([seconds for *_, seconds in told.photos])
    print(f"{options.phones} phones, {took:.0f} s, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}")
    print(
        f"errors {sum(told.errors.values())} {dict(told.errors.most_common(5))}, acknowledged and lost {missing}"
    )
    print(f"entries {len(told.entries)}, photos {len(told.photos)}, {told.sent_bytes / 1e6:.0f} MB")
    print(
        "pages ms: "
        + ", ".join(f"p{p} {np.percentile(pages, p):.0f}" for p in (50, 95, 99))
        + f", n {len(pages)}"
    )
    if len(photos):
        print(f"photo s: p50 {np.percentile(photos, 50):.1f}, p95 {np.percentile(photos, 95):.1f}")
    print(f"photos a phone: {min(counts)} to {max(counts)}; most waiting to be read: {told.most_waiting}")
    print("most memory MiB: " + ", ".join(f"{what} {mib}" for what, mib in told.most_mib.items()))
    return 1 if told.errors or missing else 0


if __name__ == "__main__":
    sys.exit(main())
