"""What is known of a job turned into what the lead's desk goes through; pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ..finding import Finding, worst_first
from ..journal import Happened, effective
from ..journal.checking import SecondChecked
from ..journal.evidence import PhotoCounted, ReadingCorrected
from ..plan.access import access_map
from ..state import elements
from ..state.job import Job
from . import answers, lead_wire, wire
from .known import Known
from .lead_pairs import Pairs, near

SUBJECTS = ("set", "part", "connection", "opening", "element")


def desk_list(known: Known) -> lead_wire.DeskList:
    """Give the findings worst first with their pairs, and all pairs by where to look first."""
    pairs = Pairs(known, effective(list(known.by_id.values())))
    on_map = access_map(known.state).nodes.keys()
    return lead_wire.DeskList(
        findings=[
            _finding(known, each, pairs, on_map=each.subject in on_map)
            for each in worst_first(known.findings)
        ],
        pairs=pairs.ranked(),
        people=_people(known.state),
    )


def _finding(known: Known, each: Finding, pairs: Pairs, *, on_map: bool) -> lead_wire.DeskFinding:
    spelled = answers.finding(known, each)
    decided = known.state.decisions.get((each.check, each.subject))
    word = decided.entry if decided else None
    back = None
    if decided and word and word.decision == "rework":
        back = lead_wire.SentBack(to=word.to, reason=word.reason, by=word.by, at=decided.act.time)
    return lead_wire.DeskFinding(
        finding=spelled,
        grades=[grade(known.state, known.by_id[entry.entry]) for entry in spelled.entries],
        pair=pairs.of(near(known.state, each.subject)),
        on_map=on_map,
        sent_back=back,
    )


def grade(state: Job, happened: Happened) -> lead_wire.Grade:
    """Grade an entry as evidence: a second person, a photo or scan, a tap (practice 4.1)."""
    entry = happened.entry
    if isinstance(entry, SecondChecked):
        return 3
    names = [name for field in SUBJECTS if isinstance(name := getattr(entry, field, None), str)]
    looks = [look for name in names for look in state.second_checks.get(name, ())]
    if any(act.by != entry.by and act.time >= happened.time and result == "good" for act, _, result in looks):
        return 3
    return 2 if entry.photos or entry.mode == "scan" or entry.kind == "photo-added" else 1


def _people(state: Job) -> list[lead_wire.Named]:
    names = sorted({*state.people, *state.workers, *state.signed_on})
    return [lead_wire.Named(name=name, roles=list(state.people.get(name, ()))) for name in names]


def trays(known: Known) -> list[lead_wire.Tray]:
    """Give the trays, those with something in them first, each with its counts and last photo."""
    marks = marks_of(effective(list(known.by_id.values())))
    containers = known.state.containers
    return [_tray(said, containers[said.container], marks) for said in answers.containers(known)]


def marks_of(happened: Iterable[Happened]) -> Mapping[str, list[lead_wire.Mark]]:
    """Give what was seen in each photo: the reader's last look, with what people struck and added since."""
    found: dict[str, list[lead_wire.Mark]] = {}
    for each in happened:
        e = each.entry
        if isinstance(e, PhotoCounted) and e.photo:
            found[e.photo] = _seen_in(e)
        elif isinstance(e, ReadingCorrected):
            struck = {(spot.x, spot.y) for spot in e.struck}
            kept = [
                mark.model_copy(update={"by": "struck"}) if (mark.x, mark.y) in struck else mark
                for mark in found.get(e.photo, [])
            ]
            found[e.photo] = kept + [lead_wire.Mark(x=spot.x, y=spot.y, by="person") for spot in e.added]
    return found


def _seen_in(counted: PhotoCounted) -> list[lead_wire.Mark]:
    """Give what the reader saw; entries from before outlines were kept have none."""
    complete = len(counted.outlines) == len(counted.seen)
    around = counted.outlines if complete else [()] * len(counted.seen)
    return [
        lead_wire.Mark(x=spot.x, y=spot.y, by="reader", outline=list(outline))
        for spot, outline in zip(counted.seen, around, strict=True)
    ]


def _tray(
    said: wire.Container, own: elements.Container, marks: Mapping[str, list[lead_wire.Mark]]
) -> lead_wire.Tray:
    picture, counted = said.counted, own.counted
    span = f"{picture.low} to {picture.high}" if picture and picture.low != picture.high else None
    last = said.photos[0] if said.photos else None
    return lead_wire.Tray(
        container=said.container,
        label=said.label,
        kind=said.kind,
        place=said.place,
        contents=said.contents,
        record=sum(pieces.n for pieces in said.contents),
        picture=span or (str(picture.high) if picture else None),
        picture_at=picture.at if picture else None,
        by_hand=counted[1] if counted else None,
        counted_by=counted[0].by if counted else None,
        counted_at=counted[0].time if counted else None,
        looked_empty=said.looked_empty,
        photo=last,
        photos=len(said.photos),
        marks=marks.get(last.photo, []) if last else [],
    )
