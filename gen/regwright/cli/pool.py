"""Check many descriptions in several processes; what comes out does not depend on how many."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from typing import TYPE_CHECKING

from regwright.cli.checking import Job, Outcome, Task, outcome_of, prepare

if TYPE_CHECKING:
    from multiprocessing.context import BaseContext

#: Each process gets this many portions or so: few enough to cost little, and enough for all to
#: end at about the same time.
_PORTIONS = 16
_LARGEST_PORTION = 32


class Crashed(Exception):
    """A process ended without a result."""


def processes(jobs: int, tasks: int) -> int:
    """Return how many processes to use; ``jobs`` is 0 for one per core."""
    if jobs == 0:
        has_affinity = hasattr(os, "sched_getaffinity")
        jobs = len(os.sched_getaffinity(0)) if has_affinity else os.cpu_count() or 1
    return max(min(jobs, tasks), 1)


@contextmanager
def outcomes(job: Job, tasks: list[Task], jobs: int) -> Iterator[Iterator[Outcome]]:
    """Give the outcome of each task, in the order of the tasks, and end all processes after.

    Iterating raises :class:`Crashed` when a process ends before its time.
    """
    number = processes(jobs, len(tasks))
    if number == 1:
        yield map(partial(outcome_of, job), tasks)
        return
    import multiprocessing
    from concurrent.futures import ProcessPoolExecutor

    context = _context()
    if context.get_start_method() == "fork":
        prepare(job)
    executor = ProcessPoolExecutor(number, mp_context=context, initializer=_begin)
    portion = min(max(len(tasks) // (number * _PORTIONS), 1), _LARGEST_PORTION)
    try:
        yield _translated(lambda: executor.map(partial(outcome_of, job), tasks, chunksize=portion))
    except BaseException:
        # nobody waits for the rest
        for process in multiprocessing.active_children():
            process.terminate()
        raise
    finally:
        executor.shutdown(cancel_futures=True)


def _translated(start: Callable[[], Iterator[Outcome]]) -> Iterator[Outcome]:
    from concurrent.futures.process import BrokenProcessPool

    try:
        with _without_interrupts():
            results = start()
        yield from results
    except BrokenProcessPool:
        raise Crashed(
            "a process that checked descriptions was ended from outside, perhaps for want of "
            "memory; use fewer --jobs"
        ) from None


@contextmanager
def _without_interrupts() -> Iterator[None]:
    """Hold Ctrl-C back while processes are made, so that none of them is hit half made."""
    import signal

    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _context() -> BaseContext:
    """Return how processes are made: by fork where that is there and safe."""
    import multiprocessing

    can_fork = "fork" in multiprocessing.get_all_start_methods() and sys.platform != "darwin"
    return multiprocessing.get_context("fork" if can_fork else "spawn")


def _begin() -> None:
    """Prepare a new process: it ends when it is told to, and leaves talking to the first one."""
    import gc
    import signal

    gc.disable()
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
