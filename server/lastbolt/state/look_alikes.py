"""Fasteners that a hand takes for one another when they lie in one bag."""

from __future__ import annotations

from ..journal.fastener_type import FastenerType
from .elements import Container
from .fastener_set import Act
from .job import Job

SAME_THREAD_MM = 0.3
LENGTH_STEP_MM = 10.0
LENGTH_SHARE = 0.25


def is_look_alike(a: FastenerType, b: FastenerType) -> bool:
    """Tell whether two types of one kind are easily mixed up (practice C10).

    >>> is_look_alike(FastenerType(diameter_mm=10, length_mm=30), FastenerType(diameter_mm=10, length_mm=40))
    True
    >>> is_look_alike(FastenerType(diameter_mm=8, length_mm=30), FastenerType(diameter_mm=8, length_mm=90))
    False
    """
    if a.kind != b.kind or a.kind == "washer" or a.diameter_mm is None or b.diameter_mm is None:
        return False
    if abs(a.diameter_mm - b.diameter_mm) > SAME_THREAD_MM:
        return False
    if a.pitch_mm is not None and b.pitch_mm is not None and a.pitch_mm != b.pitch_mm:
        return True
    if a.length_mm is not None and b.length_mm is not None:
        limit = max(LENGTH_STEP_MM, LENGTH_SHARE * max(a.length_mm, b.length_mm))
        if 0 < abs(a.length_mm - b.length_mm) <= limit:
            return True
    return bool(a.strength_class and b.strength_class and a.strength_class != b.strength_class)


def note_look_alikes(job: Job, container: Container, act: Act) -> None:
    """Remember the first pair of look-alikes that lay together in a container."""
    if len(job.ledger.lots(container.name)) < 2:
        return
    texts = sorted({lot.type for lot in job.ledger.lots(container.name) if lot.type})
    for i, first in enumerate(texts):
        for second in texts[i + 1 :]:
            a, b = job.ledger.types.get(first), job.ledger.types.get(second)
            if a is not None and b is not None and is_look_alike(a, b):
                container.look_alikes = container.look_alikes or (act, first, second)
