"""A child of its own in which files are read, and which is given no more time and memory than they may take."""

import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import chain, count
from pathlib import Path
from typing import Literal

from tests.showing import ROOT, SCENARIOS

SECONDS = 10
"""Of the processor, for one file: 5 on the machines on which hardpan is measured, twice as many for slow ones."""
MEGABYTES = 500

BY_HAND, SAVED = 990_000, 5_000_000
"""Bytes of a file just small enough to be looked at, and of a plan."""


Read = Literal["box", "jam", "plan", "saved", "saved_set"]

CHILD = """
import resource, sys, time
from pathlib import Path
from solver.reading import BadInput, read_box, read_jam, read_jam_or_set, read_plan, read_saved, read_saved_set

folder, seconds, megabytes, *rest = sys.argv[1:]
jam = read_jam(folder + "/low-tide.toml")
READS = {
    "box": read_box,
    "jam": read_jam_or_set,
    "plan": lambda file: read_plan(file, jam),
    "saved": read_saved,
    "saved_set": read_saved_set,
}
unit = 1 if sys.platform == "darwin" else 1024
for how, name in zip(rest[::2], rest[1::2], strict=True):
    print(how, name, flush=True)
    spent = int(time.process_time())
    resource.setrlimit(resource.RLIMIT_CPU, (spent + int(seconds), resource.RLIM_INFINITY))
    said = []
    try:
        READS[how](Path(name))
    except BadInput as error:
        said = list(map(str, error.problems))
        assert 0 < len(said) <= 1100, f"{len(said)} problems"
    assert len(set(said)) == len(said), max(said, key=said.count)
    assert sum(map(len, said)) < 1_200_000, "too many words"
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * unit / 1e6
    assert most < int(megabytes), f"{most:.0f} MB"
print("done")
"""

Lines = Callable[[int], str]
Made = Callable[[], str | bytes]


def repeated(line: Lines, most: int) -> str:
    """So many numbered lines as go into a file."""

    def lines() -> Iterator[str]:
        left = most
        for number in count():
            one = line(number)
            left -= len(one)
            if left < 0:
                return
            yield one

    return "".join(lines())


def read_within_bounds(files: Mapping[str, Made], reads: Iterable[tuple[Read, str]], folder: Path) -> None:
    """Read files in a child, and fail where one takes too long or too much, or is refused without a word of its own.

    Args:
        files: What they hold, by their names.
        reads: What each is read as, one after the other.
        folder: Where they may be written.
    """
    for name, made in files.items():
        said = made()
        (folder / name).write_bytes(said if isinstance(said, bytes) else said.encode())
    words = [str(SCENARIOS), str(SECONDS), str(MEGABYTES), *chain.from_iterable(reads)]
    done = subprocess.run(
        [sys.executable, "-c", CHILD, *words],
        cwd=folder,
        env={"PYTHONPATH": str(ROOT)},
        capture_output=True,
        check=False,
        encoding="utf-8",
    )
    assert done.stdout.endswith("done\n"), f"{done.stdout.splitlines()[-1:]}: exit {done.returncode}\n{done.stderr}"
