"""Finds a test that fails for each mutant, and writes them down: ``python -m tests.mutation``."""

import sys
import time
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from types import CodeType, FrameType
from typing import Any

import pytest

from tests.mutation.killers import equivalent, killers, write
from tests.mutation.killing import ROOT, Tests, fails, with_tests
from tests.mutation.mutants import Mutant, every

PLACES = ("tests/flow", "tests/search", "tests/enumeration/test_corners.py", "tests/whatif/test_near.py")
"""Where killers are looked for."""
LONGEST = 0.5
"""Seconds of work; a test that takes more of them to pass or to fail is no killer."""


def found_among(places: Iterable[str], wanted: Sequence[Mutant]) -> dict[str, str]:
    """The quickest killer of each mutant among the tests in these places, as far as there is one."""
    found: dict[str, str] = {}

    def look(tests: Tests) -> None:
        running = _running(tests, {mutant.target.__code__ for mutant in wanted})
        for number, mutant in enumerate(wanted, start=1):
            seconds = running[mutant.target.__code__]
            quick_first = sorted(seconds, key=seconds.__getitem__)
            killer = next((name for name in quick_first if _kills(tests[name], mutant)), None)
            found.update({mutant.id: killer} if killer is not None else {})
            print(f"{number}/{len(wanted)} {mutant.id}: {killer or 'survives'}", file=sys.stderr)

    with_tests(places, look)
    return found


def _kills(test: pytest.Item, mutant: Mutant) -> bool:
    """Whether a test fails with a mutant, and soon."""
    start = time.process_time()
    return fails(test, mutant) and time.process_time() - start < LONGEST


def _running(tests: Tests, codes: set[CodeType]) -> Mapping[CodeType, dict[str, float]]:
    """For each code the tests that run it, with the seconds that they take; only tests that do the same every time."""
    running: dict[CodeType, dict[str, float]] = defaultdict(dict)
    ran: set[CodeType] = set()

    def note(frame: FrameType, event: str, _: Any) -> None:
        if event == "call" and frame.f_code in codes:
            ran.add(frame.f_code)

    for name, test in tests.items():
        if isinstance(test, pytest.Function) and not getattr(test.function, "is_hypothesis_test", False):
            start = time.process_time()
            sound = not fails(test)
            seconds = time.process_time() - start
            if sound and seconds < LONGEST:
                ran.clear()
                sys.setprofile(note)
                fails(test)
                sys.setprofile(None)
                for code in ran:
                    running[code][name] = seconds
    return running


def still_killed(mutants: Iterable[Mutant]) -> dict[str, str]:
    """What is written down and still true."""
    known = {mutant: killers()[mutant.id] for mutant in mutants if mutant.id in killers()}
    kept: dict[str, str] = {}

    def check(tests: Tests) -> None:
        sound = {name for name in set(known.values()) & tests.keys() if not fails(tests[name])}
        for mutant, killer in known.items():
            if killer in sound and _kills(tests[killer], mutant):
                kept[mutant.id] = killer

    files = dict.fromkeys(killer.split("::")[0] for killer in known.values())
    with_tests([file for file in files if (ROOT / file).exists()], check)
    return kept


def main(*words: str) -> int:
    """Look for killers of the mutants that have none; with ``--all``, of every mutant anew."""
    mutants = [mutant for mutant in every() if mutant.id not in equivalent()]
    kept = {} if "--all" in words or not killers() else still_killed(mutants)
    left = [mutant for mutant in mutants if mutant.id not in kept]
    found = kept | (found_among(PLACES, left) if left else {})
    write({mutant.id: found[mutant.id] for mutant in mutants if mutant.id in found})
    survivors = [mutant.id for mutant in mutants if mutant.id not in found]
    for name in survivors:
        print(f"survives: {name}")
    print(f"{len(found)} of {len(mutants)} mutants are killed, {len(equivalent())} more change nothing")
    return 1 if survivors else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
