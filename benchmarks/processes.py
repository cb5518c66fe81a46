"""Times whole processes: how long each takes from start to end, and the most memory it holds."""

import os
import subprocess
import sys
import time
from collections.abc import Mapping, Sequence
from statistics import median
from typing import NamedTuple

ROUNDS = 5
"""Every command runs so often, in turns with all others, so that a slow moment of the machine meets all alike."""

LONG = 20.0
"""Seconds; a command that took longer than this is not run again."""


class Taken(NamedTuple):
    """What a command took: medians of its seconds and of those of work, the most memory in MB, its exit status."""

    seconds: float
    work: float
    memory: float
    status: int


def python(*arguments: str) -> list[str]:
    """A command for the Python that runs this."""
    return [sys.executable, *arguments]


def hardpan(*arguments: str) -> list[str]:
    """The command ``hardpan``, also where it is not installed."""
    return python("-m", "solver", *arguments)


def measured(commands: Mapping[str, Sequence[str]], rounds: int = ROUNDS) -> dict[str, Taken]:
    """Run each command several times, all of them in turn, and take the medians."""
    runs: dict[str, list[Taken]] = {name: [] for name in commands}
    for _ in range(rounds):
        for name, command in commands.items():
            if not runs[name] or runs[name][-1].seconds < LONG:
                runs[name].append(_run(command))
    return {
        name: Taken(
            median(run.seconds for run in taken),
            median(run.work for run in taken),
            max(run.memory for run in taken),
            taken[-1].status,
        )
        for name, taken in runs.items()
    }


def _run(command: Sequence[str]) -> Taken:
    start = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    seconds = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    return Taken(seconds, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024, process.returncode)
