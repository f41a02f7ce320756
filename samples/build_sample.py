"""Writes the sample job's two journals; the same bytes every time (`python samples/build_sample.py`)."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from story.friday import friday
from story.reassembly import thursday
from story.standing import describe
from story.teardown import monday, tuesday
from story.writer import Manifest, Writer

HERE = Path(__file__).resolve().parent
FAULTS = (
    "one water neck bolt left in its tray",
    "hose strap bolts still parked",
    "alternator bracket never pulled to its value",
    "coolant filler never shut",
    "one of two rags never out",
    "temperature sender plug never pushed on",
    "adjuster never nipped up",
)


def tell(variant: int, photos: Manifest) -> Writer:
    """Tell the week once: variant 1 ends clean, variant 2 with the seven faults."""
    if variant == 1:
        story = Writer("wagtail-clean", "Wagtail, Oderby M3 inboard", variant=1, photos=photos)
    else:
        name = "dunlin-half-finished"
        story = Writer(name, "Dunlin, Oderby M3 inboard", variant=2, faults=FAULTS, photos=photos)
    for part in (describe, monday, tuesday, thursday, friday):
        part(story)
    return story


def manifest() -> Manifest:
    """Read which photos there are; none before the first was taken."""
    path = HERE / "photos" / "manifest.json"
    found: Manifest = json.loads(path.read_text(encoding="utf-8")) if path.exists() else {}
    return found


def main() -> None:
    """Write both journals into a folder."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--into", type=Path, default=HERE, help="the folder to write to (default: samples/)")
    into = parser.parse_args().into
    into.mkdir(parents=True, exist_ok=True)
    for variant, file in ((1, "clean.jsonl"), (2, "half_finished.jsonl")):
        (into / file).write_text(tell(variant, manifest()).lines(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
