"""Photos for tests: drawn, with true label symbols, with the EXIF of a phone."""

from __future__ import annotations

import io
import struct
import zlib

import qrcode
from PIL import ExifTags, Image, ImageDraw


def photo(*texts: str, taken: str | None = None, offset: str | None = None, orientation: int = 1) -> bytes:
    """Draw a JPEG with a symbol for each text on a plain floor; without texts a floor with a stroke on it."""
    picture = Image.new("RGB", (900, 500), "#d8d2c4")
    draw = ImageDraw.Draw(picture)
    draw.line((20, 470, 20 + 7 * len("".join(texts)), 470), fill="#b0a898", width=3)
    for number, text in enumerate(texts):
        code = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_H, box_size=8, border=4)
        code.add_data(text)
        picture.paste(code.make_image().get_image().convert("RGB"), (40 + 320 * number, 60))
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = orientation
    inner = exif.get_ifd(ExifTags.IFD.Exif)
    if taken:
        inner[ExifTags.Base.DateTimeOriginal] = taken
    if offset:
        inner[ExifTags.Base.OffsetTimeOriginal] = offset
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=92, exif=exif)
    return out.getvalue()


def bomb(width: int = 20_000, height: int = 15_000) -> bytes:
    """Write a true PNG of 300 million pixels, one bit each, that takes some 40 kB."""

    def chunk(name: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))

    header = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    rows = zlib.compress(bytes((width // 8 + 1) * height), 1)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")
