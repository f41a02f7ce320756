"""One photo in, all that it says out: labels, parts, sizes, count, and what is unsure."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from lastbolt.vision.count import Counted, count_parts
from lastbolt.vision.decode import WARN_PX_PER_MODULE, find_labels
from lastbolt.vision.joint import joint_plane
from lastbolt.vision.lip import LIP_RISE_MM, LIP_RISE_SIGMA_MM, is_on_lip
from lastbolt.vision.mat import sheet_corners
from lastbolt.vision.mat_plane import field_size_mm, plane_from_mat
from lastbolt.vision.measure import Seen, measure
from lastbolt.vision.outcome import LabelMark, Look, Photo, Points, ReadCode, SeenPart, Unusable
from lastbolt.vision.pixels import read_photo
from lastbolt.vision.quality import quality_doubts
from lastbolt.vision.rectify import WIDE_LENS_MM, Plane, plane_from_label
from lastbolt.vision.since import held_against

DEFAULT_SYMBOL_MM = 25.0

_APART_SIGMA_MM = 5.0
"""How far above the parts a label may lie where labels do not fit one plane; common practice, no source."""

SymbolMm = Callable[[str], float]


def _default_symbol_mm(text: str) -> float:
    return DEFAULT_SYMBOL_MM


def look(
    photo_bytes: bytes,
    read_code: ReadCode,
    *,
    symbol_mm: SymbolMm = _default_symbol_mm,
    earlier: bytes | None = None,
) -> Look | Unusable:
    """Read one photo whole. `symbol_mm` gives the printed edge of a label's symbol from its payload.

    `earlier` is a photo of the same tray when it was empty: see `look_since`.
    """
    photo = read_photo(photo_bytes)
    if isinstance(photo, Unusable):
        return photo
    return look_since(photo, read_code, earlier, symbol_mm=symbol_mm)


def look_since(
    photo: Photo, read_code: ReadCode, earlier: bytes | None, *, symbol_mm: SymbolMm = _default_symbol_mm
) -> Look:
    """Read a decoded photo; where it shows nothing, hold it against an earlier photo of the same tray.

    What is new since then makes the reading unsure (`since.held_against`). An earlier photo that cannot be
    read changes nothing.
    """
    seen = look_at(photo, read_code, symbol_mm=symbol_mm)
    before = read_photo(earlier) if earlier is not None and seen.count.count == 0 else None
    return held_against(seen, photo, before) if isinstance(before, Photo) else seen


def look_at(photo: Photo, read_code: ReadCode, *, symbol_mm: SymbolMm = _default_symbol_mm) -> Look:
    """Read a photo that is decoded already."""
    marks = find_labels(photo.image)
    edges = [symbol_mm(mark.text) for mark in marks]
    seen_mat = plane_from_mat(photo.image, photo.facts)
    bent = (seen_mat.reason,) if isinstance(seen_mat, Unusable) else ()
    mat = None if isinstance(seen_mat, Unusable) else seen_mat
    printed = [mark.corners for mark in marks] + (mat[1] if mat else [])
    sheet = sheet_corners(mat[2], field_size_mm(mat[0], mat[2])) if mat else None
    counted = count_parts(photo.image, _scale(photo, (marks, edges), mat), printed, sheet)
    owners = [_nearest_label(part.outline.mean(0), marks) for part in counted.parts]
    planes = _planes(photo, (marks, edges), (counted, owners), mat)
    parts = [
        _sized(part, owner, _seen_of(counted, k), planes)
        for k, (part, owner) in enumerate(zip(counted.parts, owners, strict=True))
    ]
    return Look(
        size=(photo.facts.width, photo.facts.height),
        facts=photo.facts,
        labels=tuple(marks),
        codes=tuple(read_code(mark.text) for mark in marks),
        parts=tuple(parts),
        count=counted.count,
        unsure=bent + _doubts(photo, marks, planes, counted),
        method=counted.method,
        traces=counted.traces,
    )


Labels = tuple[list[LabelMark], list[float]]
Mat = tuple[Plane, list[Points], Points] | None


def _scale(photo: Photo, labels: Labels, mat: Mat) -> float | None:
    if mat is None:
        return _mm_per_px(*labels)
    return mat[0].mm_per_px(np.array([photo.facts.width / 2, photo.facts.height / 2]))


def _planes(
    photo: Photo, labels: Labels, owned: tuple[Counted, list[int | None]], mat: Mat
) -> list[Plane | None]:
    """One plane a label; the mat's for all where there is a mat, also without a label.

    Labels that lie in one plane give one plane together.
    """
    marks, edges = labels
    if mat is not None:
        return [mat[0]] * max(1, len(marks))
    pairs = zip(marks, edges, strict=True)
    return _together(photo, labels, [_plane(photo, pair, _own(*owned, k)) for k, pair in enumerate(pairs)])


def _together(photo: Photo, labels: Labels, alone: list[Plane | None]) -> list[Plane | None]:
    """Labels at the same height given one plane; where none fits them, each gets more doubt of its height."""
    marks, edges = labels
    for rise in {plane.rise_mm for plane in alone if plane}:
        level = [k for k, plane in enumerate(alone) if plane and plane.rise_mm == rise]
        planes = [plane for plane in alone if plane and plane.rise_mm == rise]
        if len(level) < 2:
            continue
        joint = joint_plane(planes, [marks[k].corners for k in level], [edges[k] for k in level], photo.facts)
        for k, plane in zip(level, planes, strict=True):
            doubt = plane.rise_sigma_mm if joint else max(plane.rise_sigma_mm, _APART_SIGMA_MM)
            alone[k] = replace(joint or plane, rise_mm=rise, rise_sigma_mm=doubt)
    return alone


def _mm_per_px(marks: list[LabelMark], edges_mm: list[float]) -> float | None:
    if not marks:
        return None
    scales = [edge / _mean_edge_px(mark) for mark, edge in zip(marks, edges_mm, strict=True)]
    return float(np.median(scales))


def _mean_edge_px(mark: LabelMark) -> float:
    return float(np.linalg.norm(mark.corners - np.roll(mark.corners, 1, 0), axis=1).mean())


def _nearest_label(point: Points, marks: list[LabelMark]) -> int | None:
    apart = [float(np.linalg.norm(point - mark.corners.mean(0))) for mark in marks]
    return int(np.argmin(apart)) if apart else None


def _own(counted: Counted, owners: list[int | None], label: int) -> list[Points]:
    """Outlines of the parts that belong to a label."""
    return [p.outline for p, owner in zip(counted.parts, owners, strict=True) if owner == label]


def _seen_of(counted: Counted, k: int) -> Seen | None:
    return counted.seen[k] if counted.seen else None


def _plane(photo: Photo, label: tuple[LabelMark, float], parts: list[Points]) -> Plane | None:
    mark, symbol_mm = label
    plane = plane_from_label(mark.corners, symbol_mm, photo.facts)
    if plane is None or not parts:
        return plane
    if is_on_lip(photo.image, mark.corners, symbol_mm, parts):
        return replace(plane, rise_mm=LIP_RISE_MM, rise_sigma_mm=LIP_RISE_SIGMA_MM)
    return plane


def _sized(part: SeenPart, owner: int | None, seen: Seen | None, planes: list[Plane | None]) -> SeenPart:
    plane = planes[owner or 0] if planes else None
    if seen is None or plane is None:
        return replace(part, label=owner)
    sizes = measure(seen, plane)
    return replace(
        part,
        label=owner,
        length_mm=sizes.length_mm,
        head_mm=sizes.head_mm,
        shank_mm=sizes.shank_mm,
        thread=sizes.thread,
        plus_minus_mm=sizes.plus_minus_mm,
    )


def _doubts(
    photo: Photo, marks: list[LabelMark], planes: list[Plane | None], counted: Counted
) -> tuple[str, ...]:
    doubts = list(counted.unsure) + quality_doubts(photo.image)
    if not marks:
        doubts.append(
            "no label was read, so the tray is not named" + ("" if planes else " and sizes are unknown")
        )
    if any(m.px_per_module is not None and m.px_per_module < WARN_PX_PER_MODULE for m in marks):
        doubts.append("a label is small in the picture; go nearer")
    if any(plane is not None and plane.rise_mm == 0 < plane.rise_sigma_mm for plane in planes):
        doubts.append("the labels do not lie in one plane, so sizes carry 1 to 2 % more doubt")
    if planes and (photo.facts.focal_35mm or WIDE_LENS_MM) < WIDE_LENS_MM:
        doubts.append(
            "taken with the wide lens, whose distortion is not corrected; step back and use the main one"
        )
    if any(plane is not None and plane.rise_mm > 0 for plane in planes):
        doubts.append("a label lies on a raised lip, so sizes carry 1 to 2 % more doubt")
    return tuple(doubts)
