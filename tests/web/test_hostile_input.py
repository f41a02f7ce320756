"""Labels, file names and EXIF of strangers are data: kept or refused, never run, never written unescaped.

OWASP's file upload advice (names never from the client, type by content, limits before decoding) is tried here
and in test_photos.py, test_arriving.py and tests/vision/test_pixels.py.
"""

import io
from urllib.parse import quote

import pytest
import qrcode
from PIL import ExifTags, Image
from tests.web.shop import JOB, entry, half_finished, picture, send

from lastbolt.journal import first_break

HOSTILE = {
    "a script": "<script>document.title='run'</script>",
    "a picture that fails": '"><img src=x onerror="document.title=\'run\'">',
    "an address of others": "https://example.invalid/open?next=//example.invalid",
    "a script's address": "javascript:alert(1)//T-0042-E",
    "SQL": "T0042E'; DROP TABLE entries; --",
    "a path": "../../../../etc/passwd",
    "control characters": "T-0042-E\x00\x1b[2J\r\nset-cookie: a=b",
    "right to left": "T-0042-E\u202e\u2066gpj.exe",
    "a formula": '=HYPERLINK("//example.invalid")',
}
"""`example.invalid` belongs to nobody (RFC 2606)."""


@pytest.fixture
def job(client):
    send(client, half_finished())
    return client


def assert_data(answer):
    """Hold an answer to being data: JSON by its type, not to be guessed at, with the page's strict policy."""
    assert answer.headers["content-type"].startswith(("application/json", "application/problem+json"))
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert "unsafe-inline" not in answer.headers["content-security-policy"]
    assert "set-cookie" not in answer.headers and answer.status_code < 500
    answer.json()


@pytest.mark.parametrize("what", HOSTILE)
def test_a_hostile_label_in_a_photo_is_named_and_nothing_else(job, what):
    symbol = qrcode.make(HOSTILE[what], box_size=5, border=4).get_image().convert("RGB")
    photo = Image.open(io.BytesIO(picture(what, (1000, 800))))
    photo.paste(symbol, (20, 20))
    out = io.BytesIO()
    photo.save(out, "JPEG", quality=92)
    answer = job.post(f"/api/jobs/{JOB}/photos", files={"photos": ("a.jpg", out.getvalue(), "image/jpeg")})
    assert_data(answer)
    (outcome,) = answer.json()
    assert outcome["kept"] and outcome["container"] is None
    for address in (f"/api/jobs/{JOB}/photos", f"/api/jobs/{JOB}/entries", "/api/jobs"):
        assert_data(job.get(address))


def test_a_code_of_the_shop_under_an_address_of_others_is_that_code_and_no_way_there(job):
    """Labels outlive the server's address, so the host counts for nothing: neither for the code nor as a way out."""
    photo = picture("theirs", (1000, 800), "https://example.invalid/L/T-0042-E")
    (outcome,) = job.post(f"/api/jobs/{JOB}/photos", files={"photos": ("a.jpg", photo, "image/jpeg")}).json()
    assert (outcome["container"], outcome["labels"]) == ("T0042E", ["T0042E"])
    for address in (f"/api/jobs/{JOB}/photos", f"/api/jobs/{JOB}/entries", f"/api/jobs/{JOB}/containers"):
        assert "example.invalid" not in job.get(address).text


@pytest.mark.parametrize("what", HOSTILE)
def test_a_hostile_text_typed_as_a_label_is_answered_as_data(job, what):
    assert_data(job.get(f"/api/labels/{quote(HOSTILE[what], safe='')}"))


def test_a_label_of_4_kb_is_answered_in_words(job):
    text = "T-0042-E" * 512
    answer = job.get(f"/api/labels/{text}")
    assert_data(answer)
    assert len(answer.content) < 6000
    bound = send(job, [entry("label-bound", 90, label=text, container="T9", container_kind="tray")])
    assert_data(bound)
    assert bound.status_code == 422 and len(bound.content) < 2000


@pytest.mark.parametrize("what", HOSTILE)
def test_a_hostile_name_in_an_entry_comes_back_as_it_was_written_or_is_refused(job, what):
    text = HOSTILE[what]
    sent = send(job, [entry("container-scanned", 91, container=text)])
    assert_data(sent)
    if sent.status_code == 200:
        (line,) = sent.json()["lines"]
        assert line["entry"]["container"] == text
    else:
        assert sent.status_code == 422
    for address in (f"/api/jobs/{JOB}/findings", f"/api/jobs/{JOB}/containers", "/api/board"):
        assert_data(job.get(address))


@pytest.mark.parametrize("name", [*HOSTILE.values(), "C:\\boot.ini", "x" * 4000, ".", "a/../../b.jpg"])
def test_a_hostile_file_name_names_no_file(job, tmp_path, name):
    name = name.replace("\x00", "").replace("\r\n", "")
    answer = job.post(f"/api/jobs/{JOB}/photos", files={"photos": (name, picture(name[:40]), "image/jpeg")})
    assert_data(answer)
    (outcome,) = answer.json()
    assert outcome["kept"]
    given = job.get(f"/api/photos/{outcome['sha256']}").headers["content-disposition"]
    assert given == f'inline; filename="{outcome["sha256"][:12]}.jpg"'
    files = [path for path in tmp_path.rglob("*") if path.is_file()]
    assert not any(path.suffix in (".exe", ".ini") or "passwd" in path.name for path in files)
    assert sum(outcome["sha256"] in path.name for path in files) == 2


def test_exif_with_scripts_and_times_that_never_were_stays_in_the_original_alone(job, app):
    exif = Image.Exif()
    exif[ExifTags.Base.ImageDescription] = exif[ExifTags.Base.Artist] = HOSTILE["a script"]
    exif[ExifTags.Base.Make] = "../../x\x00<b>"
    inner = exif.get_ifd(ExifTags.IFD.Exif)
    inner[ExifTags.Base.DateTimeOriginal] = HOSTILE["a picture that fails"]
    inner[ExifTags.Base.OffsetTimeOriginal] = "+99:99"
    out = io.BytesIO()
    Image.open(io.BytesIO(picture("exif"))).save(out, "JPEG", exif=exif)
    (outcome,) = job.post(
        f"/api/jobs/{JOB}/photos", files={"photos": ("a.jpg", out.getvalue(), "image/jpeg")}
    ).json()
    assert outcome["kept"]
    assert job.get(f"/api/photos/{outcome['sha256']}").content == out.getvalue()
    preview = job.get(f"/api/photos/{outcome['sha256']}/preview").content
    assert b"script" not in preview and b"Exif" not in preview
    listed = job.get(f"/api/jobs/{JOB}/photos")
    assert_data(listed)
    assert "script" not in listed.text and "onerror" not in listed.text
    assert first_break(app.state.desk.wired.journal.lines(JOB)) is None
