"""From an upright picture to the loose parts in it, with an interval for their number."""

from dataclasses import dataclass

import cv2
import numpy as np

from lastbolt.vision.again import FEW, Agreed, is_plain, look_again
from lastbolt.vision.closer import Scene
from lastbolt.vision.empty import TRACE
from lastbolt.vision.finds import TRACE_SOLID, found_in, is_kept
from lastbolt.vision.instances import Instance
from lastbolt.vision.measure import Seen
from lastbolt.vision.network import CELL_PX, KINDS, METHOD, NET_MM_PER_PX, Map
from lastbolt.vision.outcome import Count, Image, Points, SeenPart
from lastbolt.vision.scale import made_smaller
from lastbolt.vision.separate import Blob, separate
from lastbolt.vision.unscaled import USUAL_MM, likely_field

_MOST_NET_PIXELS = 1_150_000
_DOUBTFUL_HEAT, _DOUBTFUL_SOLID = 0.68, 0.88
"""Below these a counted outline is doubtful: set on rendered trays of seed 9021 and the development photos,
where 4 % of the true parts and 13 of 16 false ones lie below."""
_DOUBTFUL_WORDS = "{} of the outlines are doubtful; strike those that are no parts"
_WEAK_HEAT = 0.3
_PILE_PARTS = 5
_SHAKY_HEAT, _PILE_AGREEMENT = 0.66, 0.945
_HIDDEN, _HIDDEN_FLAT = 0.75, 1.5
"""Set on 25 rendered piles (seed 9121); of 44 clusters of five or more parts that touch side by side one is
taken for a pile."""
_CLUSTER_PARTS = 3
_TRACE_MASK = 0.3
_TRACE_CELLS = 10


@dataclass(frozen=True, slots=True, eq=False)
class Counted:
    """The parts of one picture, their number as an interval, and why that may be wrong.

    `seen` has one entry a part, in the same order, or is empty when the method cannot measure.
    """

    parts: tuple[SeenPart, ...]
    count: Count
    unsure: tuple[str, ...]
    method: str
    traces: tuple[float, ...] = ()
    seen: tuple[Seen, ...] = ()


def count_parts(
    image: Image, mm_per_px: float | None, labels: list[Points], field: Points | None = None
) -> Counted:
    """Count with the learned reader; by the classical baseline where its weights cannot be read or run.

    `field` (4 x 2 pixels) is the sheet of a count mat: what lies outside it is not counted.
    Without a scale (None) likely widths of the scene are tried (`unscaled.likely_field`).
    """
    edge = max(image.shape[:2])
    try:
        if mm_per_px is None:
            return _count_unscaled(image, labels, field)
        return count_learned(image, mm_per_px, labels, field)
    except (OSError, cv2.error):
        return count_classical(image, mm_per_px or USUAL_MM / edge, labels)


def _count_unscaled(image: Image, labels: list[Points], field: Points | None) -> Counted:
    edge = max(image.shape[:2])
    looks: dict[float, _FirstLook] = {}

    def read(width: float) -> tuple[SeenPart, ...]:
        looks[width] = _first_look(image, width / edge, labels, field)
        return _parts(looks[width].mask, looks[width].kept, looks[width].ratio)

    width = likely_field(read)
    return _counted(looks.get(width) or _first_look(image, width / edge, labels, field))


@dataclass(frozen=True, slots=True, eq=False)
class _FirstLook:
    """What the network sees in one picture at one scale; `ratio`: its pixels a pixel of the photo."""

    scene: Scene
    ratio: Points
    mask: Map
    found: list[Instance]

    @property
    def kept(self) -> list[Instance]:
        return [one for one in self.found if is_kept(one)]


def count_learned(
    image: Image, mm_per_px: float, labels: list[Points], field: Points | None = None
) -> Counted:
    """Count with the network; `mm_per_px` need only be right to a quarter.

    What lies on a printed symbol (`labels`, corners of each) is no part and is left out. Where few parts are
    seen the picture is looked at again (`again.look_again`).
    """
    return _counted(_first_look(image, mm_per_px, labels, field))


