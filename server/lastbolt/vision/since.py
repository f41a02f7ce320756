"""A reading of a cleared tray made stricter by an earlier photo of the same tray, taken when it was empty."""

from dataclasses import replace

from lastbolt.vision.compare import compare_empty
from lastbolt.vision.outcome import Look, Photo, Unusable

_CERTAIN = 1.0


def held_against(seen: Look, now: Photo, earlier: Photo, *, symbol_mm: float = 25.0) -> Look:
    """The same reading; where it counts nothing but the earlier photo shows less, it says so and is unsure.

    `now` is the photo that `seen` was read from. What is new becomes a trace that alone keeps `is_empty`
    from answering yes; nothing is added to the count. Photos that cannot be laid over each other (no label
    in common, another place) change nothing: the reading then stands as it was.
    """
    if seen.count.count > 0:
        return seen
    compared = compare_empty(now, earlier, symbol_mm=symbol_mm)
    if isinstance(compared, Unusable) or compared.empty:
        return seen
    number = len(compared.new)
    things = "1 thing" if number == 1 else f"{number} things"
    doubt = f"{things} in the picture that an earlier photo of this tray does not show; look there"
    return replace(seen, unsure=(*seen.unsure, doubt), traces=(_CERTAIN,) * number + seen.traces)
