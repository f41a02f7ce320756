"""Where a photo was taken stays in the shop: written and read by piexif, which is not ours."""

import io
import zipfile

import piexif
import pytest
from PIL import Image
from tests.web.shop import entry

from lastbolt.actions.exchange import export_job
from lastbolt.actions.photograph import take
from lastbolt.actions.record import record

PLACE = {
    piexif.GPSIFD.GPSLatitudeRef: b"N",
    piexif.GPSIFD.GPSLatitude: ((54, 1), (19, 1), (1234, 100)),
    piexif.GPSIFD.GPSLongitudeRef: b"E",
    piexif.GPSIFD.GPSLongitude: ((10, 1), (8, 1), (4321, 100)),
}


@pytest.fixture
def photo():
    facts = {"0th": {piexif.ImageIFD.Make: b"An invented camera"}, "GPS": PLACE, "Exif": {}}
    out = io.BytesIO()
    Image.effect_noise((640, 480), 60).convert("RGB").save(out, "JPEG", exif=piexif.dump(facts))
    return out.getvalue()


@pytest.fixture
def job(shop, photo):
    opened = entry("job-opened", 1, job="keel", machine="Winch", title="New brake", level=1)
    record(shop.journal, shop.clock, [opened])
    assert take(shop, photo, job="keel", by="Ana").outcome == "kept"
    return "keel"


def photos_in(path):
    with zipfile.ZipFile(path) as bundle:
        return [bundle.read(name) for name in bundle.namelist() if name.startswith("photos/")]


def test_the_original_and_its_move_to_another_shop_keep_their_place(shop, job, photo, tmp_path):
    export_job(shop, job, tmp_path / "whole.zip")
    assert photos_in(tmp_path / "whole.zip") == [photo]
    assert piexif.load(photo)["GPS"] == PLACE


def test_what_a_customer_gets_names_no_place_and_no_camera(shop, job, photo, tmp_path):
    export_job(shop, job, tmp_path / "customer.zip", customer=True)
    (plain,) = photos_in(tmp_path / "customer.zip")
    facts = piexif.load(plain)
    assert facts["GPS"] == {} and piexif.ImageIFD.Make not in facts["0th"]
    assert Image.open(io.BytesIO(plain)).tobytes() == Image.open(io.BytesIO(photo)).tobytes()


def test_previews_name_no_place(shop, job):
    (known,) = shop.look_up.photos_of(job)
    preview = shop.photos.preview(known.sha256)
    assert b"Exif" not in preview and piexif.load(preview)["GPS"] == {}