def _first_look(image: Image, mm_per_px: float, labels: list[Points], field: Points | None) -> _FirstLook:
    height, width = image.shape[:2]
    scale = min(mm_per_px / NET_MM_PER_PX, float(np.sqrt(_MOST_NET_PIXELS / (height * width))))
    size = (max(32, round(width * scale)), max(32, round(height * scale)))
    small = made_smaller(image, size) if scale < 1 else np.asarray(cv2.resize(image, size))
    ratio = np.array([size[0] / width, size[1] / height])
    quads = [(corners + 0.5) * ratio - 0.5 for corners in labels]
    inside = None if field is None else (field + 0.5) * ratio - 0.5
    return _FirstLook(Scene(small, quads, inside), ratio, *found_in(small, quads, inside))


def _counted(look: _FirstLook) -> Counted:
    mask, kept, found = look.mask, look.kept, look.found
    if len(kept) <= FEW and not is_plain(mask, found):
        agreed = look_again(found_in, look.scene, (mask, found))
        kept, (count, reasons, traces) = agreed.kept, _of_few(agreed)
    else:
        weak = [one for one in found if one.heat >= _WEAK_HEAT and not is_kept(one)]
        count, reasons = _interval(mask, kept, weak)
        traces = tuple(round(one.heat, 3) for one in weak)
    return Counted(
        parts=_parts(mask, kept, look.ratio),
        count=count,
        unsure=tuple(reasons),
        method=METHOD,
        traces=traces,
        seen=tuple(_seen(one, look.ratio) for one in kept),
    )


def _parts(mask: Map, kept: list[Instance], ratio: Points) -> tuple[SeenPart, ...]:
    return tuple(_part(mask, one, ratio) for one in kept)


def _of_few(agreed: Agreed) -> tuple[Count, list[str], tuple[float, ...]]:
    """The interval where few parts or none were seen, what to say of it, and the traces on a bare floor."""
    number, reasons = len(agreed.kept), []
    pairs = zip(agreed.kept, agreed.by_all, strict=True)
    doubtful = sum(1 for one, sure in pairs if not sure and _is_doubtful(one))
    traces = () if agreed.kept else _traces(agreed.mask)
    more = agreed.maybe
    if doubtful:
        reasons.append(_DOUBTFUL_WORDS.format(doubtful))
    if more:
        reasons.append(f"places where one look alone takes something for a part: {more}; look there")
    elif more := sum(trace >= TRACE for trace in traces):
        reasons.append("nothing was counted, but a patch looks a little like a part; look there")
    return Count(number - doubtful, number, number + more), reasons, traces


def _is_doubtful(one: Instance) -> bool:
    return one.heat < _DOUBTFUL_HEAT or one.solid < _DOUBTFUL_SOLID


def _interval(mask: Map, kept: list[Instance], weak: list[Instance]) -> tuple[Count, list[str]]:
    """Low leaves out doubtful parts; high adds weak traces and what touching parts and piles may hide."""
    number = len(kept)
    doubtful = sum(1 for one in kept if _is_doubtful(one))
    hidden, piled = 0, 0
    for cluster in _clusters(mask, kept):
        if _is_piled(cluster):
            hidden += _hidden_in_pile(cluster)
            piled += 1
        elif len(cluster) >= _CLUSTER_PARTS:
            hidden = max(hidden, int(np.ceil(0.15 * len(cluster))))
    probable = sum(1 for one in weak if one.solid >= TRACE_SOLID)
    reasons = []
    if piled:
        reasons.append("parts lie in a pile; what lies beneath cannot be counted, spread them out")
    if doubtful:
        reasons.append(_DOUBTFUL_WORDS.format(doubtful))
    if probable:
        reasons.append(f"{probable} weak traces of a part were not counted; look there")
    return Count(number - doubtful, number, number + hidden + probable), reasons


def _is_piled(cluster: list[Instance]) -> bool:
    """Whether parts lie on each other: then many votes of what is half hidden miss its centre."""
    shaky = sum(1 for one in cluster if one.heat < _SHAKY_HEAT)
    astray = float(np.mean([one.agreement for one in cluster])) < _PILE_AGREEMENT
    return len(cluster) >= _PILE_PARTS and (shaky >= 0.25 * len(cluster) or astray)


def _hidden_in_pile(cluster: list[Instance]) -> int:
    """How many more a pile may hold than are seen of it: nuts and washers hide each other wholly."""
    flat = sum(1 for one in cluster if _kind(one) in ("hex_nut", "washer"))
    share = _HIDDEN_FLAT if flat > 0.6 * len(cluster) else _HIDDEN
    return int(np.ceil(share * len(cluster)))


