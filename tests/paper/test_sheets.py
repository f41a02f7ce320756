"""Papers as a printer gets them: rendered, their text and their symbol read back, the same bytes every time."""

from __future__ import annotations

import io
import os
import re
import subprocess
from pathlib import Path

import pytest
import zxingcpp
from PIL import Image
from tests.actions.releases import ADDRESS, JOB, released, room_in, sample_raws, sample_shop

from lastbolt.actions.paper_words import words_of
from lastbolt.actions.papers import OnPaper
from lastbolt.actions.print_handover import handover_paper
from lastbolt.actions.print_record import record_paper, record_sheet
from lastbolt.actions.record import record
from lastbolt.paper.letters import printable
from lastbolt.paper.page import Print, draw
from lastbolt.report.handover import handover_sheet
from lastbolt.report.sheet import Block, Entry, Sheet, Table, sheet_json
from lastbolt.said import in_words

POINTS = {"a4": (595, 842), "letter": (612, 792)}


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    wired = sample_shop(tmp_path_factory.mktemp("papers"))
    yield wired, released(wired)
    wired.close()


def text_of(pdf: bytes) -> str:
    done = subprocess.run(["pdftotext", "-layout", "-", "-"], input=pdf, capture_output=True, check=True)
    return done.stdout.decode()


def info_of(pdf: bytes) -> dict[str, str]:
    done = subprocess.run(["pdfinfo", "-"], input=pdf, capture_output=True, check=True)
    lines = (line.partition(":") for line in done.stdout.decode().splitlines())
    return {name: value.strip() for name, _, value in lines}


def symbols_of(pdf: bytes) -> list[str]:
    """Render the first page as a printer would, at 150 dots an inch, and read its symbols."""
    command = ["pdftoppm", "-r", "150", "-f", "1", "-l", "1", "-png"]
    done = subprocess.run(command, input=pdf, capture_output=True, check=True)
    return [found.text for found in zxingcpp.read_barcodes(Image.open(io.BytesIO(done.stdout)))]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_release_record_is_read_back_from_its_paper(shop, paper):
    wired, room = shop
    pdf = record_paper(room, JOB, paper)
    said = info_of(pdf)
    width, height = (round(float(part)) for part in said["Page size"].split(" pts")[0].split(" x "))
    assert (width, height) == POINTS[paper]
    pages = int(said["Pages"])
    text = text_of(pdf)
    assert f"Page {pages} of {pages}" in text and "Page 1 of" in text
    assert symbols_of(pdf) == [f"{ADDRESS}/jobs/{JOB}"]
    flat = " ".join(text.split())
    for block in record_sheet(room, JOB).blocks:
        assert f"{block.number}. {block.title}" in flat
    assert "Released with 0 open, 0 decisions, 0 checks not run" in flat
    assert wired.signer.public in flat and wired.journal.head(JOB) in flat
    assert not {"safe", "OK", "airworthy", "verified"} & set(flat.replace(".", " ").split())


def test_all_sixteen_sections_say_what_practice_asks(shop):
    sheet = record_sheet(shop[1], JOB)
    assert [block.number for block in sheet.blocks] == list(range(1, 17))
    by_number = {block.number: str(sheet_json(Sheet("", (), (block,)))) for block in sheet.blocks}
    expected = {
        1: ("Wagtail, Oderby M3 inboard", "Ilse", "lead"), 2: ("3, signed work", "all of the job"),
        3: ("I looked at", "Signed by Ilse", "Answered: no"), 4: ("0 that stop",), 5: ("Run (", "tray-not-empty"),
        6: ("inlet manifold bolts", "22-26 N·m", "page 41", "large wrench (due", "seen by a second person"),
        7: ("inlet ports", "white rag", "in = out", "kit 7"),
        8: ("battery", "0.0 V", "coolant", "invented 59-4", "split pin on linkage nuts"),
        9: ("belt deflection", "10 mm", "11 mm"), 10: ("pressure test", "passed", "minutes 15"),
        11: ("f808981d962a753a4d0ef9e6e9427ffb174467df620fbbc8d81216ba9f4e9112",), 12: ("undo: wrong tray",),
        13: ("Nobody was signed on: 2026-05-04 16:10", "Ana to Ben"), 14: ("coolant level", "told to owner"),
        15: ("Only what was logged is known here",), 16: ("Head of the chain", "Check set, SHA-256"),
    }  # fmt: skip
    for number, words in expected.items():
        for word in words:
            assert word in by_number[number], (number, word)


