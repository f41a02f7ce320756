"""The labels that a photo shows, and what they are bound to in the job that the photo goes into."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from .. import label_code
from ..label_code import LabelCode
from .ports import Bound, LookUp


@dataclass(frozen=True, slots=True)
class ShownLabel:
    """One label read in a photo.

    `containers` and `step` are those of this job; `elsewhere` names another job whose container bears it.
    `code` is None for a symbol that is no label of a shop.
    """

    text: str
    code: str | None
    containers: tuple[str, ...]
    step: str | None
    elsewhere: str | None
    retired: bool

    @property
    def container(self) -> str | None:
        """Give what bears the label in this job, None when that is nothing or not one thing."""
        return self.containers[0] if len(self.containers) == 1 else None

    @property
    def name(self) -> str:
        """Give the code as people read it, else the beginning of the text."""
        read = label_code.read(self.text)
        return label_code.shown(LabelCode(read.code)) if read and read.checked else self.text[:40]


def shown_labels(look_up: LookUp, job: str, texts: Iterable[str]) -> list[ShownLabel]:
    """Look every label up, each once, in the order in which they were read."""
    found: dict[str, ShownLabel] = {}
    for text in texts:
        read = label_code.read(text)
        name = read.code if read else text
        if name not in found:
            found[name] = _shown(job, text, code=read.code if read else None, rows=list(look_up.label(text)))
    return list(found.values())


def _shown(job: str, text: str, *, code: str | None, rows: list[Bound]) -> ShownLabel:
    living = [row for row in rows if not row.retired]
    here = [row for row in living if row.job == job]
    return ShownLabel(
        text=text,
        code=code,
        containers=tuple(row.container for row in here),
        step=here[0].step if len(here) == 1 else None,
        elsewhere=next((row.job for row in living if not here), None),
        retired=bool(rows) and not living,
    )


def sentence_about(labels: list[ShownLabel], container: str | None) -> str:
    """Say what the labels tell of a kept photo, and what to do where they do not tell its place."""
    if not labels:
        if container:
            return f"Kept, on {container}; no label could be read in it."
        return "Kept, but no label could be read in it; link it to its tray by hand, or take it again nearer."
    others = [_other(label) for label in labels if label.container is None]
    own = [label for label in labels if label.container is not None]
    if container:
        return " ".join([f"Kept, on {container}.", *others])
    if len(own) > 1:
        names = " and ".join(label.name for label in own)
        said = (
            f"Kept, but it shows {len(own)} labels, {names}; say which one it is of, or take each by itself."
        )
        return " ".join([said, *others])
    return " ".join(["Kept, but linked to nothing.", *others])


def _other(label: ShownLabel) -> str:
    if label.containers:
        return f"{label.name} is bound to {' and to '.join(label.containers)}; retire one of them."
    if label.elsewhere:
        return f"{label.name} belongs to the job {label.elsewhere}, not to this one."
    if label.retired:
        return f"{label.name} was retired; give that tray a new label."
    if label.code is None:
        return f"It shows a code that is no label of the shop: {label.name!r}."
    return f"{label.name} is bound to nothing in this job; bind it, or link the photo by hand."
