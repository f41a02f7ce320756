"""Photos that come from phones: a small picture first, the original later and in parts."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Literal

from ..errors import BadInputError, NotFoundError
from ..said import said
from .photograph import Hint, Taken, take
from .ports import Shop
from .require import require_job

UNFINISHED_FOR = timedelta(days=7)
"""How long the parts of a photo that stopped coming are kept; the phone has them all and may begin again."""
LARGEST_STAND_IN = 512 * 1024
"""Bytes; a phone makes it of at most 300 kB."""
JPEG = b"\xff\xd8\xff"


@dataclass(frozen=True, slots=True)
class Progress:
    """How much of an original is here: all of it, or that many whole parts from the first one on."""

    here: bool
    parts: int
    part_bytes: int


def progress(shop: Shop, sha256: str) -> Progress:
    """Tell a phone where to go on."""
    here = shop.photos.has(sha256) and shop.photos.state(sha256) == "here"
    return Progress(here, 0 if here else shop.arriving.parts(sha256), shop.arriving.part_bytes)


def take_part(shop: Shop, sha256: str, number: int, part: bytes) -> Progress:
    """Put one part in its place; one that comes before its turn is not kept, the answer says where to go on.

    Raises:
        BadInputError: the part has a wrong size, or the photo would be larger than the limit.
        StoreError: the disk refused; the parts before it stay.
    """
    if number == 0:
        shop.arriving.sweep((shop.clock() - UNFINISHED_FOR).timestamp())
    return Progress(False, shop.arriving.put(sha256, number, part), shop.arriving.part_bytes)


def take_stand_in(shop: Shop, sha256: str, jpeg: bytes, *, own_sha256: str) -> None:
    """Keep a small picture that stands for an original on its way; `own_sha256` is its own hash.

    Raises:
        NotFoundError: no entry names the original.
        BadInputError: it is no JPEG, too large, or not what was sent.
    """
    if not shop.look_up.photos(sha256):
        raise NotFoundError(said("no entry names the photo {photo}; send its entry first", photo=sha256[:12]))
    if not jpeg.startswith(JPEG) or len(jpeg) > LARGEST_STAND_IN:
        raise BadInputError(
            said(
                "a small picture is a JPEG of at most {most} KiB; send the original",
                most=LARGEST_STAND_IN // 1024,
            )
        )
    if hashlib.sha256(jpeg).hexdigest() != own_sha256:
        raise BadInputError("the small picture came in changed; send it again")
    if not shop.photos.has(sha256):
        shop.photos.put_stand_in(sha256, jpeg)


def finish(shop: Shop, sha256: str, *, job: str, by: str, device: str) -> Taken | Literal["again"]:
    """Take a photo whose parts are all here into a job; "again": its bytes are not those, it begins anew.

    Raises:
        NotFoundError: no entry names the job, or no part is here.
        StoreError: the disk refused; the parts stay.
    """
    require_job(shop.look_up, job)
    with shop.reader.turn(device=device) as reader:
        return _finish(replace(shop, reader=reader), sha256, job=job, by=by, hint=Hint(turn=device))


def _finish(shop: Shop, sha256: str, *, job: str, by: str, hint: Hint) -> Taken | Literal["again"]:
    """Bring the bytes now that they are read at once: photos that wait lie on the disk, not in memory."""
    here = progress(shop, sha256).here
    photo = shop.photos.original(sha256) if here else shop.arriving.whole(sha256)
    if not here and hashlib.sha256(photo).hexdigest() != sha256:
        shop.arriving.drop(sha256)
        return "again"
    taken = take(shop, photo, job=job, by=by, hint=hint)
    shop.arriving.drop(sha256)
    return taken