def test_the_customers_record_has_its_sections_and_no_names(shop):
    sheet = record_sheet(shop[1], JOB, customer=True)
    assert [block.number for block in sheet.blocks] == [1, 2, 3, 4, 8, 10, 11, 14, 15]
    text = text_of(record_paper(shop[1], JOB, "a4", customer=True))
    assert not {"Ana", "Ben", "Ilse"} & set(text.replace(",", " ").replace(".", " ").split())
    assert "Customer's version" in text and "lead 1" in text


def test_an_unsigned_record_says_so_in_its_heading(tmp_path):
    wired = sample_shop(tmp_path, photos=False)
    pdf = record_paper(room_in(wired), JOB, "a4")
    assert "NOT RELEASED" in text_of(pdf)
    wired.close()


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_handover_sheet_fits_a_page_and_leads_back_to_the_job(shop, paper):
    wired, room = shop
    pdf = handover_paper(room.shop, wired.bench, JOB, OnPaper(paper, ADDRESS))
    assert info_of(pdf)["Pages"] == "1"
    assert symbols_of(pdf) == [f"{ADDRESS}/jobs/{JOB}"]
    flat = " ".join(text_of(pdf).split())
    titles = (
        "Danger now", "Half done", "Open mouths", "Inside", "Loosened or apart", "Bags and trays",
        "To renew, on order", "Findings and decisions", "Said, not scanned", "Signatures",
    )  # fmt: skip
    places = [flat.index(f"{number}. {title}") for number, title in enumerate(titles, start=1)]
    assert places == sorted(places)
    assert wired.journal.head(JOB) in flat


def test_the_handover_sheet_is_german_where_german_was_asked_for(shop, tmp_path):
    """Every line by its form; what people wrote, names and codes stay as they are."""
    wired, room = shop
    english = handover_paper(room.shop, wired.bench, JOB, OnPaper("a4", ADDRESS))
    pdf = handover_paper(room.shop, wired.bench, JOB, OnPaper("a4", ADDRESS, "de"))
    keep(tmp_path, "handover-de", pdf)
    flat, plain = (" ".join(text_of(each).split()) for each in (pdf, english))
    titles = (
        "Jetzt gefährlich", "Halb fertig", "Offene Öffnungen", "Darin", "Gelöst oder getrennt",
        "Beutel und Schalen", "Zu erneuern, bestellt", "Befunde und Entscheidungen", "Gesagt, nicht gescannt",
        "Unterschriften",
    )  # fmt: skip
    places = [flat.index(f"{number}. {title}") for number, title in enumerate(titles, start=1)]
    assert places == sorted(places)
    assert info_of(pdf)["Title"] == f"Übergabeblatt, {JOB}" and info_of(pdf)["Pages"] == "1"
    assert "Seite 1 von 1" in flat and "Gedruckt " in flat
    assert symbols_of(pdf) == symbols_of(english)
    sheet = handover_sheet(wired.bench.state(JOB), wired.bench.view(JOB).verdict, wired.bench.entries(JOB))
    lines = [line.text for section in sheet.sections for line in section.lines]
    own = words_of("de")
    missing = [line for line in lines if " ".join(printable(in_words(line, own)).split()) not in flat]
    english_left = [line for line in lines if in_words(line, own) != line and line in flat]
    assert len(lines) > 6 and missing == [] and english_left == []
    assert all(printable(line) in plain for line in lines if len(line) < 60)


def keep(folder: Path, name: str, pdf: bytes) -> None:
    """Keep a picture of a paper to be looked at, where the environment names a folder for them."""
    shots = Path(os.environ.get("LASTBOLT_SHOTS") or folder)
    subprocess.run(["pdftoppm", "-r", "90", "-png", "-", shots / name], input=pdf, check=True)


