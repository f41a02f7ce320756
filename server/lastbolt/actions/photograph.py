"""Take one photo into a job: keep its bytes, read it, record it; each photo gets its own plain answer."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Literal

from ..errors import BadInputError
from ..journal import Line, Raw
from ..said import said
from ..vision.outcome import Look, PhotoFacts, Reading, SeenPart, Unusable
from .cleared import OfTray, doubt_words, since_empty
from .ports import Shop
from .record import DESK, envelope, received_text
from .require import require_job
from .shown_labels import ShownLabel, sentence_about, shown_labels
from .voice import is_voice, too_long

READER = "photo reader"
"""Who is named when no person brought a photo in."""
STILL_TRUE = timedelta(minutes=10)
"""A picture's count is held against the record only while the tray is as it was when the photo was taken."""
MOST_COUNTED = 500
KEPT_CORNERS = 10


@dataclass(frozen=True, slots=True)
class Hint:
    """What is known of a photo beside its bytes; `live` says that it was taken just now.

    `device` records what is recorded of it; `turn` names whose turn at the reader it takes.
    """

    container: str | None = None
    step: str | None = None
    device: str = DESK
    live: bool = False
    turn: str | None = None


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of one photo: a sentence for the person, its hash, the labels in it, what was recorded."""

    outcome: Literal["kept", "here already", "refused"]
    sentence: str
    sha256: str | None = None
    container: str | None = None
    shown: tuple[ShownLabel, ...] = ()
    lines: tuple[Line, ...] = ()

    @property
    def labels(self) -> tuple[str, ...]:
        """Give the code of each label, or the text of what is none."""
        return tuple(label.code or label.text for label in self.shown)


def take(shop: Shop, photo: bytes, *, job: str, by: str | None = None, hint: Hint | None = None) -> Taken:
    """Take one photo into a job; what cannot be read as a photo is refused with its reason and not kept.

    Raises:
        NotFoundError: no entry names that job.
        StoreError: the disk refused; the photo is not recorded.
    """
    hint = hint or Hint()
    require_job(shop.look_up, job)
    if heavy := _too_heavy(shop, photo):
        return Taken("refused", heavy)
    if is_voice(photo):
        return _take_voice(shop, photo)
    sha256 = hashlib.sha256(photo).hexdigest()
    recorded = any(known.job == job for known in shop.look_up.photos(sha256))
    if recorded and shop.photos.state(sha256) == "here":
        return _here_already(sha256)
    turn = hint.turn or hint.device
    reading = shop.reader.read(photo, device=turn)
    if isinstance(reading, Unusable):
        return Taken("refused", reading.reason)
    keep_original(shop, photo, reading)
    if recorded:
        seen = since_empty(shop, photo, reading.seen, OfTray(job, _put_at(shop, job, sha256), turn))
        said = "Kept; the record named this photo already, now it is here too." + doubt_words(seen)
        return Taken("kept", said, sha256, lines=count_late(shop, job, sha256, seen))
    labels = shown_labels(shop.look_up, job, [mark.text for mark in reading.seen.labels])
    hint = _placed(hint, labels)
    seen = since_empty(shop, photo, reading.seen, OfTray(job, hint.container, turn))
    entries = _entries(shop, job, seen, by=by, about=(sha256, labels, hint))
    received = received_text(shop.clock())
    lines = shop.journal.append_own(job, entries, received=received, new_photo=sha256)
    if not lines:
        return _here_already(sha256)
    said = sentence_about(labels, hint.container) + doubt_words(seen)
    return Taken("kept", said, sha256, hint.container, tuple(labels), tuple(lines))


def take_in_turn(
    shop: Shop, bring: Callable[[], bytes], *, job: str, by: str | None = None, hint: Hint
) -> Taken:
    """Take a photo into a job that is brought only when it is its turn: a hundred that wait fill no memory.

    Raises:
        NotFoundError: no entry names that job.
        StoreError: too many photos wait, or the disk refused; the photo is not recorded.
    """
    require_job(shop.look_up, job)
    with shop.reader.turn(device=hint.turn or hint.device) as reader:
        return take(replace(shop, reader=reader), bring(), job=job, by=by, hint=hint)


def _take_voice(shop: Shop, sound: bytes) -> Taken:
    """Keep a voice note; the handover that it belongs to names it."""
    if long := too_long(sound):
        return Taken("refused", long)
    return Taken("kept", "Kept: a voice note.", shop.photos.put(sound))


def look_over(shop: Shop, photo: bytes, *, device: str = DESK) -> Look:
    """Say what a photo shows without keeping it, at once: a person waits.

    Raises:
        BadInputError: it is too large or cannot be read, with the way out.
    """
    if heavy := _too_heavy(shop, photo):
        raise BadInputError(heavy)
    reading = shop.reader.glance(photo, device=device)
    if isinstance(reading, Unusable):
        raise BadInputError(reading.reason)
    return reading.seen


def _too_heavy(shop: Shop, photo: bytes) -> str | None:
    limit = shop.limits.largest_photo
    if len(photo) <= limit:
        return None
    return said("The file has more than {limit} MiB; send the camera's own photo.", limit=limit // 2**20)


def _here_already(sha256: str) -> Taken:
    return Taken("here already", "This photo is in the job already; nothing was added.", sha256)


def keep_original(shop: Shop, original: bytes, reading: Reading) -> str:
    """Keep an original and, where it has none, its preview; give its SHA-256."""
    sha256 = shop.photos.put(original)
    shop.photos.put_preview(sha256, reading.preview)
    return sha256


def count_late(shop: Shop, job: str, sha256: str, seen: Look, at: datetime | None = None) -> tuple[Line, ...]:
    """Record what the reader counts in a photo that an entry put at a container, unless it was counted.

    The fold holds it against what was logged with the photo, not against what lies there by now. `at` is now
    unless given.
    """
    container = _put_at(shop, job, sha256)
    counted = container and count_fields(seen, container)
    raws = (line.entry for line in shop.journal.lines(job))
    if not counted or any(raw["kind"] == "photo-counted" and raw.get("photo") == sha256 for raw in raws):
        return ()
    now = shop.clock()
    own = envelope(shop, job, by=READER, at=at or now, device=READER)
    machine = {"role": "machine", "mode": "machine", "kind": "photo-counted", "photo": sha256}
    return tuple(shop.journal.append_own(job, [{**own, **machine, **counted}], received=received_text(now)))


def _put_at(shop: Shop, job: str, sha256: str) -> str | None:
    """Give the container that an entry put a photo at."""
    return next((each.container for each in shop.look_up.photos(sha256) if each.job == job), None)


def _placed(hint: Hint, labels: list[ShownLabel]) -> Hint:
    """Take the place from the label, where a person named none and the labels leave no doubt."""
    bound = [label for label in labels if label.container is not None]
    if hint.container or len(bound) != 1:
        return hint
    return replace(hint, container=bound[0].container, step=hint.step or bound[0].step)


def _entries(
    shop: Shop, job: str, seen: Look, *, by: str | None, about: tuple[str, list[ShownLabel], Hint]
) -> list[Raw]:
    sha256, labels, hint = about
    now = shop.clock()
    machine = {"role": "machine", "mode": "machine"}
    added: Raw = {
        **envelope(shop, job, by=by or READER, at=now, device=hint.device),
        **({} if by else machine),
        "kind": "photo-added",
        "photo": sha256,
        "sha256": sha256,
        "width": seen.facts.width,
        "height": seen.facts.height,
        "labels": [name for label in labels if (name := (label.code or label.text).strip()[:120])],
        **taken_fields(seen.facts),
    }
    if hint.container:
        added |= {"container": hint.container, "shape": "tray"}
    if hint.step:
        added["step"] = hint.step
    counted = _count_fields(seen, hint, now)
    if counted is None:
        return [added]
    own = envelope(shop, job, by=READER, at=now, device=hint.device)
    return [added, {**own, **machine, "kind": "photo-counted", "photo": sha256, **counted}]


def taken_fields(facts: PhotoFacts) -> Raw:
    """Give when the camera says that it took a photo: exactly, or by its own clock where no zone is known."""
    if facts.taken_text is None:
        return {}
    try:
        local = datetime.strptime(facts.taken_text, "%Y:%m:%d %H:%M:%S").isoformat()
        if facts.offset_text is None:
            return {"taken_at_local": local}
        return {"taken_at": datetime.fromisoformat(f"{local}{facts.offset_text}").isoformat()}
    except ValueError:
        return {}


def _count_fields(seen: Look, hint: Hint, now: datetime) -> Raw | None:
    """Give the picture's count where it is sure, of one known container, and still true."""
    taken = taken_fields(seen.facts).get("taken_at")
    fresh = hint.live or (taken is not None and abs(now - datetime.fromisoformat(taken)) <= STILL_TRUE)
    return count_fields(seen, hint.container) if hint.container and fresh else None


