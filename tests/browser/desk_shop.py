"""A shop for the lead's desk: an invented job with findings of every severity, photo pairs, and a map three deep."""

import io
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import httpx
from PIL import Image, ImageDraw
from tests.web import shop
from tests.web.serving import served
from tests.web.signing_in import Phones
from uuid6 import uuid7

LAYOUTS = Path(__file__).resolve().parents[2] / "label_templates"

JOB = "tern-31"
SMALL = "tern-32"
MACHINE = "Tern, inboard engine"
SOURCE = {"source": "Oderby M3 workshop book", "revision": "4", "page": "61"}
Told = tuple[str, dict[str, Any]]


class Teller:
    """Writes entries of one job as its phones would, two minutes apart."""

    def __init__(self, job: str, start: datetime) -> None:
        self.job, self.at, self.seq = job, start, {}
        self.entries: list[dict[str, Any]] = []

    def say(self, by: str, *told: Told) -> None:
        for kind, fields in told:
            device = f"phone {by}"
            self.seq[device] = self.seq.get(device, 0) + 1
            self.at += timedelta(minutes=2)
            envelope = {"id": str(uuid7()), "job": self.job, "device": device, "seq": self.seq[device]}
            at = self.at.isoformat(timespec="seconds")
            self.entries.append({**envelope, "at": at, "by": by, "kind": kind, **fields})


def view(words: str, marked: bool = False, missing: int | None = None) -> bytes:
    """Draw a flange with six places from the same standpoint each time; one may lack its bolt."""
    image = Image.new("RGB", (1600, 1200), "#b9b4a6" if marked else "#c9c3b4")
    draw = ImageDraw.Draw(image)
    draw.rounded_rectangle((220, 260, 1380, 980), 90, fill="#7d8488", outline="#2b2e30", width=8)
    draw.ellipse((600, 430, 1000, 810), fill="#3c4246", outline="#16181a", width=10)
    for place in range(6):
        x, y = 330 + (place % 3) * 470, 350 + (place // 3) * 540
        full = place != missing
        draw.ellipse(
            (x - 44, y - 44, x + 44, y + 44),
            fill="#d9d9d2" if full else "#101010",
            outline="#1b1b1b",
            width=6,
        )
        if full:
            draw.regular_polygon((x, y, 26), 6, fill="#9a9a93", outline="#333333")
    draw.text((60, 60), words, fill="#000000", font_size=56)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=86)
    return out.getvalue()


