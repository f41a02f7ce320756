"""A shop in a process of its own, made to be killed: phones send entries and photos and send again what was not answered."""

from __future__ import annotations

import hashlib
import json
import os
import random
import signal
import threading
import time
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import numpy as np
from uuid6 import uuid7

from lastbolt.actions.photograph import Hint, take
from lastbolt.actions.record import record
from lastbolt.readers.turns import ReadingQueue
from lastbolt.settings import settings_from
from lastbolt.vision.outcome import Count, LabelMark, Look, PhotoFacts, Reading
from lastbolt.wiring import Wired, wire

JOBS = ("launch 1", "launch 2")
AT = "2026-03-09T08:00:00+00:00"


class ReadBefore:
    """Gives every photo the same sure reading at once: what is tried here is the keeping, not the looking."""

    def read(self, photo: bytes, *, device: str, earlier: bytes | None = None) -> Reading:
        facts = PhotoFacts("JPEG", 40, 30, 1, None, None, None, None)
        mark = LabelMark("no label of a shop", np.zeros((4, 2)), None)
        seen = Look((40, 30), facts, (mark,), (None,), (), Count(2, 2, 2), (), "by hand")
        return Reading(seen, b"\xff\xd8 small " + hashlib.sha256(photo).digest())

    def glance(self, photo: bytes, *, device: str) -> Reading:
        return self.read(photo, device=device)

    @contextmanager
    def turn(self, *, device: str) -> Iterator[ReadBefore]:
        yield self

    def queue(self) -> ReadingQueue:
        return ReadingQueue((), (), 0.0, 1)


@dataclass
class Phone:
    """What one phone wants to send, in order, and how far the answers came."""

    name: str
    job: str
    chance: random.Random
    seq: int = 0
    unanswered: dict[str, Any] | None = None
    entries: dict[str, str] = field(default_factory=dict)
    photos: set[str] = field(default_factory=set)
    sent_bytes: int = 0

    def next_one(self) -> dict[str, Any]:
        """Give what was not answered once more, else something new."""
        if self.unanswered is None:
            seed, size = self.chance.getrandbits(62), self.chance.choice((3_000, 60_000, 400_000))
            is_photo = self.chance.random() < 0.4
            self.unanswered = {"seed": seed, "size": size} if is_photo else {"entries": self._raws()}
        return self.unanswered

    def _raws(self) -> list[dict[str, Any]]:
        raws = []
        for _ in range(self.chance.randint(1, 4)):
            self.seq += 1
            own = {
                "id": str(uuid7()),
                "job": self.job,
                "device": self.name,
                "seq": self.seq,
                "at": AT,
                "by": "Ana",
            }
            raws.append({**own, "kind": "container-scanned", "container": "T1"})
        return raws

    def heard(self, said: dict[str, Any]) -> None:
        """Take down what is being sent, as the outbox of a phone does before it sends, or an answer to it."""
        if "sends" in said:
            self.unanswered, self.seq = said["sends"], said["seq"]
            return
        self.entries |= said.get("entries", {})
        if "sha256" in said:
            self.photos.add(said["sha256"])
            self.sent_bytes += said["bytes"]
        self.unanswered = None


def photo_of(seed: int, size: int) -> bytes:
    return random.Random(seed).randbytes(size)


def opened(folder: Path) -> Wired:
    wired = wire(settings_from({"LASTBOLT_DATA": str(folder)}), serving=True)
    return replace(wired, shop=replace(wired.shop, reader=ReadBefore()))


def serve(wired: Wired, phone: Phone, say: Any) -> None:
    """Do for one phone what its requests ask for, and answer each when it is done."""
    try:
        _serve(wired, phone, say)
    finally:
        traceback.print_exc()
        os._exit(4)


def _serve(wired: Wired, phone: Phone, say: Any) -> None:
    while True:
        wish = phone.next_one()
        say(phone.name, {"sends": wish, "seq": phone.seq})
        if "entries" in wish:
            lines = record(wired.journal, wired.clock, wish["entries"], job=phone.job)
            said: dict[str, Any] = {"entries": {line.entry["id"]: line.hash for line in lines}}
        else:
            photo = photo_of(wish["seed"], wish["size"])
            hint = Hint(container="T1", device=f"{phone.name} camera", live=True)
            taken = take(wired.shop, photo, job=phone.job, by="Ana", hint=hint)
            assert taken.outcome != "refused"
            said = {"sha256": taken.sha256, "bytes": len(photo)}
        say(phone.name, said)
        phone.heard(said)


def open_jobs(folder: Path) -> None:
    wired = opened(folder)
    for n, job in enumerate(JOBS):
        own = {"id": str(uuid7()), "job": job, "device": f"desk {n}", "seq": 1, "at": AT, "by": "Ana"}
        record(
            wired.journal,
            wired.clock,
            [{**own, "kind": "job-opened", "machine": "Launch", "title": "Pump", "level": 1}],
        )
    wired.close()


def run_and_kill(folder: Path, phones: list[Phone], *, after_s: float) -> None:
    """Serve the phones in a child process, kill it -9 after a while, and take down what was answered."""
    for phone in phones:
        phone.chance.seed(phone.chance.getrandbits(64))
    read_end, write_end = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read_end)
        _be_the_server(folder, phones, write_end)
    os.close(write_end)
    killer = threading.Timer(after_s, os.kill, (child, signal.SIGKILL))
    killer.start()
    with os.fdopen(read_end, "rb") as answers:
        whole = answers.read().split(b"\n")[:-1]
    _, status = os.waitpid(child, 0)
    killer.cancel()
    assert os.WIFSIGNALED(status), f"the server ended by itself: {status}"
    by_name = {phone.name: phone for phone in phones}
    for line in whole:
        name, said = json.loads(line)
        by_name[name].heard(said)


def _be_the_server(folder: Path, phones: list[Phone], write_end: int) -> None:
    def say(name: str, said: dict[str, Any]) -> None:
        os.write(write_end, json.dumps([name, said]).encode() + b"\n")

    try:
        wired = opened(folder)
        for phone in phones:
            threading.Thread(target=serve, args=(wired, phone, say), daemon=True).start()
        time.sleep(60)
    finally:
        os._exit(3)
