"""Draws the places that the sample job photographs before and after, and lists them in photos/manifest.json.

python samples/draw_views.py [--into FOLDER]   (then python samples/build_sample.py)
"""

from __future__ import annotations

import argparse
import hashlib
import io
import json
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

from build_sample import HERE, tell
from PIL import Image
from views.places import PLACES, Place
from views.relief import HEIGHT, WIDTH, Camera, Relief

STATES = ("before", "after", "fault")
FIRST = 31
QUALITY = 62
TAKEN, OFFSET, INNER = 0x9003, 0x9011, 0x8769


def shots() -> Iterator[tuple[str, str, int, Place, str]]:
    """Give file name, name of the shot, number for the hand's sway, place and state of each picture."""
    number = FIRST
    for state in STATES:
        for place in PLACES:
            if state != "fault" or place.fault:
                shot = f"{'before' if state == 'before' else 'after'}-{place.name}"
                shot += "-fault" if state == "fault" else ""
                yield f"{number}-{shot}.jpg", shot, number, place, state
                number += 1


def picture(place: Place, state: str, camera: Camera, taken_at: str) -> bytes:
    """Draw one place as a JPEG that bears its time and no make."""
    relief = Relief(PLACES.index(place))
    place.draw(relief, state)
    image = Image.fromarray(camera.take(relief.lit()))
    about = Image.Exif()
    at = datetime.fromisoformat(taken_at)
    inner = about.get_ifd(INNER)
    inner[TAKEN], inner[OFFSET] = at.strftime("%Y:%m:%d %H:%M:%S"), taken_at[-6:]
    held = io.BytesIO()
    image.save(held, "JPEG", quality=QUALITY, exif=about)
    return held.getvalue()


def row(photo: bytes, shot: str, place: Place, camera: Camera, taken_at: str) -> dict[str, Any]:
    """Say in the manifest what a picture shows and where in it the holes are."""
    places = enumerate(place.points, start=1)
    return {
        "sha256": hashlib.sha256(photo).hexdigest(),
        "shot": shot,
        "width": WIDTH,
        "height": HEIGHT,
        "taken_at": taken_at,
        "labels": [],
        "containers": [],
        "element": place.element,
        "pins": [[number if place.by_hole else None, *camera.where(point)] for number, point in places],
    }


def main() -> None:
    """Draw all of them; rows of pictures that are not drawn here stay."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--into", type=Path, default=HERE / "photos", help="default: samples/photos")
    parser.add_argument("--only", help="the name of one picture; the manifest keeps its other rows")
    wish = parser.parse_args()
    into: Path = wish.into
    listed = into / "manifest.json"
    rows = json.loads(listed.read_text(encoding="utf-8")) if listed.exists() else {}
    taken = {**tell(2, {}).taken, **tell(1, {}).taken}
    for name, shot, number, place, state in shots():
        if wish.only not in (None, name):
            continue
        camera = Camera(number)
        photo = picture(place, state, camera, taken[shot])
        (into / name).write_bytes(photo)
        rows[name] = row(photo, shot, place, camera, taken[shot])
    listed.write_text(json.dumps(rows, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