def is_sure(seen: Look) -> bool:
    """Tell whether a count may stand: a narrow interval, and no doubt but about a label."""
    doubts = [doubt for doubt in seen.unsure if not doubt.startswith("a label ")]
    return not doubts and seen.count.high - seen.count.low <= max(1, seen.count.count // 10)


def count_fields(seen: Look, container: str) -> Raw | None:
    """Give the count of one labelled container where the reader is sure of it."""
    count = seen.count
    if not (is_sure(seen) and len(seen.labels) == 1 and count.high <= MOST_COUNTED):
        return None
    confidences = [part.confidence for part in seen.parts]
    confidence = sum(confidences) / len(confidences) if confidences else 1 - max(seen.traces, default=0.0)
    width, height = seen.size
    middles = [part.outline.mean(0) for part in seen.parts]
    return {
        "container": container,
        "n": count.count,
        "low": count.low,
        "high": count.high,
        "confidence": round(min(max(confidence, 0.0), 1.0), 3),
        "method_version": seen.method,
        "seen": [{"x": _share(x, width), "y": _share(y, height)} for x, y in middles],
        "outlines": [outline_shares(part, seen.size, KEPT_CORNERS) for part in seen.parts],
    }


def outline_shares(part: SeenPart, size: tuple[int, int], most: int) -> list[tuple[float, float]]:
    """Give at most so many corners of a part's outline, as shares of the photo's width and height."""
    step = -(-len(part.outline) // most)
    return [(_share(x, size[0]), _share(y, size[1])) for x, y in part.outline[::step]]


def _share(place: float, whole: int) -> float:
    return round(min(max(float(place) / whole, 0.0), 1.0), 4)