def _clusters(mask: Map, kept: list[Instance]) -> list[list[Instance]]:
    """Parts grouped by touching: their cells lie in one connected region."""
    taken = np.zeros(mask.shape, np.uint8)
    for one in kept:
        taken[one.cells[:, 0], one.cells[:, 1]] = 1
    _, region = cv2.connectedComponents(taken, connectivity=8)
    groups: dict[int, list[Instance]] = {}
    for one in kept:
        names = np.asarray(region)[one.cells[:, 0], one.cells[:, 1]]
        groups.setdefault(int(np.bincount(names).argmax()), []).append(one)
    return list(groups.values())


def _traces(mask: Map) -> tuple[float, ...]:
    """Strength of each patch of a bare floor that looks a little like a part."""
    patch = cv2.morphologyEx((mask > _TRACE_MASK).astype(np.uint8), cv2.MORPH_OPEN, np.ones((2, 2), np.uint8))
    number, region, stats, _ = cv2.connectedComponentsWithStats(patch, connectivity=8)
    strong = [
        float(mask[np.asarray(region) == k].mean()) for k in range(1, number) if stats[k][4] >= _TRACE_CELLS
    ]
    return tuple(sorted((round(s, 3) for s in strong), reverse=True))


def _kind(one: Instance) -> str:
    """The likeliest kind: first whether it is a bolt of any sort, a nut, a washer or something else."""
    bolts, others = one.kinds[:3], one.kinds[3:] * np.array([1.0, 1.0, 0.5])
    if float(bolts.sum()) >= float(others.max()):
        return KINDS[int(bolts.argmax())]
    return KINDS[3 + int(others.argmax())]


def _part(mask: Map, one: Instance, ratio: Points) -> SeenPart:
    sure = float(np.clip((one.heat - 0.25) / 0.4, 0.05, 1.0) * np.clip((one.solid - 0.5) / 0.35, 0.05, 1.0))
    return SeenPart(_kind(one), _outline(mask, one, ratio), None, round(0.99 * sure, 3))


def _outline(mask: Map, one: Instance, ratio: Points) -> Points:
    """The outer edge of a part's cells, drawn at four times the cells' fineness, in pixels of the photo."""
    low, high = one.cells.min(0) - 1, one.cells.max(0) + 2
    inside = np.zeros(high - low, np.float32)
    at = one.cells - low
    inside[at[:, 0], at[:, 1]] = mask[one.cells[:, 0], one.cells[:, 1]]
    fine = cv2.resize(inside, None, fx=4, fy=4, interpolation=cv2.INTER_LINEAR)
    contours, _ = cv2.findContours((fine > 0.4).astype(np.uint8), cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    longest = max(contours, key=cv2.contourArea)
    points = cv2.approxPolyDP(longest, 1.0, True)[:, 0].astype(np.float64)
    cells = (points + 0.5) / 4 + low[::-1]
    return np.asarray(cells * CELL_PX / ratio - 0.5, dtype=np.float64)


def _seen(one: Instance, ratio: Points) -> Seen:
    mean = float(np.sqrt(ratio[0] * ratio[1]))
    return Seen(
        kind=_kind(one),
        centre=(one.centre + 0.5) / ratio - 0.5,
        under=(one.under + 0.5) / ratio - 0.5,
        tip=(one.tip + 0.5) / ratio - 0.5,
        head_px=one.head_px / mean,
        shank_px=one.shank_px / mean,
        standing=one.standing > 0.5,
    )


def count_classical(image: Image, mm_per_px: float, labels: list[Points]) -> Counted:
    """Count by difference from the floor: the measured baseline, and the fallback without learned weights."""
    blobs = separate(image, mm_per_px, labels)
    parts = tuple(_blob_part(blob) for blob in blobs)
    joined = sum(1 for blob in blobs if blob.solidity < 0.7 or blob.area_mm2 > 900)
    faint = sum(1 for part in parts if part.confidence < 0.5)
    unsure = ["counted without the learned reader; touching parts may be counted as one"]
    if joined:
        unsure.append(f"{joined} outlines may hold several touching parts")
    number = len(parts)
    return Counted(parts, Count(number - faint, number, number + 2 * joined), tuple(unsure), "classical-1")


def _blob_part(blob: Blob) -> SeenPart:
    confidence = float(np.clip(blob.contrast / 60.0, 0.05, 0.95)) * (0.6 + 0.4 * blob.solidity)
    return SeenPart("part", blob.outline, None, confidence)
