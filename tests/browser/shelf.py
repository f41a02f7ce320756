"""A shelf of bags for the tray walk: labels as the shop prints them, in a film that passes along them."""

import subprocess
from io import BytesIO
from pathlib import Path

from PIL import Image
from tests.browser.in_hand import Shop
from tests.web import shop
from tests.web.shop import entry

from lastbolt.label_code import LabelCode, read

DPI = 150
MM = DPI / 25.4
COLUMNS, ROWS, LEFT_MM, TOP_MM, PITCH_X_MM, PITCH_Y_MM = 3, 8, 5.0, 2.2, 66.6, 34.8
VIEW = (1280, 960)
FRAMES_A_SECOND = 30
BAGS = 40
IN_VIEW = 5
TILT_DEG = (-5, 3, 4, -3, 2)


def printed_labels(here: Shop, folder: Path) -> list[Image.Image]:
    """Print labels through the shop's own route, and cut the sheets apart."""
    pdf = folder / "labels.pdf"
    pdf.write_bytes(here.client.post("/api/labels/sheets", json={"count": BAGS}).content)
    subprocess.run(["pdftoppm", "-r", str(DPI), "-png", str(pdf), str(folder / "sheet")], check=True)
    cut = []
    for sheet in sorted(folder.glob("sheet-*.png")):
        page = Image.open(sheet).convert("RGB")
        for row in range(ROWS):
            for column in range(COLUMNS):
                left, top = LEFT_MM + column * PITCH_X_MM, TOP_MM + row * PITCH_Y_MM
                box = (left * MM, top * MM, (left + PITCH_X_MM) * MM, (top + PITCH_Y_MM) * MM)
                cut.append(page.crop(tuple(round(edge) for edge in box)))
    return cut[:BAGS]


def codes_of(here: Shop, folder: Path) -> list[str]:
    """Read the codes off the printed PDF's own text, with poppler."""
    text = subprocess.run(
        ["pdftotext", str(folder / "labels.pdf"), "-"], capture_output=True, text=True, check=True
    ).stdout
    found = [read(word) for word in text.split()]
    return sorted({LabelCode(each.code) for each in found if each is not None and each.checked})


def fill(here: Shop, codes: list[str], job: str) -> None:
    """Put a job into the shop in which every labelled bag holds two bolts of a set of its own."""
    entries = [
        entry("job-opened", 1, job=job, machine="Ferry tender, inboard", title="Top end", level=2),
        entry("signed-on", 2, job=job),
        entry("isolation-applied", 3, job=job, isolation="battery"),
        entry("isolation-applied", 4, job=job, isolation="sea-cock"),
    ]
    for number, code in enumerate(codes):
        at = 5 + number * 2
        bound = {"label": code, "container": code, "container_kind": "bag"}
        entries.append(entry("label-bound", at, job=job, **bound))
        entries.append(entry("fasteners-removed", at + 1, job=job, set=f"cover {number + 1}", n=2, to=code))
    shop.send(here.client, entries).raise_for_status()


def walk_film(labels: list[Image.Image], to: Path, seconds_a_view: float) -> Path:
    """Film a hand that holds each stretch of the shelf in view for so long; several labels in each view."""
    with to.open("wb") as film:
        for start in range(0, len(labels), IN_VIEW):
            frame = _view(labels[start : start + IN_VIEW])
            film.write(frame * round(seconds_a_view * FRAMES_A_SECOND))
    return to


def _view(labels: list[Image.Image]) -> bytes:
    view = Image.new("RGB", VIEW, "#8f8a7d")
    places = [(20, 20), (660, 40), (40, 330), (650, 350), (330, 640)]
    for label, place, tilt in zip(labels, places, TILT_DEG, strict=False):
        bag = label.resize((560, 292)).rotate(tilt, expand=True, fillcolor="#8f8a7d")
        view.paste(bag, place)
    out = BytesIO()
    view.save(out, "JPEG", quality=85)
    return out.getvalue()
