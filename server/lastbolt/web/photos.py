"""Routes about photos: taking them in, and giving back originals and previews."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, File, Form, Header, Path, UploadFile
from fastapi.responses import Response

from . import wire
from .desk import AtDesk
from .door import AtDoor
from .media import UNKNOWN, media_of
from .taking_in import named_here

router = APIRouter(prefix="/api", tags=["photos"])
Digest = Annotated[str, Path(pattern="^[0-9a-f]{64}$")]
FOREVER = {"cache-control": "private, max-age=31536000, immutable"}
AWHILE = {"cache-control": "private, max-age=60"}
"""For what stands in until the original is here, or until a small picture could be made."""


@router.post("/jobs/{job:path}/photos", operation_id="addPhotos")
def add_photos(
    job: str,
    desk: AtDesk,
    visit: AtDoor,
    photos: Annotated[list[UploadFile], File(max_length=200)],
    by: Annotated[str | None, Form(min_length=1, max_length=120, description="who brings them in")] = None,
) -> list[wire.PhotoOutcome]:
    """Take photos into a job; each gets its own answer in words, whatever became of the others.

    What a photo is gets decided by its bytes; the declared type and the file's name count for nothing.
    """
    by = named_here(visit, by)
    return [
        desk.take_photo(job, each.file.read, file=each.filename or "a photo", by=by, device=visit.device)
        for each in photos
    ]


@router.get("/photos/{sha}", operation_id="getPhoto", response_class=Response)
def get_photo(sha: Digest, desk: AtDesk) -> Response:
    """Give the original, byte for byte as it came."""
    data = desk.original(sha)
    media = media_of(data)
    how = "attachment" if media is UNKNOWN else "inline"
    disposition = f'{how}; filename="{sha[:12]}.{media.suffix}"'
    return Response(data, media_type=media.type, headers={**FOREVER, "content-disposition": disposition})


@router.get("/photos/{sha}/preview", operation_id="getPreview", response_class=Response)
def get_preview(sha: Digest, desk: AtDesk) -> Response:
    """Give the small upright picture of a photo."""
    shown = desk.preview(sha)
    return Response(shown.jpeg, media_type="image/jpeg", headers=FOREVER if shown.lasting else AWHILE)


@router.get("/photos/{sha}/small", operation_id="getSmall", response_class=Response)
def get_small(
    sha: Digest, desk: AtDesk, known: Annotated[str | None, Header(alias="if-none-match")] = None
) -> Response:
    """Give a picture of 400 px for long lists of photos."""
    shown = desk.small(sha)
    if not shown.lasting:
        return Response(shown.jpeg, media_type="image/jpeg", headers=AWHILE)
    tag = f'"{sha}-small"'
    headers = {**FOREVER, "etag": tag}
    if known is not None and tag in known:
        return Response(status_code=304, headers=headers)
    return Response(shown.jpeg, media_type="image/jpeg", headers=headers)
