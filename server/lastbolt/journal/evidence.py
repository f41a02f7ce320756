"""Entries about photos, labels and containers."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AwareDatetime, Field

from .envelope import Count, Envelope, Name, Record, Sha256, Share, Words

PhotoShape = Literal["before", "during", "tray", "inside", "after", "defect", "manual", "other"]
ContainerKind = Literal["tray", "bag", "bin", "dish", "template-board", "pocket", "hand", "place"]


class Spot(Record):
    """A point on a photo: shares of its width and height."""

    x: Share
    y: Share


Spots = Annotated[tuple[Spot, ...], Field(max_length=500)]
Outline = Annotated[tuple[tuple[Share, Share], ...], Field(min_length=3, max_length=16)]
Outlines = Annotated[tuple[Outline, ...], Field(max_length=500)]


class PhotoAdded(Envelope):
    """A photo came in; it is kept even when nothing names it."""

    kind: Literal["photo-added"]
    photo: Name
    shape: PhotoShape = "other"
    sha256: Sha256 | None = None
    width: Annotated[int, Field(ge=1, le=100_000)] | None = None
    height: Annotated[int, Field(ge=1, le=100_000)] | None = None
    element: Name | None = None
    container: Name | None = None
    taken_at: AwareDatetime | None = Field(
        default=None, description="the camera's own time, if it gave an offset"
    )
    taken_at_local: Name | None = Field(
        default=None, description="the camera's time as written, zone unknown"
    )
    labels: tuple[Name, ...] = Field(default=(), description="label texts read in it")


class PhotoLinked(Envelope):
    """A photo belongs to an element or a container."""

    kind: Literal["photo-linked"]
    photo: Name
    element: Name
    shape: PhotoShape | None = None


class PhotoPinned(Envelope):
    """A hole or element is marked on a photo; x and y are shares of its width and height."""

    kind: Literal["photo-pinned"]
    photo: Name
    element: Name
    hole: Annotated[int, Field(ge=1, le=500)] | None = None
    x: Share
    y: Share


class PhotoCounted(Envelope):
    """The machine's or a scale's count; it never changes the ledger."""

    kind: Literal["photo-counted"]
    container: Name
    n: Count
    photo: Name | None = None
    low: Count | None = None
    high: Count | None = None
    confidence: Share = 0.9
    method: Literal["picture", "scale"] = "picture"
    method_version: Name | None = None
    seen: Spots = Field(default=(), description="the middle of each part that was seen")
    outlines: Outlines = Field(default=(), description="outlines, in the order of `seen`: corners as [x, y]")

    @property
    def interval(self) -> tuple[int, int]:
        """Give the least and the most that the picture may show; an end that was not said is the count."""
        low = self.n if self.low is None else self.low
        return low, self.n if self.high is None else self.high


class ReadingCorrected(Envelope):
    """A person struck what is no part and added what was missed; the machine's own count stays."""

    kind: Literal["reading-corrected"]
    photo: Name
    container: Name
    n: Count = Field(description="how many parts the picture shows, in this person's word")
    struck: Spots = Field(default=(), description="what the reader took for a part")
    added: Spots = Field(default=(), description="parts that the reader did not see")


class PhotoRejected(Envelope):
    """A photo is blurred, wrong or double; its bytes stay."""

    kind: Literal["photo-rejected"]
    photo: Name
    why: Words


class PairSeen(Envelope):
    """The lead looked at the photos of an element from before and after; no second look at the work."""

    kind: Literal["pair-seen"]
    element: Name
    before: Name | None = None
    after: Name | None = None


class LabelsPrinted(Envelope):
    """These codes were printed."""

    kind: Literal["labels-printed"]
    codes: tuple[Name, ...]
    layout: Name | None = None


class LabelBound(Envelope):
    """A label now belongs to one living thing."""

    kind: Literal["label-bound"]
    label: Name
    container: Name = Field(description="the tray, bag, part or tool that bears the label")
    container_kind: ContainerKind = "tray"
    text: Name | None = Field(default=None, description="the label's payload, where it is not one of ours")


class LabelRetired(Envelope):
    """A label is dead; its number is never used again."""

    kind: Literal["label-retired"]
    label: Name
    reason: Words | None = None


class ContainerDescribed(Envelope):
    """What a container is; places are shared by nature."""

    kind: Literal["container-described"]
    container: Name
    container_kind: ContainerKind = "tray"
    shared: bool = Field(default=False, description="shared by several jobs on purpose, counted apart")


class ContainerScanned(Envelope):
    """Seen here now."""

    kind: Literal["container-scanned"]
    container: Name


class ContainerPlaced(Envelope):
    """Where the container lies."""

    kind: Literal["container-placed"]
    container: Name
    place: Name


class ContainerCounted(Envelope):
    """Counted by hand: what lies in it now."""

    kind: Literal["container-counted"]
    container: Name
    n: Count
    set: Name | None = None


class ContainerEmptied(Envelope):
    """Looked into and felt: nothing is left; the tray is free."""

    kind: Literal["container-emptied"]
    container: Name
