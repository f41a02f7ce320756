"""The queue of photos that wait to be read: how many, whose turn it is, and about how long it takes."""

from __future__ import annotations

from fastapi import APIRouter
from pydantic import Field

from ..actions.ports import ReadingQueue
from ..said import said
from .desk import AtDesk
from .forms import forms_of
from .wire import Form, Wire

router = APIRouter(prefix="/api", tags=["photos"])


class Waiting(Wire):
    """One device's photos in the queue; `next_place` 1 is read next, `about_s` are seconds until its last."""

    device: str
    waiting: int
    next_place: int
    about_s: int


class Readings(Wire):
    """What is read now and what waits; one photo of each device in turn."""

    reading: int = Field(description="photos that are being read")
    waiting: int = Field(description="photos that wait")
    devices: list[Waiting]
    sentence: str
    forms: list[Form] = Field(description="how the sentence is made, for a page in another language")


@router.get("/readings", operation_id="getReadings")
def get_readings(desk: AtDesk) -> Readings:
    """Say how many photos wait to be read, and whose turn it is."""
    return readings_from(desk.wired.shop.reader.queue())


def readings_from(queue: ReadingQueue) -> Readings:
    """Give the queue as it goes over the wire."""
    order = list(queue.waiting)
    devices = [
        Waiting(
            device=device,
            waiting=order.count(device),
            next_place=order.index(device) + 1,
            about_s=_seconds(queue, len(order) - order[::-1].index(device)),
        )
        for device in dict.fromkeys(order)
    ]
    sentence = _sentence(queue)
    return Readings(
        reading=len(queue.reading),
        waiting=len(order),
        devices=devices,
        sentence=sentence,
        forms=forms_of(sentence),
    )


def _seconds(queue: ReadingQueue, place: int) -> int:
    """Estimate when the photo at a place in the queue will have been read."""
    return round(queue.seconds * (place / queue.readers + 1))


def _sentence(queue: ReadingQueue) -> str:
    waiting = len(queue.waiting)
    if not queue.reading:
        return said("No photo waits to be read.")
    if not waiting:
        return said("A photo is being read; none waits.")
    one, more = (
        "1 photo waits to be read, about {seconds} s.",
        "{n} photos wait to be read, about {seconds} s.",
    )
    return said(one if waiting == 1 else more, n=waiting, seconds=_seconds(queue, waiting))