def taken(
    by: str,
    client: httpx.Client,
    teller: Teller,
    *,
    element: str,
    shape: str,
    words: str,
    missing: int | None = None,
) -> None:
    """Send a photo and say what it shows, where the place on it is."""
    send(client, teller)
    photo = view(words, shape == "after", missing)
    answer = client.post(
        f"/api/jobs/{teller.job}/photos",
        files={"photos": (f"{words}.jpg", photo, "image/jpeg")},
        data={"by": by},
    )
    answer.raise_for_status()
    name = answer.json()[0]["sha256"]
    teller.say(by, ("photo-linked", {"photo": name, "element": element, "shape": shape}))
    if missing is not None:
        place = {"x": (330 + (missing % 3) * 470) / 1600, "y": (350 + (missing // 3) * 540) / 1200}
        teller.say(by, ("photo-pinned", {"photo": name, "element": element, "hole": missing + 1, **place}))


def send(client: httpx.Client, teller: Teller) -> None:
    """Send what was told so far."""
    if teller.entries:
        shop.send(client, teller.entries).raise_for_status()
        teller.entries.clear()


def a_set(name: str, n: int, part: str, **more: Any) -> Told:
    return "set-described", {"set": name, "n": n, "type": "M8x1.25x30", "part": part, **more}


def out(name: str, n: int, tray: str) -> Told:
    return "fasteners-removed", {"set": name, "n": n, "to": tray}


def back(name: str, n: int, tray: str) -> Told:
    return "fasteners-fitted", {"set": name, "n": n, "source": tray}


def over(part: str, element: str, need: str = "final", strength: int = 3) -> Told:
    return "access-said", {"part": part, "element": element, "need": need, "strength": strength}


STANDING: Sequence[Told] = (
    ("job-opened", {"machine": MACHINE, "title": "Sender under the manifold, pump seal", "level": 3}),
    ("person-described", {"person": "Lee", "roles": ["lead"]}),
    ("person-described", {"person": "Ana", "roles": ["tech"]}),
    ("person-described", {"person": "Ben", "roles": ["tech"]}),
    ("isolation-described", {"isolation": "battery"}),
    ("part-described", {"part": "heat shield", "minutes": 12}),
    ("part-described", {"part": "air box", "minutes": 8}),
    ("part-described", {"part": "inlet manifold", "minutes": 40}),
    ("part-described", {"part": "pump cover", "minutes": 15}),
    a_set("shield screws", 4, "heat shield"),
    a_set("air box bolts", 4, "air box"),
    a_set("manifold bolts", 6, "inlet manifold", gasketed=True),
    a_set("sender bolts", 2, "sender"),
    a_set("pump cover bolts", 6, "pump cover", critical=True),
    ("connection-described", {"connection": "sender plug", "part": "sender"}),
    ("opening-described", {"opening": "inlet ports", "opening_class": "A"}),
    (
        "renewal-needed",
        {"renewal": "manifold gasket", "n": 1, "under": "inlet manifold", "set": "manifold bolts"},
    ),
    (
        "spec-entered",
        {"set": "manifold bolts", "min_nm": 20, "max_nm": 24, "as_written": "20-24 N·m", **SOURCE},
    ),
    (
        "spec-entered",
        {"set": "pump cover bolts", "min_nm": 9, "max_nm": 11, "as_written": "9-11 N·m", **SOURCE},
    ),
    ("wrench-described", {"wrench": "W2", "min_nm": 5, "max_nm": 60}),
    over("heat shield", "manifold bolts"),
    over("air box", "manifold bolts"),
    over("inlet manifold", "sender bolts"),
    over("inlet manifold", "sender plug"),
    over("heat shield", "pump cover bolts", strength=1),
)


@contextmanager
def opened(folder: Path) -> Iterator[tuple[str, httpx.Client]]:
    """Serve a shop that has the label layouts too, as `open_shop` does one without."""
    app = shop.app_in(folder, LAYOUTS)
    anew = httpx.Limits(max_keepalive_connections=0)
    with (
        served(app) as address,
        httpx.Client(base_url=address, timeout=60, auth=Phones(app), limits=anew) as client,
    ):
        yield address, client


def fill(client: httpx.Client) -> None:
    """Put the job of the review, a small one to release, and the plain jobs of the other tests into a shop."""
    shop.fill(client)
    tell_review(client)
    tell_small(client)


def tell_review(client: httpx.Client) -> None:
    """Tell a job that was put together with a good many things left undone."""
    job = Teller(JOB, datetime.now(UTC) - timedelta(days=2, hours=8))
    job.say("Ana", *STANDING, ("signed-on", {}), ("isolation-applied", {"isolation": "battery"}))
    job.say("Ana", ("isolation-proven", {"isolation": "battery", "how": "meter"}))
    taken(
        "Ana", client, job, element="manifold bolts", shape="before", words="manifold, before", missing=None
    )
    taken("Ana", client, job, element="pump cover bolts", shape="before", words="pump, before", missing=None)
    taken("Ana", client, job, element="air box bolts", shape="before", words="air box, before", missing=None)
    for tray in ("T0101O", "T0102M", "T0103K", "T0104I", "T0105G"):
        job.say("Ana", ("label-bound", {"label": tray, "container": tray, "container_kind": "tray"}))
    job.say(
        "Ana",
        out("air box bolts", 4, "T0101O"),
        ("part-removed", {"part": "air box", "place": "shelf 2"}),
        out("shield screws", 4, "T0102M"),
        ("part-removed", {"part": "heat shield", "place": "shelf 2"}),
        out("manifold bolts", 6, "T0103K"),
        ("part-removed", {"part": "inlet manifold", "place": "bench"}),
        ("opening-opened", {"opening": "inlet ports", "mouths": 3}),
        ("opening-covered", {"opening": "inlet ports", "n": 3}),
        ("item-brought-in", {"item": "blue rag", "n": 2, "opening": "inlet ports"}),
        ("connection-parted", {"connection": "sender plug"}),
        out("sender bolts", 2, "T0104I"),
        out("pump cover bolts", 6, "T0105G"),
        ("part-removed", {"part": "pump cover", "place": "bench"}),
    )
    job.say(
        "Ben",
        ("signed-on", {}),
        back("sender bolts", 1, "T0104I"),
        ("item-taken-out", {"item": "blue rag", "n": 1, "opening": "inlet ports"}),
        ("opening-uncovered", {"opening": "inlet ports", "n": 3}),
        ("part-fitted", {"part": "inlet manifold"}),
        back("manifold bolts", 6, "T0103K"),
        (
            "fasteners-tightened",
            {"set": "manifold bolts", "holes": [1, 2, 3, 4], "value_nm": 22, "wrench": "W2"},
        ),
        ("opening-closed", {"opening": "inlet ports"}),
        ("part-fitted", {"part": "pump cover"}),
        back("pump cover bolts", 6, "T0105G"),
        ("fasteners-tightened", {"set": "pump cover bolts", "value_nm": 10, "wrench": "W2"}),
        ("part-fitted", {"part": "air box"}),
        back("air box bolts", 4, "T0101O"),
        ("part-fitted", {"part": "heat shield"}),
        back("shield screws", 3, "T0102M"),
        ("container-placed", {"container": "T0102M", "place": "bench by the window"}),
    )
    taken("Ben", client, job, element="manifold bolts", shape="after", words="manifold, after", missing=4)
    taken("Ben", client, job, element="pump cover bolts", shape="after", words="pump, after", missing=None)
    send(client, job)


def tell_small(client: httpx.Client, name: str = SMALL) -> str:
    """Tell a job of level 2 with two stops that can be put off and one thing that needs the lead's word."""
    bag = f"bag of {name}"
    job = Teller(name, datetime.now(UTC) - timedelta(hours=5))
    job.say(
        "Ana",
        ("job-opened", {"machine": f"Bilge pump of {name}", "title": "New strainer", "level": 2}),
        ("person-described", {"person": "Lee", "roles": ["lead"]}),
        a_set("strainer screws", 4, "strainer lid", photo_wanted=True),
        out("strainer screws", 4, bag),
        ("part-removed", {"part": "strainer lid", "place": "bench"}),
        ("part-fitted", {"part": "strainer lid"}),
        back("strainer screws", 3, bag),
    )
    send(client, job)
    return name
