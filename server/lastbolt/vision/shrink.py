"""Make our own previews smaller for print; photos from outside are decoded by readers alone."""

import io

from PIL import Image as Pillow

LARGEST_PX = 4096
"""No preview of ours is larger; what is, is none."""


def shrink(preview: bytes, max_edge_px: int) -> bytes | None:
    """Give a preview with edges of at most `max_edge_px`; None where it is no preview of ours any more."""
    try:
        with Pillow.open(io.BytesIO(preview), formats=("JPEG",)) as picture:
            if max(picture.size) > LARGEST_PX:
                return None
            picture.draft("RGB", (max_edge_px, max_edge_px))
            small = picture.convert("RGB")
            small.thumbnail((max_edge_px, max_edge_px))
            out = io.BytesIO()
            small.save(out, "JPEG", quality=80)
            return out.getvalue()
    except (OSError, ValueError, SyntaxError):
        return None
