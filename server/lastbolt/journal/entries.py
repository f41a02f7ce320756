"""All kinds of entries joined in one tagged union; the one list that journal, API and phone share."""

from __future__ import annotations

from typing import Annotated, get_args

from pydantic import Field, TypeAdapter

from .checking import (
    ClockMarked,
    DeviceReported,
    EntriesHeld,
    EntryReplaced,
    EntryVoided,
    FindingDecided,
    HoldDescribed,
    HoldReleased,
    JobReopened,
    JournalSealed,
    ReleaseAsked,
    ReleaseSigned,
    ReleaseWithdrawn,
    SecondChecked,
    StartAsked,
    TestDescribed,
    TestRun,
)
from .evidence import (
    ContainerCounted,
    ContainerDescribed,
    ContainerEmptied,
    ContainerPlaced,
    ContainerScanned,
    LabelBound,
    LabelRetired,
    LabelsPrinted,
    PairSeen,
    PhotoAdded,
    PhotoCounted,
    PhotoLinked,
    PhotoPinned,
    PhotoRejected,
    ReadingCorrected,
)
from .fasteners import (
    CaptiveReleased,
    CaptiveShut,
    FastenerIdentified,
    FastenerMeasured,
    FastenersFitted,
    FastenersFoundBad,
    FastenersLoosened,
    FastenersMoved,
    FastenersRemoved,
    FastenersRetightened,
    FastenersTightened,
    LockingFitted,
    LossWrittenOff,
    SetDescribed,
    ThingFound,
    ThingLost,
    WitnessMarked,
)
from .machine import (
    AccessSaid,
    Cleaned,
    CompoundApplied,
    ConnectionDescribed,
    ConnectionMade,
    ConnectionParted,
    FluidChecked,
    FluidDescribed,
    FluidDrained,
    FluidFilled,
    IsolationApplied,
    IsolationCleared,
    IsolationDescribed,
    IsolationProven,
    IsolationRemoved,
    IsolationTransferred,
    ItemBroughtIn,
    ItemTakenOut,
    KitCounted,
    LookedInside,
    OpeningClosed,
    OpeningCovered,
    OpeningDescribed,
    OpeningOpened,
    OpeningUncovered,
    PartDescribed,
    PartFitted,
    PartRemoved,
    RenewalFitted,
    RenewalNeeded,
    RenewalSeenOff,
    SettingDescribed,
    SettingFound,
    SettingSet,
)
from .people import (
    DutyDone,
    DutySet,
    HandoverAccepted,
    HandoverOffered,
    JobCancelled,
    JobLinked,
    JobOpened,
    JobWaiting,
    LevelRaised,
    LicenceRecorded,
    MachineScanned,
    PersonDescribed,
    PlanAdopted,
    SignedOff,
    SignedOn,
    StepDone,
    StepStarted,
    WorkInterrupted,
    WorkResumed,
)
from .specification import (
    SpecChecked,
    SpecEntered,
    SpecSuperseded,
    WrenchCalibrated,
    WrenchDescribed,
    WrenchSuspected,
)

AnyEntry = (
    JobOpened
    | PlanAdopted
    | JobLinked
    | JobWaiting
    | JobCancelled
    | LevelRaised
    | MachineScanned
    | SignedOn
    | SignedOff
    | StepStarted
    | StepDone
    | WorkInterrupted
    | WorkResumed
    | HandoverOffered
    | HandoverAccepted
    | PersonDescribed
    | LicenceRecorded
    | DutySet
    | DutyDone
    | PhotoAdded
    | PhotoLinked
    | PhotoPinned
    | PhotoCounted
    | PhotoRejected
    | ReadingCorrected
    | PairSeen
    | LabelsPrinted
    | LabelBound
    | LabelRetired
    | ContainerDescribed
    | ContainerScanned
    | ContainerPlaced
    | ContainerCounted
    | ContainerEmptied
    | SetDescribed
    | FastenersRemoved
    | FastenersLoosened
    | FastenersRetightened
    | FastenersFoundBad
    | CaptiveReleased
    | CaptiveShut
    | FastenersMoved
    | ThingLost
    | ThingFound
    | FastenerMeasured
    | FastenerIdentified
    | LossWrittenOff
    | FastenersFitted
    | FastenersTightened
    | LockingFitted
    | WitnessMarked
    | SpecEntered
    | SpecChecked
    | SpecSuperseded
    | WrenchDescribed
    | WrenchCalibrated
    | WrenchSuspected
    | PartDescribed
    | PartRemoved
    | PartFitted
    | AccessSaid
    | ConnectionDescribed
    | ConnectionParted
    | ConnectionMade
    | OpeningDescribed
    | OpeningOpened
    | Cleaned
    | OpeningCovered
    | OpeningUncovered
    | LookedInside
    | OpeningClosed
    | ItemBroughtIn
    | ItemTakenOut
    | KitCounted
    | IsolationDescribed
    | IsolationApplied
    | IsolationProven
    | IsolationTransferred
    | IsolationCleared
    | IsolationRemoved
    | FluidDescribed
    | FluidDrained
    | FluidFilled
    | FluidChecked
    | RenewalNeeded
    | RenewalSeenOff
    | RenewalFitted
    | CompoundApplied
    | SettingDescribed
    | SettingFound
    | SettingSet
    | SecondChecked
    | HoldDescribed
    | HoldReleased
    | StartAsked
    | TestDescribed
    | TestRun
    | FindingDecided
    | ReleaseAsked
    | ReleaseSigned
    | ReleaseWithdrawn
    | JobReopened
    | EntryVoided
    | EntryReplaced
    | ClockMarked
    | DeviceReported
    | EntriesHeld
    | JournalSealed
)
Entry = Annotated[AnyEntry, Field(discriminator="kind")]
ENTRY: TypeAdapter[AnyEntry] = TypeAdapter(Entry)


def kinds() -> tuple[str, ...]:
    """Name every kind of entry, in the order of the vocabulary (practice 3.3)."""
    return tuple(get_args(model.model_fields["kind"].annotation)[0] for model in get_args(AnyEntry))
