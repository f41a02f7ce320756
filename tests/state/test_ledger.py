"""The ledger agrees with a naive recount, whatever went out, in, and from bag to bag."""

from __future__ import annotations

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.builders import Told

from lastbolt.state.fastener_set import Reach
from lastbolt.state.ledger import Ledger, Lot

SETS = {"LID": 8, "PAN": 5}
ACCOUNTS = ["B1", "B2", "SCRAP", "STORE"]
SELDOM = ["park", "unpark", "short", "lose unknown", "lose again"]
MOVES = st.lists(
    st.tuples(
        st.sampled_from(["out", "out", "in", "in", "move", "draw", "lose", "find", *SELDOM]),
        st.sampled_from(sorted(SETS)),
        st.integers(1, 6),
        st.sampled_from(ACCOUNTS[:3]),
        st.sampled_from(ACCOUNTS),
    ),
    max_size=25,
)
quick = settings(max_examples=200, derandomize=True, deadline=None)


class Recount:
    """Counts pieces one by one: a heap per set and place, the holes beside them."""

    def __init__(self) -> None:
        self.heaps: Counter[tuple[str, str]] = Counter()
        self.holes = dict(SETS)
        self.parked = dict.fromkeys(SETS, 0)
        self.lost: list[tuple[str, str, int]] = []

    def possible(self, act: str, group: str, n: int, source: str) -> int:
        """How many pieces an act can move, so that only legal jobs are told."""
        free = SETS[group] - self.holes[group] - self.parked[group]
        full = 0 if self.parked[group] else self.holes[group]
        limits = {
            "out": full,
            "short": full,
            "park": full,
            "unpark": self.parked[group],
            "in": min(free, self.heaps[group, source]),
            "draw": n,
            "lose unknown": self.heaps[group, "?"],
            "lose again": self.heaps[group, source] if self.lost else 0,
        }
        return min(n, limits.get(act, self.heaps[group, source]))


def tell(moves: list[tuple[str, str, int, str, str]]) -> tuple[Told, Recount]:
    told, count = Told(), Recount()
    for name, n in SETS.items():
        told.say("set-described", set=name, n=n)
    for number, (act, group, wanted, source, to) in enumerate(moves):
        n = count.possible(act, group, wanted, source)
        if act == "find" and count.lost:
            loss, of, pieces = count.lost.pop()
            told.say("thing-found", find=f"F{number}", matches=loss, n=pieces, to=source)
            count.heaps[of, source] += pieces
        elif n == 0 or act == "find":
            continue
        elif act in ("out", "in", "park", "unpark", "short"):
            _at_the_holes(told, count, act, group=group, n=n, source=source)
        elif act == "draw":
            told.say("fasteners-moved", set=group, n=n, source="NEW", to=source)
            count.heaps[group, source] += n
        elif act == "move":
            told.say("fasteners-moved", set=group, n=n, source=source, to=to)
            count.heaps[group, source] -= n
            count.heaps[group, to] += n
        else:
            _lose(told, count, act, group=group, n=n, source=source, name=f"L{number}")
    return told, count


def _at_the_holes(told: Told, count: Recount, act: str, *, group: str, n: int, source: str) -> None:
    if act in ("in", "unpark"):
        told.say("fasteners-fitted", set=group, n=n, source=source if act == "in" else None)
        count.holes[group] += n
    else:
        bagged = n - 1 if act == "short" else None
        to = None if act == "park" else source
        told.say("fasteners-removed", set=group, n=n, to=to, parked=act == "park", bagged=bagged)
        count.holes[group] -= n
    bags = {"out": n, "in": -n, "short": n - 1}
    count.heaps[group, source] += bags.get(act, 0)
    count.heaps[group, "?"] += act == "short"
    count.parked[group] += {"park": n, "unpark": -n}.get(act, 0)


def _lose(told: Told, count: Recount, act: str, *, group: str, n: int, source: str, name: str) -> None:
    """Lose pieces: out of a bag, out of those of which nobody knows, or once more under a name that is missing."""
    again = act == "lose again" and count.lost[-1][1] == group
    name = count.lost[-1][0] if again else name
    known = None if act == "lose unknown" else source
    told.say("thing-lost", loss=name, what="a bolt", set=group, n=n, source=known)
    count.heaps[group, known or "?"] -= n
    before = count.lost.pop()[2] if again else 0
    count.lost.append((name, group, before + n))


@given(MOVES)
@quick
def test_every_account_holds_what_a_recount_finds(moves: list[tuple[str, str, int, str, str]]) -> None:
    told, count = tell(moves)
    job = told.state

    assert {(g, a): job.ledger.balance(a, g) for g in SETS for a in ACCOUNTS} == {
        (g, a): count.heaps[g, a] for g in SETS for a in ACCOUNTS
    }
    assert job.oddities == []


@given(MOVES)
@quick
def test_holes_empty_and_lost_pieces_agree_too(moves: list[tuple[str, str, int, str, str]]) -> None:
    told, count = tell(moves)
    job = told.state

    for group, n in SETS.items():
        assert n - len(job.sets[group].of_reach(Reach.EMPTY, Reach.PARKED)) == count.holes[group]
        assert len(job.sets[group].of_reach(Reach.PARKED)) == count.parked[group]
        assert job.ledger.balance("?", group) == count.heaps[group, "?"]
        assert job.ledger.balance("LOST", group) == sum(k for _, g, k in count.lost if g == group)


@given(st.lists(st.tuples(st.booleans(), st.sampled_from("ab"), st.integers(0, 9)), max_size=30))
@quick
def test_an_account_never_goes_below_zero(moves: list[tuple[bool, str, int]]) -> None:
    ledger, naive = Ledger(), Counter[str]()
    for puts, account, n in moves:
        if puts:
            ledger.put(account, Lot("LID", "", False), n)
            naive[account] += n
        else:
            taken = ledger.take(account, Lot("LID", "", False), n)
            assert taken == min(n, naive[account])
            naive[account] -= taken

    assert {a: ledger.balance(a) for a in "ab"} == {a: naive[a] for a in "ab"}
