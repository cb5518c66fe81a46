"""Finds a test that fails for each mutant, and writes them down: ``python -m tests.mutation``."""

import sys
import time
from collections import defaultdict
from collections.abc import Mapping, Sequence
from types import CodeType, FrameType
from typing import Any

import pytest

from tests.mutation import killers
from tests.mutation.killing import Tests, fails, with_tests
from tests.mutation.mutants import Mutant, every

PLACES = ("tests/flow", "tests/search", "tests/enumeration/test_corners.py")
"""Where killers are looked for."""
LONGEST = 1.0
"""Seconds; a test that takes longer kills nothing."""


class Search:
    """Looks for the quickest killer of each mutant among tests that run its function."""

    def __init__(self, wanted: Sequence[Mutant]) -> None:
        self.wanted = wanted
        self.found: dict[str, str] = {}

    def __call__(self, tests: Tests) -> None:
        """Time the tests, and try those that run a mutant's function, the quickest first."""
        quick = {name: test for name, test in tests.items() if _may_kill(test)}
        running = _running(quick, {mutant.target.__code__ for mutant in self.wanted})
        for number, mutant in enumerate(self.wanted, start=1):
            known = killers.killers().get(mutant.id)
            trying = running[mutant.target.__code__]
            for name in sorted(trying, key=lambda name: (name != known, trying[name])):
                if fails(tests[name], mutant):
                    self.found[mutant.id] = name
                    break
            print(f"{number}/{len(self.wanted)} {mutant.id}: {self.found.get(mutant.id, 'none')}", file=sys.stderr)


def _may_kill(test: pytest.Item) -> bool:
    """Whether a test does the same every time, and runs no other tests."""
    function = getattr(test, "function", None)
    return not getattr(function, "is_hypothesis_test", False) and "mutant" not in getattr(test, "fixturenames", ())


def _running(tests: Tests, codes: set[CodeType]) -> Mapping[CodeType, dict[str, float]]:
    """For each code, the tests that run it, with the seconds that they take."""
    running: dict[CodeType, dict[str, float]] = defaultdict(dict)
    for name, test in tests.items():
        ran: set[CodeType] = set()

        def note(frame: FrameType, event: str, _: Any, ran: set[CodeType] = ran) -> None:
            if event == "call" and frame.f_code in codes:
                ran.add(frame.f_code)

        sys.setprofile(note)
        failed = fails(test)
        sys.setprofile(None)
        start = time.perf_counter()
        failed = failed or fails(test)
        seconds = time.perf_counter() - start
        if not failed and seconds < LONGEST:
            for code in ran:
                running[code][name] = seconds
    return running


def main(only: str = "") -> int:
    """Look for the killers of all mutants whose id holds a text, and say which have none."""
    known = killers.killers()
    wanted = [mutant for mutant in every() if only in mutant.id and mutant.id not in killers.equivalent()]
    search = Search(wanted)
    with_tests(PLACES, search)
    found = {mutant.id: search.found.get(mutant.id, known.get(mutant.id, "")) for mutant in every()}
    killers.write({name: killer for name, killer in found.items() if killer})
    left = [mutant.id for mutant in wanted if mutant.id not in search.found]
    print(*(f"survives: {name}" for name in left), f"{len(search.found)} killed, {len(left)} survive", sep="\n")
    return 1 if left else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:2]))
