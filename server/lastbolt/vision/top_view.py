"""A count mat from above, as a picture that prints at its true size."""

import io

from PIL import Image as Pillow

from lastbolt.vision.mat import view_mat
from lastbolt.vision.mat_plane import field_size_mm, plane_from_mat
from lastbolt.vision.outcome import Photo, Unusable
from lastbolt.vision.pixels import read_photo

MM_PER_PX = 0.25
_MM_PER_INCH = 25.4


def flattened(photo_bytes: bytes) -> bytes | Unusable:
    """Decode a photo and give its count mat from above: see `mat_from_above`."""
    photo = read_photo(photo_bytes)
    return photo if isinstance(photo, Unusable) else mat_from_above(photo)


def mat_from_above(photo: Photo) -> bytes | Unusable:
    """Give the mat's field flattened, 4 pixels a millimetre, as a PNG that says so (its dots per inch).

    The field's width and height come from the picture itself, so any of the printed sheets will do. What
    stands above the sheet leans outwards in it. Unusable where fewer than three markers are seen or where
    they fit no flat sheet.
    """
    seen = plane_from_mat(photo.image, photo.facts)
    if isinstance(seen, Unusable):
        return seen
    if seen is None:
        return Unusable("No count mat is seen; three of its four corner markers must be in the picture.")
    plane, _, corners = seen
    view = view_mat(photo.image, field_size_mm(plane, corners), mm_per_px=MM_PER_PX)
    if isinstance(view, Unusable):
        return view
    out = io.BytesIO()
    dots = _MM_PER_INCH / MM_PER_PX
    Pillow.fromarray(view.image).save(out, "PNG", dpi=(dots, dots))
    return out.getvalue()
