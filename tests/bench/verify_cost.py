"""What a verdict costs: cold at 10,000 and 100,000 entries beside reading the JSON, and one more entry on a warm job.

python -m tests.bench.verify_cost
"""

from __future__ import annotations

import gc
import json
import statistics
from collections.abc import Callable
from time import perf_counter, process_time
from typing import Any
from uuid import UUID

from tests.builders import Told

from lastbolt.journal import entry_from, in_order
from lastbolt.journal.order import effective
from lastbolt.report.verdict import judge, verdicts
from lastbolt.state.fold import apply, fold

ALLOWED_S, ALLOWED_WARM_S = 0.3, 0.010


def big_job(entries: int) -> list[str]:
    """Write one long clean job: sets out, in, tightened twice, looked at; hoses apart and together."""
    told = Told(level=3)
    number = 0
    while len(told.raws) < entries - 1:
        number += 1
        name = f"set {number % 400}"
        if number <= 400:
            told.say("set-described", after=0, set=name, n=8, type="M8x1.25x30", part=name)
            told.say(
                "spec-entered", after=0, set=name, min_nm=20, max_nm=25, stage_count=2, source="manual p. 1"
            )
        told.say("fasteners-removed", set=name, n=8, to=f"bag {number % 400}", photos=[f"p{number}"])
        told.say("part-removed", set=None, part=name)
        told.say("connection-parted", connection=f"hose {number % 400}")
        told.say("part-fitted", part=name)
        told.say("connection-made", connection=f"hose {number % 400}")
        told.say("fasteners-fitted", set=name, n=8, source=f"bag {number % 400}")
        for stage, value in ((1, 10), (2, 22)):
            told.say(
                "fasteners-tightened",
                set=name,
                holes=[1, 5, 3, 7, 2, 6, 4, 8],
                stage=stage,
                value_nm=value,
                wrench=f"W{number % 9}",
            )
    told.say("release-asked", by="Lee")
    raws = told.raws[: entries - 1] + told.raws[-1:]
    return [json.dumps(raw | {"id": str(UUID(int=(7 << 76) | (2 << 62) | k))}) for k, raw in enumerate(raws)]


def timed(work: Callable[[], Any], times: int = 5) -> tuple[float, float]:
    """Give the least seconds of a few runs, by the clock and of the processor; a busy machine drives them apart."""
    clock, processor = [], []
    for _ in range(times):
        gc.collect()
        start, start_cpu = perf_counter(), process_time()
        work()
        clock.append(perf_counter() - start)
        processor.append(process_time() - start_cpu)
    return min(clock), min(processor)


def cold(lines: list[str]) -> dict[str, tuple[float, float]]:
    raws = [json.loads(line) for line in lines]
    entries = [entry_from(raw) for raw in raws]
    return {
        "parse JSON": timed(lambda: [json.loads(line) for line in lines]),
        "read entries": timed(lambda: [entry_from(raw) for raw in raws]),
        "order, fold and check": timed(lambda: verdicts(entries, "job 1")),
    }


def one_more(lines: list[str]) -> float:
    """Give the median seconds of one more entry on a job that is folded already: read, apply, judge."""
    timeline = effective(in_order(entry_from(json.loads(line)) for line in lines))
    job = fold(timeline, "job 1")
    told = Told(level=3)
    told.now = timeline[-1].time
    for k in range(30):
        told.say("fasteners-loosened", set=f"set {k}", holes=[1])
    spans = []
    for raw in told.raws[1:]:
        start = perf_counter()
        for h in in_order([entry_from(raw)]):
            apply(job, h)
        judge(job, ())
        spans.append(perf_counter() - start)
    return statistics.median(spans)


def main() -> None:
    totals = {}
    for size in (10_000, 100_000):
        lines = big_job(size)
        parts = cold(lines)
        clock, totals[size] = (sum(pair[k] for pair in parts.values()) for k in (0, 1))
        told = ", ".join(f"{name} {pair[1]:.3f}" for name, pair in parts.items())
        share = parts["parse JSON"][1] / totals[size]
        print(
            f"cold verify of {len(lines):,} entries: {clock:.3f} s by the clock, {totals[size]:.3f} s of processor"
        )
        print(f"  of it {told}; parsing JSON, the floor, is {share:.0%}")
        if size == 10_000:
            print(f"  allowed {ALLOWED_S} s")
            print(
                f"  one more entry on that job, warm: {one_more(lines) * 1000:.1f} ms, allowed {ALLOWED_WARM_S * 1000:.0f} ms"
            )
    print(f"ten times the entries take {totals[100_000] / totals[10_000]:.1f} times as long")


if __name__ == "__main__":
    main()
