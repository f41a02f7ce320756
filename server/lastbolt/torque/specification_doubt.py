"""Why a specification should not be trusted as it stands; a doubt is for the lead to decide."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from lastbolt.torque.agreement import find_disagreements
from lastbolt.torque.quantity import WrittenTorque, parse_torque
from lastbolt.torque.specification import GeneralTable, Specification


class DoubtKind(Enum):
    """What is wrong with where a specification comes from, or with its own figures."""

    NO_SOURCE = "no source"
    SOURCE_INCOMPLETE = "source incomplete"
    GENERAL_TABLE = "general table used"
    SUPERSEDED = "superseded"
    UNITS_DISAGREE = "units disagree"
    NOT_SECOND_CHECKED = "not compared by a second person"


@dataclass(frozen=True)
class SpecificationDoubt:
    """One reason to look again, in one sentence that says what to do."""

    kind: DoubtKind
    sentence: str


def find_doubts(specification: Specification, *, is_critical: bool = False) -> tuple[SpecificationDoubt, ...]:
    """Every doubt about a specification, in a fixed order; plausibility for the thread is judged elsewhere.

    A second person's comparison is asked only of critical joints.
    """
    doubts = list(_source_doubts(specification))
    if specification.superseded_by:
        words = f"Specification {specification.identity} was replaced by {specification.superseded_by}"
        doubts.append(SpecificationDoubt(DoubtKind.SUPERSEDED, f"{words}: use that one."))
    doubts.extend(_unit_doubts(specification))
    if is_critical and not specification.second_person:
        words = "Critical joint: have a second person compare the value with the page."
        doubts.append(SpecificationDoubt(DoubtKind.NOT_SECOND_CHECKED, words))
    return tuple(doubts)


def _source_doubts(specification: Specification) -> tuple[SpecificationDoubt, ...]:
    source = specification.origin
    if source is None:
        words = "No source is given: enter the maker's manual, its edition and the page."
        return (SpecificationDoubt(DoubtKind.NO_SOURCE, words),)
    if isinstance(source, GeneralTable):
        words = f"No value from the maker, general table used ({source.table}): the lead decides."
        return (SpecificationDoubt(DoubtKind.GENERAL_TABLE, words),)
    fields = {
        "manual": source.manual,
        "edition": source.revision,
        "page": source.page,
        "who typed it": source.typed_by,
    }
    missing = [name for name, text in fields.items() if not text.strip()]
    if not missing:
        return ()
    words = f"The source lacks {', '.join(missing)}: add it."
    return (SpecificationDoubt(DoubtKind.SOURCE_INCOMPLETE, words),)


def _unit_doubts(specification: Specification) -> tuple[SpecificationDoubt, ...]:
    doubts = []
    for text in dict.fromkeys(stage.window.text for stage in specification.stages if stage.window):
        written = parse_torque(text)
        if isinstance(written, WrittenTorque):
            doubts += [
                SpecificationDoubt(DoubtKind.UNITS_DISAGREE, disagreement.sentence)
                for disagreement in find_disagreements(written)
            ]
    return tuple(doubts)


def specifications_in_force(specifications: Sequence[Specification]) -> tuple[Specification, ...]:
    """Those that nothing has replaced, in the order given."""
    return tuple(specification for specification in specifications if not specification.superseded_by)
