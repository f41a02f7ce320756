"""From a file's bytes to upright pixels and back to a small preview; never a path."""

import io
import re
import struct
import warnings

import cv2
import numpy as np
from PIL import Image as Pillow
from PIL import UnidentifiedImageError

from lastbolt.said import said
from lastbolt.vision.outcome import Image, Photo, PhotoFacts, Unusable

DEFAULT_MAX_PIXELS = 80_000_000
_LEAST_EDGE_PX = 16
_FORMATS = ("JPEG", "PNG", "WEBP", "TIFF", "BMP", "GIF")
_PILLOW_TROUBLE = (
    OSError, SyntaxError, ValueError, TypeError, LookupError, AttributeError, ArithmeticError,
    AssertionError, RuntimeError, MemoryError, struct.error, EOFError, Pillow.DecompressionBombError,
)  # fmt: skip
_TAKEN, _OFFSET, _FOCAL, _FOCAL_35 = 0x9003, 0x9011, 0x920A, 0xA405


def read_photo(photo_bytes: bytes, *, max_pixels: int = DEFAULT_MAX_PIXELS) -> Photo | Unusable:
    """Decode one photo to upright pixels, or say in one sentence why that cannot be done.

    The size is checked from the header before any pixel is decoded. JPEG, PNG, WebP, TIFF, BMP, still GIF,
    the first picture of an MPO, and HEIC where the optional reader is installed.
    """
    if not photo_bytes:
        return Unusable("The file is empty (0 bytes); send the photo again.")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        picture = _open(photo_bytes)
        if isinstance(picture, Unusable):
            return picture
        with picture:
            refused = _refusal(picture, max_pixels)
            return refused if refused is not None else _decode(picture, photo_bytes)


def preview(image: Image, max_edge_px: int) -> bytes:
    """A small JPEG of an upright picture whose longer edge is at most `max_edge_px`."""
    picture = Pillow.fromarray(image)
    picture.thumbnail((max_edge_px, max_edge_px))
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=80)
    return out.getvalue()


def _open(photo_bytes: bytes) -> Pillow.Image | Unusable:
    if _is_heic(photo_bytes):
        return _open_heic(photo_bytes)
    try:
        return Pillow.open(io.BytesIO(photo_bytes), formats=_FORMATS)
    except Pillow.DecompressionBombError:
        return Unusable("The picture claims more pixels than a phone takes; send the camera's own photo.")
    except UnidentifiedImageError:
        return Unusable("The file is not a photo that can be read here; send a JPEG, PNG, WebP or HEIC.")
    except _PILLOW_TROUBLE:
        return Unusable("The photo's header is damaged; send the photo again.")


