"""The command lines of this folder that render: their parser's start, and their work spread over processes."""
import argparse, multiprocessing
from pathlib import Path


def parser(doc, seed):
    """A parser that knows where to write, from which seed, and with how many workers."""
    out = argparse.ArgumentParser(description=doc, formatter_class=argparse.RawDescriptionHelpFormatter)
    out.add_argument("out", type=Path)
    out.add_argument("--seed", type=int, default=seed)
    out.add_argument("--workers", type=int, default=1)
    return out


def in_processes(work, jobs):
    """Do each job in a process of its own, a single one in this process."""
    if len(jobs) == 1:
        work(jobs[0])
        return
    started = [multiprocessing.get_context("spawn").Process(target=work, args=(job,)) for job in jobs]
    for process in started:
        process.start()
    for process in started:
        process.join()