def test_a_handover_in_the_thick_of_it_shrinks_to_one_page_before_it_takes_two(tmp_path):
    wired = sample_shop(tmp_path, photos=False)
    raws = sample_raws()
    middle = raws[: next(n for n, raw in enumerate(raws) if raw["kind"] == "handover-offered") + 1]
    record(wired.journal, wired.clock, [raw | {"job": "middle"} | new_id(n) for n, raw in enumerate(middle)])
    room = room_in(wired)
    pdf = handover_paper(room.shop, wired.bench, "middle", OnPaper("a4"))
    assert int(info_of(pdf)["Pages"]) <= 2
    assert symbols_of(pdf) == ["Lastbolt job: middle"]
    assert "[ ]" not in text_of(pdf)
    german = handover_paper(room.shop, wired.bench, "middle", OnPaper("a4", language="de"))
    keep(tmp_path, "handover-middle-de", german)
    sheet = handover_sheet(
        wired.bench.state("middle"), wired.bench.view("middle").verdict, wired.bench.entries("middle")
    )
    flat, own = "".join(text_of(german).split()), words_of("de")
    lines = [in_words(line.text, own) for section in sheet.sections for line in section.lines]
    missing = [line for line in lines if "".join(printable(line).split()) not in flat]
    assert len(lines) > 20 and missing == []
    assert "Auffüllen" in text_of(german) and "Fill it" not in text_of(german)
    wired.close()


def new_id(number):
    return {"id": f"019df000-0000-7000-8000-{number:012d}", "seq": number + 1, "device": "another phone"}


SHEET = Sheet(
    "Heading <b>& more</b>",
    ("under",),
    (
        Block(1, "Lines", (Entry("plain"), Entry("to tick", False), Entry("ticked", True))),
        Block(2, "Table", tables=(Table(("a", "b"), (("1 < 2", "x" * 400),), (1, 1)),)),
        Block(3, "Empty", nothing="Nothing here."),
    ),
    ("foot",),
)


def printed(sheet=SHEET, at="2026-05-08 15:00 +0200"):
    return draw(sheet, Print("a4", "link", at, {}, "A title"))


def test_the_same_input_gives_the_same_bytes_and_only_the_time_of_printing_differs():
    assert printed() == printed()
    later = printed(at="2026-05-09 15:00 +0200")
    assert later != printed()
    assert text_of(later).replace("2026-05-09", "2026-05-08") == text_of(printed())


def test_no_text_is_taken_for_markup():
    text = text_of(printed())
    assert "Heading <b>& more</b>" in text and "1<2" in text.replace(" ", "") and "Nothing here." in text


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Dvořák", "Dvorák"),
        ("Łódź", "Lódz"),
        ("10 → 12", "10 -> 12"),
        ("水", "?"),
        ("a\x00b", "ab"),
        ("±5 µm · 20 °", "±5 µm · 20 °"),
    ],
)
def test_letters_that_the_paper_does_not_know_are_written_plainly(text, shown):
    assert printable(text) == shown
    assert shown.split()[0] in text_of(printed(Sheet(text, (), ())))


def test_thousands_of_lines_go_on_over_pages():
    lines = tuple(Entry(f"line {number}") for number in range(1500))
    pdf = printed(Sheet("Long", (), (Block(1, "Many", lines),)))
    assert "line 1499" in text_of(pdf) and int(info_of(pdf)["Pages"]) > 10


def test_letters_on_one_page_are_as_large_as_fit_and_no_smaller_than_can_be_read():
    def height(lines: int, wanted: int | None = 1) -> float:
        sheet = Sheet("One page", (), (Block(1, "Lines", tuple(Entry(f"line {n}") for n in range(lines))),))
        pdf = draw(sheet, Print("a4", "link", "now", {}, "A title", wanted_pages=wanted))
        done = subprocess.run(["pdftotext", "-bbox", "-", "-"], input=pdf, capture_output=True, check=True)
        top, bottom = re.search(r'yMin="([\d.]+)"[^>]*yMax="([\d.]+)">line<', done.stdout.decode()).groups()
        return float(bottom) - float(top)

    few, plain, many, too_many = height(5), height(5, None), height(75), height(500)
    assert few == pytest.approx(1.4 * plain, rel=0.01) and too_many == pytest.approx(0.7 * plain, rel=0.01)
    assert few > many >= too_many