def _is_heic(photo_bytes: bytes) -> bool:
    brands = (b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1", b"msf1")
    return photo_bytes[4:8] == b"ftyp" and photo_bytes[8:12] in brands


def _open_heic(photo_bytes: bytes) -> Pillow.Image | Unusable:
    try:
        import pillow_heif
    except ImportError:
        return Unusable(
            "This is a HEIC photo and its reader is not installed: install lastbolt[heic], "
            "or set the phone's camera to JPEG ('most compatible')."
        )
    try:
        heif = pillow_heif.open_heif(io.BytesIO(photo_bytes), convert_hdr_to_8bit=True)
        width, height = heif.size
        if width * height > DEFAULT_MAX_PIXELS:
            return _too_large(width, height, DEFAULT_MAX_PIXELS)
        picture: Pillow.Image = heif.to_pillow()
    except _PILLOW_TROUBLE:
        return Unusable("The HEIC photo is damaged; send the photo again.")
    picture.format = "HEIC"
    return picture


def _too_large(width: int, height: int, max_pixels: int) -> Unusable:
    return Unusable(
        said(
            "The picture has {width} x {height} pixels, more than the limit of {most} million; send "
            "a smaller one.",
            width=width,
            height=height,
            most=f"{max_pixels / 1000000.0:.0f}",
        )
    )


def _refusal(picture: Pillow.Image, max_pixels: int) -> Unusable | None:
    """What the header alone forbids."""
    width, height = picture.size
    if min(width, height) < _LEAST_EDGE_PX:
        return Unusable(
            said(
                "The picture is only {width} x {height} pixels; send the camera's own photo.",
                width=width,
                height=height,
            )
        )
    progressive = bool(picture.info.get("progressive"))
    limit = max_pixels // 2 if progressive or picture.format == "TIFF" else max_pixels
    if width * height > limit:
        return _too_large(width, height, limit)
    if picture.format != "MPO":
        try:
            frames = getattr(picture, "n_frames", 1)
        except _PILLOW_TROUBLE:
            frames = 1
        if frames > 1:
            return Unusable("The file is an animation or holds several pages; send one still photo.")
    return None


def _decode(picture: Pillow.Image, photo_bytes: bytes) -> Photo | Unusable:
    orientation = 1
    exif: dict[int, object] = {}
    try:
        orientation, exif = _exif(picture)
    except _PILLOW_TROUBLE:
        pass  # a broken EXIF block costs the date, not the photo
    name = picture.format or "unknown"
    try:
        stored = _fast_jpeg(picture, photo_bytes)
        if stored is None:
            stored = np.array(_eight_bit_rgb(picture), dtype=np.uint8)
    except MemoryError:
        return Unusable("The picture needs more memory than there is; send a smaller one.")
    except _PILLOW_TROUBLE:
        return Unusable("The photo is damaged or was cut off on its way; send it again.")
    image = _upright(stored, orientation)
    height, width = image.shape[:2]
    return Photo(image, _facts(exif, (name, width, height, orientation)))


def _fast_jpeg(picture: Pillow.Image, photo_bytes: bytes) -> Image | None:
    """OpenCV's decoder for a plain JPEG that has its end mark; None leaves the file to Pillow."""
    whole = photo_bytes.rfind(b"\xff\xd9") > len(photo_bytes) - 4096
    if picture.format not in ("JPEG", "MPO") or picture.mode not in ("RGB", "L") or not whole:
        return None
    flags = cv2.IMREAD_COLOR_RGB | cv2.IMREAD_IGNORE_ORIENTATION
    stored = cv2.imdecode(np.frombuffer(photo_bytes, dtype=np.uint8), flags)
    return stored if stored is not None and stored.shape[1::-1] == picture.size else None


def _upright(stored: Image, orientation: int) -> Image:
    """Stored pixels turned as EXIF says that they are to be shown."""
    turned = np.swapaxes(stored, 0, 1) if orientation in (5, 6, 7, 8) else stored
    rows = -1 if orientation in (3, 4, 7, 8) else 1
    cols = -1 if orientation in (2, 3, 6, 7) else 1
    return np.ascontiguousarray(turned[::rows, ::cols])


def _eight_bit_rgb(picture: Pillow.Image) -> Pillow.Image:
    picture.load()
    if picture.mode.startswith(("I", "F")):
        deep = np.asarray(picture, dtype=np.float32)
        full = 65535.0 if deep.max(initial=0.0) > 255.0 else 255.0
        return Pillow.fromarray((deep.clip(0, full) * (255.0 / full)).astype(np.uint8)).convert("RGB")
    if picture.mode in ("RGBA", "LA", "PA", "RGBa", "La") or "transparency" in picture.info:
        whole = Pillow.new("RGBA", picture.size, (255, 255, 255, 255))
        whole.alpha_composite(picture.convert("RGBA"))
        return whole.convert("RGB")
    return picture.convert("RGB")


def _exif(picture: Pillow.Image) -> tuple[int, dict[int, object]]:
    exif = picture.getexif()
    orientation = exif.get(0x0112, 1)
    inner = exif.get_ifd(0x8769)
    shown = orientation if isinstance(orientation, int) and 1 <= orientation <= 8 else 1
    return (1 if picture.format == "HEIC" else shown), dict(inner)


def _facts(exif: dict[int, object], shape: tuple[str, int, int, int]) -> PhotoFacts:
    name, width, height, orientation = shape
    return PhotoFacts(
        format=name,
        width=width,
        height=height,
        orientation=orientation,
        taken_text=_text(exif.get(_TAKEN), r"\d{4}:\d\d:\d\d \d\d:\d\d:\d\d"),
        offset_text=_text(exif.get(_OFFSET), r"[+-]\d\d:\d\d"),
        focal_mm=_positive(exif.get(_FOCAL)),
        focal_35mm=_positive(exif.get(_FOCAL_35)),
    )


def _text(value: object, pattern: str) -> str | None:
    text = value.decode("ascii", "replace") if isinstance(value, bytes) else value
    if not isinstance(text, str):
        return None
    text = text.strip(" \0")
    return text if re.fullmatch(pattern, text) else None


def _positive(value: object) -> float | None:
    try:
        number = float(value)  # type: ignore[arg-type]  # an EXIF rational, a number or rubbish
    except (TypeError, ValueError, ArithmeticError):
        return None
    return number if 0 < number < 10_000 else None
